"""Returned unrepaired and unsafe: the large stop, what is unsafe, who decided, who signed, and the tag for the plug."""

from __future__ import annotations

from dataclasses import dataclass

from app.papers.blocks import Beside, Block, Gap, Quote, Stack, Whole, section
from app.papers.facts import FlagLevel, Sign
from app.papers.flags import level_word
from app.papers.flow import Flow, Page, stack
from app.papers.intake_words import quoted
from app.papers.labelled_rows import labelled_rows
from app.papers.letter import ShopHead
from app.papers.line_breaks import Run
from app.papers.pen import INK, Pen
from app.papers.plug_tag import HEIGHT, WIDTH, PlugTag
from app.papers.said import together, worded
from app.papers.sheet import FORMATS, Format, made, page_of
from app.papers.signatures import signature_lines
from app.papers.signs import draw_level, draw_sign
from app.papers.text import BODY, FINE, FINE_GREY, FIRST, RIGHT, TABLE, Style, TextBlock, fitted, set_text
from app.papers.unsafe_return_facts import UnsafeReturnFacts
from app.trade.wording import Wording

MARGIN_LEFT, MARGIN_RIGHT = 18.0, 14.0
HEAD_TOP = 9.8
RIGHT_COLUMN, BETWEEN = 66.0, 8.0
TAG_FOOT = 11.1  # from the tag to the edge
SIGN = 14.0


def unsafe_return(facts: UnsafeReturnFacts, wording: Wording) -> bytes:
    """The PDF of the sheet. One sheet; long texts flow on, and the tag stands at the foot of the last page."""
    paper = FORMATS[facts.sheet.size]
    width = paper.width - MARGIN_LEFT - MARGIN_RIGHT
    tag_top = paper.height - TAG_FOOT - HEIGHT
    flow = _flow(facts, width, paper.height - 13.0, 0, wording)
    for step in (1, 2):
        if len(flow.pages) > 1 or flow.top > tag_top - 5.0:
            flow = _flow(facts, width, paper.height - 13.0, step, wording)
    if flow.top > tag_top - 5.0:
        flow.turn()
    page = flow.pages[-1]
    left = MARGIN_LEFT + (width - WIDTH) / 2
    hint = set_text(wording("Plug tag: cut out, fold round the cord, tie through the hole"), FINE_GREY, WIDTH)
    page.put(hint, left, tag_top - 0.4 - hint.height)
    page.put(PlugTag(facts, wording), left, tag_top)
    title = wording("Returned unrepaired and unsafe {job}", job=str(facts.job))
    return made(
        flow.pages,
        paper,
        title,
        facts.sheet,
        wording,
        lambda pen, p, n: _dress(pen, facts, paper, p, n, wording),
    )


def plug_tag(facts: UnsafeReturnFacts, wording: Wording) -> bytes:
    """The PDF of the plug tag alone, 178 x 40 mm."""
    page = Page()
    page.put(PlugTag(facts, wording), 0, 0)
    title = wording("Plug tag {job}", job=str(facts.job))
    return made([page], Format(WIDTH, HEIGHT), title, facts.sheet, wording)


def _flow(facts: UnsafeReturnFacts, width: float, bottom: float, step: int, wording: Wording) -> Flow:
    """Everything but the tag. At step 1 the gaps are smaller, at step 2 the text too."""
    space = (1.0, 0.6, 0.5)[step]
    body, text = ((BODY, TABLE), (BODY, TABLE), (FINE, FINE))[step]
    top = max(
        25.0, HEAD_TOP + _head(facts, width, wording)[0].height + 2.5
    )  # a long address pushes all of it down
    flow = Flow(MARGIN_LEFT, width, top, top, bottom)
    flow.put(large_stop(facts, width, wording))
    room = width - RIGHT_COLUMN - BETWEEN
    left = stack((_unsafe(facts, room, body, text, wording), _first(facts, room, text, wording)), 2.6 * space)
    right = stack((_player(facts, wording), _offers(facts, wording)), 2.2 * space)
    flow.put(Beside(((0.0, left), (width - RIGHT_COLUMN, right))), 4.8 * space)
    flow.put(_decision(facts, width, text, wording), 3.0 * space)
    flow.put(_signature(facts, width, text, wording), 2.6 * space)
    return flow


def _head(facts: UnsafeReturnFacts, width: float, wording: Wording) -> tuple[ShopHead, TextBlock, TextBlock]:
    """The shop at the left; at the right what this is, and of which job and day."""
    room = width / 2
    title = fitted(wording("Returned unrepaired and unsafe"), FIRST, room - 4, 1, RIGHT)
    day = wording.day(facts.day, "d MMMM y")
    about = set_text(wording("job {job} · {day}", job=str(facts.job), day=day), FINE_GREY, room, RIGHT)
    return ShopHead(facts.sheet.shop, width - max(title.widest, about.widest) - 5), title, about


def _dress(
    pen: Pen, facts: UnsafeReturnFacts, paper: Format, page: int, pages: int, wording: Wording
) -> None:
    right = paper.width - MARGIN_RIGHT
    head, title, about = _head(facts, right - MARGIN_LEFT, wording)
    title.draw(pen, right - title.width, 15.0 - 0.984 * title.style.size * 0.3528)
    about.draw(pen, right - about.width, 16.6)
    head.draw(pen, MARGIN_LEFT, HEAD_TOP)
    number = page_of(wording, page, pages)
    foot = wording("{page} · one sheet for you, one signed sheet for the shop", page=number)
    set_text(foot, FINE_GREY, right - MARGIN_LEFT, RIGHT).draw(pen, MARGIN_LEFT, paper.height - 8.8)


