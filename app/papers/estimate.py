"""The estimate: ways to mend the player in columns beside each other, and the box for the answer."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.papers.blocks import Whole
from app.papers.estimate_answer import answer_box
from app.papers.estimate_facts import EstimateFacts, EstimateLine, EstimateOption
from app.papers.flow import Flow
from app.papers.invoice_facts import VatGroup
from app.papers.letter import Letter
from app.papers.line_breaks import Run
from app.papers.pen import HAIRLINE, INK, Pen
from app.papers.said import amount, percent, serial, worded
from app.papers.sheet import made
from app.papers.text import (
    BODY,
    FINE,
    FINE_GREY,
    FIRST,
    RIGHT,
    SECTION,
    TABLE,
    Style,
    TextBlock,
    fitted,
    natural,
    set_text,
)
from app.trade.wording import Wording

LETTER = Style(22, 8.4, bold=True)
TOTAL = Style(15, 6, bold=True)
TOTAL_WORDS = Style(12, 5, bold=True)
PAD = 1.1
# Width of the labels and the gap between columns, by the number of options.
SHAPES = {1: (58.0, 4.0), 2: (38.0, 4.0), 3: (28.0, 3.5)}


@dataclass(frozen=True)
class Grid:
    """Where labels and columns stand."""

    width: float
    labels: float
    gap: float
    columns: int

    @property
    def column(self) -> float:
        """Width of one column."""
        return (self.width - self.labels - self.columns * self.gap) / self.columns

    def left(self, at: int) -> float:
        """Where a column begins."""
        return self.labels + self.gap + at * (self.column + self.gap)


@dataclass(frozen=True)
class Cells(Whole):
    """One row over all columns: a label, and in each column blocks at its left and its right edge.

    ``above`` and ``below`` are rules in points; ``across`` draws them under the labels, too.
    """

    grid: Grid
    label: TextBlock
    cells: tuple[tuple[TextBlock, TextBlock | None], ...]
    pad: float = PAD
    above: float = 0.0
    below: float = 0.0
    across: bool = False

    @property
    def height(self) -> float:
        """Of the tallest block, with the room around it."""
        blocks = [self.label, *(block for pair in self.cells for block in pair if block is not None)]
        return max(block.height for block in blocks) + 2 * self.pad + (0.7 if self.above else 0.0)

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Rules, label and cells; words of one row share their first baseline with a large amount."""
        self._rules(pen, x, top, self.above)
        at = top + self.pad + (0.7 if self.above else 0.0)
        leading = max((pair[1].style.leading for pair in self.cells if pair[1] is not None), default=0.0)
        lift = max(0.0, leading - self.label.style.leading) * 0.6
        self.label.draw(pen, x, at + lift)
        for column, (left, right) in enumerate(self.cells):
            left.draw(pen, x + self.grid.left(column), at + lift)
            if right is not None:
                right.draw(pen, x + self.grid.left(column) + self.grid.column - right.width, at)
        self._rules(pen, x, top + self.height, self.below)

    def _rules(self, pen: Pen, x: float, y: float, points: float) -> None:
        if not points:
            return
        ink = HAIRLINE if points < 0.4 else INK
        if self.across:
            pen.rule(x, y, self.grid.width, points, ink)
            return
        for column in range(self.grid.columns):
            pen.rule(x + self.grid.left(column), y, self.grid.column, points, ink)


