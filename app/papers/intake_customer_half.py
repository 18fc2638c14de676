"""The customer's half of the intake ticket: number, what was handed over, what was agreed."""

from __future__ import annotations

from dataclasses import dataclass

from app.papers.blocks import Beside, Block, Gap, Quote, Stack, section_head
from app.papers.caution_line import CautionLine
from app.papers.fit import HEADS, Maker, Part, fit, step_style
from app.papers.flow import Placed, stack
from app.papers.frames import Framed
from app.papers.intake_ticket_facts import IntakeTicketFacts
from app.papers.intake_words import condition_runs, fault_notes, player_line, quoted, short_day
from app.papers.job_number import Codes
from app.papers.labelled_rows import LabelledRows, labelled_rows
from app.papers.letter import ShopHead
from app.papers.line_breaks import Run
from app.papers.modification import clause_runs
from app.papers.said import worded
from app.papers.sheet import Format
from app.papers.text import (
    BODY,
    FINE,
    FINE_GREY,
    RIGHT,
    SECTION,
    TABLE,
    Style,
    fitted,
    natural,
    set_text,
)
from app.trade.wording import Wording

MARGIN_LEFT, MARGIN_RIGHT, BETWEEN, COLUMN = 18.0, 12.0, 8.0, 58.0
OWN_WORDS = Style(12, 5.1)
LIMIT = Style(19, 7.2, bold=True)
COLUMN_TOP = 9.4
FOOT = 5.5  # from the end of the caution to the cut


@dataclass(frozen=True)
class Half:
    """What stands on the page, and the sections that were cut there and need a page of their own."""

    placed: list[Placed]
    cut: tuple[Part, ...] = ()


def left_width(paper: Format) -> float:
    """Width of the left column."""
    return paper.width - MARGIN_LEFT - MARGIN_RIGHT - BETWEEN - COLUMN


def customer_half(
    facts: IntakeTicketFacts, paper: Format, pointer: str, label: str, wording: Wording
) -> Half:
    """The upper half. ``pointer`` says where a cut section stands in full, ``label`` which half this is."""
    width = left_width(paper)
    whole = paper.width - MARGIN_LEFT - MARGIN_RIGHT
    right = paper.width - MARGIN_RIGHT - COLUMN
    head = ShopHead(facts.sheet.shop, width)
    top = max(24.5, 9.1 + head.height + 2.0)
    caution = CautionLine.of(facts.cautions_user, whole, label, wording)
    hairline = paper.height / 2 - FOOT - caution.height
    column = _column(facts, wording)
    if hairline - COLUMN_TOP - column.height < _terms(facts, whole, FINE, wording).height + 2.5:
        column = _column(facts, wording, compact=True)
    column_end = COLUMN_TOP + column.height
    cut: list[Part] = []
    terms = _terms(facts, whole, FINE, wording)
    if terms.height > hairline - column_end - 2.0:
        terms = _terms(facts, whole, Style(9, 3.9), wording)
    if terms.height > hairline - column_end - 2.0:
        terms = Stack(
            (
                section_head(wording("What we agree"), whole, text_from=6.5),
                set_text(pointer, FINE_GREY, whole),
            )
        )
        cut.append(_terms_part(facts, whole, wording))
    lowest = hairline - 0.9 - terms.height
    makers = _sections(facts, width, wording)
    left = fit(makers, lowest - 2.4 - top, width, pointer, 2.4)
    if _rows(facts, COLUMN, wording).clipped:
        cut.append(
            Part(
                section_head(wording("At the counter"), whole),
                (_rows(facts, whole, wording, 400),),
                fixed=True,
            )
        )
    cut[:0] = [full(0) for full in (_sections(facts, whole, wording)[at] for at in left.cut)]
    terms_top = min(
        lowest, max(top + left.block.height + 2.4, column_end + 2.4, hairline - 4.7 - terms.height)
    )
    placed = [
        Placed(MARGIN_LEFT, 9.1, head),
        Placed(MARGIN_LEFT, top, left.block),
        Placed(right, COLUMN_TOP, column),
        Placed(MARGIN_LEFT, terms_top, terms),
        Placed(MARGIN_LEFT, hairline, caution),
    ]
    return Half(placed, tuple(cut))


def _sections(facts: IntakeTicketFacts, width: float, wording: Wording) -> list[Maker]:
    def player(step: int) -> Part:
        name = set_text(facts.player.name, step_style(SECTION, step), width)
        line = set_text(player_line(facts.player, wording), step_style(TABLE, step), width)
        return Part(
            section_head(wording("Your player"), width, text_from=HEADS[step]), (name, line), between=0.2
        )

    def fault(step: int) -> Part:
        words = set_text(quoted(facts.fault, wording), step_style(OWN_WORDS, step), width - Quote.INDENT)
        notes = fault_notes(facts, wording)
        bodies: tuple[Block, ...] = (Quote(words),)
        if notes:
            bodies += (set_text(notes, FINE, width),)
        return Part(
            section_head(wording("The fault, in your words"), width, text_from=HEADS[step]),
            bodies,
            between=0.8,
        )

    def condition(step: int) -> Part:
        words = set_text(condition_runs(facts, wording), step_style(TABLE, step), width)
        return Part(
            section_head(wording("How it came in, and what came with it"), width, text_from=HEADS[step]),
            (words,),
        )

    return [player, fault, condition]


