"""The family of letters: head, window, information block, fold marks and foot of invoices and all that follow them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.papers.blocks import Gap, Stack, Whole
from app.papers.facts import Customer, SheetFacts, Shop
from app.papers.flow import Flow
from app.papers.labelled_rows import labelled_rows
from app.papers.line_breaks import Run
from app.papers.pen import HAIRLINE, POINT, Pen
from app.papers.said import together
from app.papers.sheet import FORMATS, Format, page_of
from app.papers.signs import draw_mark
from app.papers.text import (
    ADDRESS,
    ASCENT,
    BODY,
    FINE,
    FINE_GREY,
    RIGHT,
    TABLE,
    TITLE,
    Style,
    TextBlock,
    cut,
    fitted,
    held,
    natural,
    set_text,
)
from app.trade.wording import Wording

LEFT_MARGIN = 25.0
RIGHT_MARGIN = 20.0
FIRST_TOP = 98.0
LATER_TOP = 21.0
ADDRESS_WIDTH = 78.0
BLOCK_LEFT = 125.0  # information block
NAME = Style(15, 6, bold=True)
# Place and width of the three columns of the foot, without and with bank lines.
FOOT_COLUMNS = (
    ((LEFT_MARGIN, 58.0), (87.0, 80.0), (136.0, 36.0)),
    ((LEFT_MARGIN, 56.0), (83.0, 41.0), (126.0, 47.0)),
)


@dataclass(frozen=True)
class Letter:
    """What is said around the text of a letter: ``kind`` and ``number`` are its title, ``rows`` its information block."""

    sheet: SheetFacts
    kind: str
    number: str
    job: int
    customer: Customer
    rows: Sequence[tuple[str, str]]

    @property
    def format(self) -> Format:
        """The sheet it is printed on."""
        return FORMATS[self.sheet.size]

    @property
    def width(self) -> float:
        """Width of the type area."""
        return self.format.width - LEFT_MARGIN - RIGHT_MARGIN

    @property
    def title(self) -> str:
        """Kind and number, as the file names itself."""
        return f"{self.kind} {self.number}".rstrip()

    def flow(self, wording: Wording) -> Flow:
        """A flow for the text. It begins with the whole address where the window has no room for all of it."""
        foot = self.format.height - self._foot_height(wording)
        flow = Flow(LEFT_MARGIN, self.width, FIRST_TOP, LATER_TOP, foot - 5)
        if self._address[1]:
            address = ", ".join(part for part in (self.customer.name, *self.customer.address) if part.strip())
            words = wording("The address in full: {address}", address=address)
            flow.put(Stack((set_text(words, FINE_GREY, self.width), Gap(3.0))))
        return flow

    @property
    def _address(self) -> tuple[list[TextBlock], bool]:
        return address_block(
            (self.customer.name, *self.customer.address), ADDRESS_WIDTH, self.format.address_lines
        )

    def dress(self, pen: Pen, page: int, pages: int, wording: Wording) -> None:
        """Everything around the text of one page."""
        right = self.format.width - RIGHT_MARGIN
        if page == 1:
            self._head(pen, right)
            self._window(pen)
            self._information(pen, right)
            for at, length in ((self.format.folds[0], 5), (self.format.hole, 3), (self.format.folds[1], 5)):
                pen.line(5, at, 5 + length, at, 0.5, HAIRLINE)
        else:
            line = Style(FINE.size, FINE.leading)
            top = 15.4 - ASCENT * line.size * POINT
            about = wording("{paper} · job {job}", paper=self.title, job=str(self.job))
            about_block = set_text(about, FINE_GREY, self.width * 0.6, RIGHT)
            room = self.width - about_block.widest - 4
            held(self.sheet.shop.name, line.but(bold=True), room).draw(pen, LEFT_MARGIN, top)
            about_block.draw(pen, right - about_block.width, top)
        self._foot(pen, right, wording, page_of(wording, page, pages))

    def _head(self, pen: Pen, right: float) -> None:
        shop = self.sheet.shop
        start = draw_shop_mark(pen, shop, LEFT_MARGIN, 15.1, 12.8) + 4
        contact = ((", ".join(shop.address), 3), (shop.phone, 1), (shop.email, 2))
        blocks = [cut(text, FINE_GREY, 72, most, RIGHT) for text, most in contact if text]
        top = 15.0
        for block in blocks:
            block.draw(pen, right - 72, top)
            top += block.height
        room = right - start - max((block.widest for block in blocks), default=0) - 6
        name = _at_most(2, fitted(shop.name, NAME, room), shop.name)
        name_top = 21.3 - ASCENT * name.style.size * POINT - (len(name.lines) - 1) * name.style.leading
        name.draw(pen, start, name_top)
        if shop.trade_line:
            cut(shop.trade_line, FINE_GREY, room, 3).draw(pen, start, 23.2)

    def _window(self, pen: Pen) -> None:
        """Sender line, rule and address where a window envelope shows them (DIN 5008 form B)."""
        up = self.format.address_up
        sender = " · ".join(part for part in (self.sheet.shop.name, *self.sheet.shop.address[-1:]) if part)
        line = _at_most(2, fitted(sender, FINE_GREY, 76), sender)
        line.draw(pen, LEFT_MARGIN, 59 - up - ASCENT * line.style.size * POINT - (len(line.lines) - 1) * 4.2)
        pen.rule(LEFT_MARGIN, 61 - up, 76)
        block, _ = self._address
        top = 67.4 - up - ASCENT * block[0].style.size * POINT if block else 0.0
        for line in block:
            line.draw(pen, LEFT_MARGIN, top)
            top += line.height

    def _information(self, pen: Pen, right: float) -> None:
        wide = right - BLOCK_LEFT
        title = [Run(self.kind, bold=True), Run(f" {self.number}" if self.number else "")]
        style = TITLE
        while natural(title, style) > wide and style.size > 12:
            style = style.but(size=style.size - 1)
        block = set_text(title, style, wide)
        block.draw(
            pen, BLOCK_LEFT, 56.4 - ASCENT * style.size * POINT - (len(block.lines) - 1) * style.leading
        )
        labelled_rows(self.rows, wide, FINE_GREY, TABLE, 4.9, most=2).draw(pen, BLOCK_LEFT, 60.65)

    def _columns(self, wording: Wording) -> list[TextBlock]:
        shop = self.sheet.shop
        numbers = []
        if shop.vat_id:
            numbers.append(wording("VAT number {number}", number=shop.vat_id))
        if shop.tax_number:
            numbers.append(wording("tax number {number}", number=shop.tax_number))
        if shop.register_number:
            numbers.append(wording("register number {number}", number=shop.register_number))
        if shop.phone:
            numbers.append(shop.phone)
        rooms = FOOT_COLUMNS[bool(shop.bank_lines)]
        texts = ((shop.name, ", ".join(shop.address)), numbers, shop.bank_lines)
        return [
            set_text(text_lines(text), FINE_GREY, room) for text, (_, room) in zip(texts, rooms, strict=True)
        ]

    def _foot_height(self, wording: Wording) -> float:
        """From the foot's rule to the edge; nothing stands nearer to the edge than 5 mm."""
        most = max(block.height for block in self._columns(wording))
        return max(19.0, 1.0 + most + 6.0)

    def _foot(self, pen: Pen, right: float, wording: Wording, number: str) -> None:
        top = self.format.height - self._foot_height(wording)
        pen.rule(LEFT_MARGIN, top, self.width)
        columns = FOOT_COLUMNS[bool(self.sheet.shop.bank_lines)]
        for (x, _), block in zip(columns, self._columns(wording), strict=True):
            block.draw(pen, x, top + 1.0)
        set_text(number, FINE, 30, RIGHT).draw(pen, right - 30, top + 1.0)