@dataclass(frozen=True)
class Heads(Whole):
    """The letter and the name of each option under a strong rule."""

    grid: Grid
    heads: tuple[tuple[TextBlock, TextBlock], ...]

    @property
    def height(self) -> float:
        """Down to the hairline below."""
        return max(max(letter.height, name.height + 3.2) for letter, name in self.heads) + 2.6

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Rules, letters, names."""
        for column, (letter, name) in enumerate(self.heads):
            left = x + self.grid.left(column)
            pen.rule(left, top, self.grid.column, 1.8, INK)
            letter.draw(pen, left, top + 1.2)
            name.draw(pen, left + (letter.widest + 3.5 if letter.lines else 0.0), top + 4.2)
        pen.rule(x, top + self.height, self.grid.width, 0.35, HAIRLINE)


def estimate(facts: EstimateFacts, wording: Wording) -> bytes:
    """The PDF of an estimate, A4 or Letter."""
    letter = _letter(facts, wording)
    flow = letter.flow(wording)
    flow.put(set_text(_heading(facts, wording), FIRST, flow.width))
    flow.run(set_text(_intro(facts, wording), BODY, flow.width), 0.8)
    labels, gap = SHAPES[len(facts.options)]
    grid = Grid(flow.width, labels, gap, len(facts.options))
    _pour(flow, grid, facts, wording)
    box = answer_box(facts, flow.width, wording)
    if box.height + 4.2 > flow.room:
        flow.turn()
        box = answer_box(facts, flow.width, wording, alone=True)
    flow.put(box, 4.2)
    return made(
        flow.pages,
        letter.format,
        letter.title,
        facts.sheet,
        wording,
        lambda pen, page, pages: letter.dress(pen, page, pages, wording),
    )


def _letter(facts: EstimateFacts, wording: Wording) -> Letter:
    rows = [
        (wording("Date"), wording.day(facts.issued, "d MMMM y")),
        (wording("Open until"), wording.day(facts.valid_until, "d MMMM y")),
        (wording("Job"), str(facts.job)),
    ]
    if facts.customer.number:
        rows.append((wording("Customer"), facts.customer.number))
    if facts.looked_at_by:
        rows.append((wording("Player looked at by"), facts.looked_at_by))
    number = facts.number or wording("draft")
    return Letter(facts.sheet, wording("Estimate"), number, facts.job, facts.customer, rows)


def _heading(facts: EstimateFacts, wording: Wording) -> str:
    match len(facts.options):
        case 1:
            return wording("What it costs to mend your disc player")
        case 2:
            return wording("Two ways to mend your disc player")
        case _:
            return wording("Three ways to mend your disc player")


def _intro(facts: EstimateFacts, wording: Wording) -> str:
    parts = [
        wording("{player}, {serial}.", player=facts.player.name, serial=serial(facts.player, wording)),
        facts.intro,
        worded(facts.cause, wording),
    ]
    if facts.limit is not None:
        parts.append(wording("At taking in you named a limit of {limit}.", limit=facts.limit))
    return " ".join(part for part in parts if part)


def _pour(flow: Flow, grid: Grid, facts: EstimateFacts, wording: Wording) -> None:
    """Heads, then rows; the heads are repeated where a page ends. The sums stay together."""
    heads = _heads(grid, facts.options, len(facts.options) > 1)
    flow.put(heads, 2.6)
    for row in (*_words(grid, facts, wording), *_lines(grid, facts, wording)):
        if row.height > flow.room + 0.01:
            flow.turn()
            flow.put(heads)
        flow.put(row)
    sums = tuple(_sums(grid, facts, wording))
    if sum(row.height for row in sums) > flow.room + 0.01:
        flow.turn()
        flow.put(heads)
    for row in sums:
        flow.put(row)


def _heads(grid: Grid, options: tuple[EstimateOption, ...], lettered: bool) -> Heads:
    made_of = []
    for option in options:
        letter = set_text(option.letter, LETTER, 9.0) if lettered else TextBlock((), LETTER, 0.0)
        room = grid.column - (letter.widest + 3.5 if lettered else 0.0)
        made_of.append((letter, set_text(option.title, SECTION, room)))
    return Heads(grid, tuple(made_of))


def _words(grid: Grid, facts: EstimateFacts, wording: Wording) -> Iterator[Cells]:
    """What is done, the maker's design, what may go wrong, guarantee, when: rows that no option fills are left out."""
    options = facts.options
    told: list[tuple[str, list[str | Run]]] = [
        (wording("What we do"), [option.what for option in options]),
        (
            wording("Maker’s design"),
            [Run(option.design, bold=True) if option.design else wording("kept") for option in options],
        ),
        (wording("What may go wrong"), [option.risk for option in options]),
        (wording("Guarantee"), [option.guarantee for option in options]),
        (wording("Ready"), [option.ready for option in options]),
    ]
    for label, texts in told:
        if any(text.text if isinstance(text, Run) else text for text in texts):
            yield Cells(
                grid,
                set_text(label, FINE_GREY, grid.labels),
                tuple((set_text(text, TABLE, grid.column), None) for text in texts),
                below=0.35,
                across=True,
            )