def _terms_part(facts: IntakeTicketFacts, width: float, wording: Wording) -> Part:
    bodies = tuple(set_text(clause_runs(clause, wording), BODY, width) for clause in facts.terms)
    return Part(section_head(wording("What we agree"), width), bodies, between=1.2)


def _terms(facts: IntakeTicketFacts, width: float, style: Style, wording: Wording) -> Stack:
    """Terms in two columns, parted where both are nearest to the same height."""
    if not facts.terms:
        return Stack(())
    room = (width - 6) / 2
    blocks = [set_text(clause_runs(clause, wording), style, room) for clause in facts.terms]
    heights = [block.height for block in blocks]
    middle = min(range(1, len(blocks) + 1), key=lambda at: max(sum(heights[:at]), sum(heights[at:])))
    columns = Beside(((0.0, stack(blocks[:middle], 0.9)), (width - room, stack(blocks[middle:], 0.9))))
    return Stack((section_head(wording("What we agree"), width, text_from=6.5), columns))


def _column(facts: IntakeTicketFacts, wording: Wording, *, compact: bool = False) -> Stack:
    """Title, number and codes, what was paid and told, the limit."""
    note = set_text(wording("Job number; bring this when you collect."), FINE_GREY, COLUMN)
    title = set_text(wording("Intake ticket · your half"), SECTION, COLUMN)
    return Stack(
        (
            title,
            note,
            Gap(2.4),
            Codes(facts.job, COLUMN),
            Gap(2.4),
            _rows(facts, COLUMN, wording),
            Gap(0.8),
            limit_frame(facts, COLUMN, wording, compact=compact),
        )
    )


def _rows(facts: IntakeTicketFacts, width: float, wording: Wording, most: int = 5) -> LabelledRows:
    rows: list[tuple[str, str]] = [(wording("Taken in"), _taken_in(facts, width, wording))]
    if facts.deposit is not None:
        paid = wording.money(facts.deposit)
        if facts.deposit_means:
            paid = wording("{amount}, {means}", amount=paid, means=worded(facts.deposit_means, wording))
        rows.append((wording("Deposit paid"), paid))
    if facts.diagnosis_fee is not None:
        rows.append((wording("Diagnosis fee told"), wording.money(facts.diagnosis_fee)))
    if facts.ring_by is not None:
        rows.append((wording("We ring you by"), ring_text(facts, wording)))
    if facts.promised is not None:
        rows.append((wording("Promised for"), short_day(facts.promised, wording)))
    pitch = 5.36 if len(rows) < 5 else 4.95
    return labelled_rows(rows, width, FINE_GREY, TABLE, pitch, ruled=True, most=most)


def _taken_in(facts: IntakeTicketFacts, width: float, wording: Wording) -> str:
    """When and by whom; who it was stands on the shop's half alone where one line has no room for it."""
    by = facts.taken_by_short or facts.taken_by
    taken = wording("{moment}, by {person}", moment=facts.taken_in, person=by)
    if natural(wording("Taken in"), FINE_GREY) + natural(taken, TABLE) + 3 <= width:
        return taken
    return wording.moment(facts.taken_in)


def ring_text(facts: IntakeTicketFacts, wording: Wording) -> str:
    """ "Wed 25 Nov, after 16:00"."""
    assert facts.ring_by is not None
    day = short_day(facts.ring_by, wording)
    when = worded(facts.ring_when, wording)
    return f"{day}, {when}" if when else day


def limit_frame(facts: IntakeTicketFacts, width: float, wording: Wording, *, compact: bool = False) -> Framed:
    """Up to which sum the shop may go ahead, or that it asks first."""
    inside = width - 6
    if facts.limit is None:
        none = set_text(wording("No limit agreed: we ask you before any work."), TABLE.but(bold=True), inside)
        return Framed(Stack((none,)), width)
    amount = Run(wording.money(facts.limit), bold=True)
    if compact:
        label = set_text(wording("We may go ahead up to, with VAT"), FINE, inside)
        return Framed(Stack((label, fitted(amount, LIMIT.but(size=16), inside, 1, RIGHT))), width, above=1.0)
    label = set_text(wording("We may go ahead up to"), FINE, inside)
    below = set_text(wording("with VAT. Above that we ask you first."), FINE_GREY, inside, RIGHT)
    return Framed(Stack((label, fitted(amount, LIMIT, inside, 1, RIGHT), below)), width)