def _at_most(lines: int, block: TextBlock, text: str) -> TextBlock:
    """The block, cut where it has more lines: the whole stands at the foot."""
    return block if len(block.lines) <= lines else cut(text, block.style, block.width, lines)


def text_lines(parts: Sequence[str]) -> str:
    """Parts as lines of one text."""
    return "\n".join(part for part in parts if part)


def draw_shop_mark(pen: Pen, shop: Shop, x: float, top: float, size: float) -> float:
    """The shop's logo, or our neutral disc; returns where it ends at the right. A logo may be 3 times as wide as high."""
    if not shop.logo:
        draw_mark(pen, x, top, size)
        return x + size
    return x + pen.picture(shop.logo, x, top, size * 3, size)


def address_block(parts: Sequence[str], width: float, most: int) -> tuple[list[TextBlock], bool]:
    """An address in at most ``most`` lines of 5 mm: set smaller, then closed up, then its longest parts cut; and
    whether anything was cut."""
    texts = [part for part in parts if part.strip()]
    room = most * ADDRESS.leading + 0.01
    for style in (ADDRESS, BODY.but(size=10), Style(9.5, 4.4), Style(9, 3.9)):
        blocks = [set_text(text, style, width) for text in texts]
        if sum(block.height for block in blocks) <= room:
            return blocks, False
    style = Style(9, 3.6)
    joined = set_text(", ".join(texts), style, width)
    if joined.height <= room:
        return [joined], False
    lines = [len(set_text(text, style, width).lines) for text in texts]
    while sum(lines) * style.leading > room and max(lines) > 1:
        longest = len(lines) - 1 - lines[::-1].index(max(lines))
        lines[longest] -= 1
    return [cut(text, style, width, count) for text, count in zip(texts, lines, strict=True)], True


@dataclass(frozen=True)
class ShopHead(Whole):
    """Mark, name and one line with address and telephone: the head of tickets, receipts and reports."""

    shop: Shop
    width: float
    mark: float = 10.5
    phone: bool = True

    def _blocks(self, start: float) -> tuple[TextBlock, TextBlock]:
        parts = [", ".join(self.shop.address), together(self.shop.phone) if self.phone else ""]
        room = self.width - start
        line = " · ".join(part for part in parts if part)
        if natural(line, FINE_GREY) > room:
            line = text_lines(parts)
        name = fitted(self.shop.name, Style(13, 5.0, bold=True), room)
        if name.style.size < 11:
            name = fitted(self.shop.name, Style(11, 4.4, bold=True), room, 2)
        return name, fitted(line, FINE_GREY, room, 2)

    @property
    def height(self) -> float:
        """Of the mark or the words."""
        name, line = self._blocks(self.mark * (3 if self.shop.logo else 1) + 3)
        return max(self.mark, name.height + line.height + 0.6)

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Mark at the left, name and line beside it."""
        start = draw_shop_mark(pen, self.shop, x, top, self.mark) + 3 - x
        name, line = self._blocks(start)
        first = top + max(0.0, (self.mark - name.height - line.height) / 2)
        name.draw(pen, x + start, first - 0.2)
        line.draw(pen, x + start, first + name.height + 0.4)