@dataclass(frozen=True)
class LargeStop(Whole):
    """The large stop in its heavy frame."""

    words: Stack
    width: float

    TEXT = 55.6  # from the left edge to the words
    LARGE = 39.0

    @property
    def height(self) -> float:
        """Of the words or the sign."""
        return max(57.0, self.words.height + 7.1)

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Frame, bar, sign and words."""
        pen.frame(x, top, self.width, self.height, 2.6, INK)
        pen.block(x, top, 3.0, self.height)
        draw_level(pen, FlagLevel.STOP, x + 9.4, top + (self.height - self.LARGE) / 2, self.LARGE)
        self.words.draw(pen, x + self.TEXT, top + 2.6)


def large_stop(facts: UnsafeReturnFacts, width: float, wording: Wording) -> LargeStop:
    """What everybody must see first."""
    room = width - LargeStop.TEXT - 6
    words = Stack(
        (
            fitted(wording("Do not use"), Style(50, 18.0, bold=True), room),
            Gap(3.8),
            fitted(wording("Do not plug it in"), Style(26, 10.0, bold=True), room),
            Gap(4.0),
            set_text(worded(facts.warning, wording), BODY, room),
        )
    )
    return LargeStop(words, width)


def _unsafe(facts: UnsafeReturnFacts, width: float, style: Style, small: Style, wording: Wording) -> Stack:
    stop = level_word(FlagLevel.STOP, wording) + " "
    body: list[Block] = []
    for sentence in facts.unsafe:
        body += [set_text([Run(stop, bold=True), Run(worded(sentence, wording))], style, width), Gap(0.8)]
    body.append(set_text(worded(facts.not_measured, wording), small, width))
    return section(wording("What is unsafe"), width, *body)


def _first(facts: UnsafeReturnFacts, width: float, style: Style, wording: Wording) -> Stack:
    rows: list[Block] = []
    for number, step in enumerate(facts.first_steps, 1):
        figure = set_text(Run(str(number), bold=True), style, 5)
        rows.append(Beside(((0.0, figure), (5.0, set_text(worded(step, wording), style, width - 5)))))
    return section(wording("What has to happen first"), width, stack(rows, 0.5))


def _player(facts: UnsafeReturnFacts, wording: Wording) -> Stack:
    player = facts.player
    rows = [(wording("player"), Run(player.name, bold=True))]
    values = (
        (wording("serial"), together(player.serial) or wording("not readable")),
        (wording("transport"), player.transport),
        (wording("mains"), worded(player.mains or "", wording)),
        (wording("owner of it"), facts.customer_name),
    )
    rows += [(label, Run(value)) for label, value in values if value]
    table = labelled_rows(rows, RIGHT_COLUMN, FINE_GREY, TABLE, 4.85)
    return section(wording("The player"), RIGHT_COLUMN, table, Gap(1.6), SignRow(facts.signs))


@dataclass(frozen=True)
class SignRow(Whole):
    """Safety signs side by side."""

    signs: tuple[Sign, ...]

    @property
    def height(self) -> float:
        """Of the signs."""
        return SIGN if self.signs else 0.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draws them, closer together where they are many."""
        pitch = min(SIGN + 4, (RIGHT_COLUMN - SIGN) / max(1, len(self.signs) - 1))
        for at, sign in enumerate(self.signs):
            draw_sign(pen, sign, x + at * pitch, top, SIGN)


def _offers(facts: UnsafeReturnFacts, wording: Wording) -> Stack:
    rows = [
        (worded(offer.what, wording), Run(worded(offer.answer, wording), bold=True)) for offer in facts.offers
    ]
    answered = set_text(worded(facts.answered, wording), FINE_GREY, RIGHT_COLUMN)
    table = labelled_rows(rows, RIGHT_COLUMN, TABLE, TABLE, 5.1, ruled=True)
    return section(wording("Offered, and answered"), RIGHT_COLUMN, table, Gap(0.4), answered)


def _decision(facts: UnsafeReturnFacts, width: float, style: Style, wording: Wording) -> Stack:
    quote = Quote(set_text(quoted(facts.owner_reason, wording), style, width - Quote.INDENT))
    moment = wording.moment(facts.decided, "d MMMM y, HH:mm")
    line = wording(
        "{owner}, owner, {moment}; signed in the book by PIN. The stop stays open on this player.",
        owner=facts.owner,
        moment=moment,
    )
    words = Beside(((Quote.INDENT, set_text(line, FINE_GREY, width - Quote.INDENT)),))
    return section(wording("The shop owner’s decision"), width, quote, Gap(0.3), words)


def _signature(facts: UnsafeReturnFacts, width: float, style: Style, wording: Wording) -> Stack:
    words = worded(facts.declaration, wording)
    if facts.fee is not None:
        fees = wording("The invoice holds fees only: {amount} with VAT.", amount=facts.fee)
    else:
        fees = wording("Nothing is charged.")
    lines = (
        (0.0, 74.0, wording("customer: signature")),
        (80.0, 30.0, wording("date")),
        (116.0, width - 116.0, wording("owner: signature")),
    )
    text = set_text(f"{words} {fees}", style, width)
    return section(wording("Your signature"), width, text, signature_lines(lines, 11.0))