def _lines(grid: Grid, facts: EstimateFacts, wording: Wording) -> Iterator[Cells]:
    """Lines that are called the same share a row; the first carries the currency."""
    rows: list[tuple[str, list[EstimateLine | None]]] = []
    for at, option in enumerate(facts.options):
        for line in option.lines:
            for words, row in rows:
                if words == line.words and row[at] is None and line.net is not None:
                    row[at] = line
                    break
            else:
                row = [None] * len(facts.options)
                row[at] = line
                rows.append((line.words, row))
    first = True
    for words, row in rows:
        text_only = all(line is None or line.net is None for line in row)
        yield Cells(
            grid,
            set_text("" if text_only else words, FINE_GREY, grid.labels),
            tuple(_figures(grid, line, wording) for line in row),
            pad=0.35,
            above=0.9 if first else 0.0,
            across=True,
        )
        first = False


def _figures(grid: Grid, line: EstimateLine | None, wording: Wording) -> tuple[TextBlock, TextBlock | None]:
    nothing = set_text("", FINE_GREY, grid.column)
    if line is None:
        return nothing, None
    if line.net is None:
        return set_text(line.words, FINE, grid.column), None
    figure = amount(line.net, wording)
    right = _right(figure, TABLE, grid)
    if line.quantity is None:
        return nothing, right
    many = f"{wording.number(line.quantity, grouped=True)}\u00a0{worded(line.unit, wording)}"
    if natural(many, FINE_GREY) + right.widest + 2 > grid.column:
        right = _right(f"\n{figure}", TABLE, grid)  # both are too long for one line
    return set_text(many, FINE_GREY, grid.column), right


def _sums(grid: Grid, facts: EstimateFacts, wording: Wording) -> Iterator[Cells]:
    """Net, VAT by rate, the sum with VAT, and the amount that it never goes above."""
    options = facts.options
    currency = options[0].total.currency

    def row(
        label: str, figures: list[str], style: Style = TABLE, *, above: float = 0.0, pad: float = 0.35
    ) -> Cells:
        words = TOTAL_WORDS if style is TOTAL else FINE_GREY
        cells = tuple(
            (set_text("", FINE_GREY, grid.column), _right(figure, style, grid) if figure else None)
            for figure in figures
        )
        return Cells(grid, set_text(label, words, grid.labels), cells, pad, above)

    yield row(
        wording("Net {currency}", currency=currency),
        [amount(option.net, wording) for option in options],
        above=0.6,
    )
    rates = sorted({group.rate for option in options for group in option.vat}, reverse=True)
    for rate in rates:
        groups = [_group(option, rate) for option in options]
        reason = next((worded(g.reason, wording) for g in groups if g is not None and g.reason), "")
        label = wording("VAT {rate}", rate=percent(rate, wording))
        yield row(
            f"{label}: {reason}" if reason else label,
            ["" if group is None else amount(group.vat, wording) for group in groups],
        )
    if any(option.rounding is not None for option in options):
        yield row(
            wording("Rounding"),
            ["" if option.rounding is None else amount(option.rounding, wording) for option in options],
        )
    label = wording("With VAT, {currency}", currency=currency)
    yield row(label, [amount(option.total, wording) for option in options], TOTAL, above=1.6, pad=0.6)
    if any(option.never_above is not None for option in options):
        highest = [option.never_above or option.total for option in options]
        yield row(
            wording("never above, {currency}", currency=currency), [amount(one, wording) for one in highest]
        )


def _group(option: EstimateOption, rate: object) -> VatGroup | None:
    return next((group for group in option.vat if group.rate == rate), None)


def _right(text: str, style: Style, grid: Grid) -> TextBlock:
    return fitted(text, style, grid.column, 1 + text.count("\n"), RIGHT)
