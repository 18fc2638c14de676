"""The shop's half of the intake ticket: who, what, which fault, what to mind, what was left, signatures."""

from __future__ import annotations

from dataclasses import dataclass, replace

from app.papers.blocks import Beside, Block, Gap, Quote, Stack, Whole, section_head
from app.papers.codes import QUIET, QUIET_BARS, bars_width, draw_bars, draw_qr, job_code, qr_side
from app.papers.facts import Tick
from app.papers.fit import HEADS, STEPS, Maker, Part, fit, step_style
from app.papers.flags import flag_list
from app.papers.flow import Placed
from app.papers.frames import Framed
from app.papers.intake_customer_half import (
    COLUMN,
    MARGIN_LEFT,
    MARGIN_RIGHT,
    Half,
    left_width,
)
from app.papers.intake_ticket_facts import IntakeTicketFacts
from app.papers.intake_words import fault_notes, quoted, short_day
from app.papers.job_number import draw_job_number
from app.papers.labelled_rows import labelled_rows
from app.papers.line_breaks import Run
from app.papers.pen import Pen
from app.papers.player_outline import player_outline
from app.papers.said import serial, shown, together, worded
from app.papers.sheet import LETTER, Format
from app.papers.signatures import signature_lines
from app.papers.text import (
    BODY,
    CENTRE,
    FINE,
    FINE_GREY,
    RIGHT,
    SECTION,
    TABLE,
    Style,
    cut,
    fitted,
    held,
    set_text,
)
from app.papers.ticks import tick_lines
from app.trade.wording import Wording

QR_MODULE, BAR, BAR_HEIGHT = 0.6, 0.38, 10.5
LIMIT = Style(13.5, 5.0, bold=True)


def shop_half(facts: IntakeTicketFacts, paper: Format, pointer: str, label: str, wording: Wording) -> Half:
    """The lower half."""
    small = paper is LETTER
    start = paper.height / 2 - (2.0 if small else 0.0)
    width = left_width(paper)
    right = paper.width - MARGIN_RIGHT - COLUMN
    sign_at = paper.height - (14.5 if small else 16.1)
    statement = set_text(
        wording(
            "The player was handed over as described. I have read “What we agree” on my half and keep it."
        ),
        TABLE,
        paper.width - MARGIN_LEFT - MARGIN_RIGHT,
    )
    statement_top = sign_at - 11.3 - statement.height + 1.2
    top = start + 26.0
    room = statement_top - 1.0 - top
    makers = _left(facts, width, wording)
    left = fit(makers, room, width, pointer, 2.0 if small else 2.4)
    side_makers = _side(facts, COLUMN, 36.0 if small else 44.0, wording)
    side = fit(side_makers, room + 0.6, COLUMN, pointer, 2.0)
    whole = paper.width - MARGIN_LEFT - MARGIN_RIGHT
    further = [_left(facts, whole, wording)[at](0) for at in left.cut]
    further += [_side(facts, whole, 44.0, wording)[at](0) for at in side.cut]
    lines = (
        (0.0, 74.0, wording("customer: signature")),
        (80.0, 30.0, wording("date")),
        (right - MARGIN_LEFT, COLUMN, wording("counter: signature")),
    )
    placed = [
        Placed(MARGIN_LEFT, start, Head(facts, paper.width - MARGIN_LEFT - MARGIN_RIGHT, wording)),
        Placed(MARGIN_LEFT, top, left.block),
        Placed(right, top, side.block),
        Placed(MARGIN_LEFT, statement_top, statement),
        Placed(MARGIN_LEFT, sign_at - 10, signature_lines(lines, 10)),
        Placed(right, paper.height - 5.7 - 3.3, set_text(label, FINE_GREY, COLUMN, RIGHT)),
    ]
    return Half(placed, tuple(further))


@dataclass(frozen=True)
class Head(Whole):
    """Number, when and by whom, shelf and promise, both codes."""

    facts: IntakeTicketFacts
    width: float
    wording: Wording

    height: float = 24.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Everything stands on the baseline of the number."""
        facts, wording = self.facts, self.wording
        code = job_code(facts.job)
        across = bars_width(code, BAR)
        bars_at = x + self.width - across
        side = qr_side(code, QR_MODULE)
        qr_at = bars_at - QUIET_BARS * BAR - QUIET * QR_MODULE - side + 0.6
        number = draw_job_number(pen, facts.job, x, top + 20.6, 46, 40)
        left = x + max(43.0, number + 4)
        room = qr_at - left - QUIET * QR_MODULE
        taken = wording("Taken in {moment}, by {person}", moment=facts.taken_in, person=facts.taken_by)
        place = [wording("Shelf {shelf}", shelf=together(facts.shelf))] if facts.shelf else []
        if facts.promised:
            place.append(wording("promised {day}", day=short_day(facts.promised, wording)))
        words = Stack(
            (
                fitted(wording("Intake ticket · shop half"), SECTION, room),
                held(taken, FINE_GREY, room),
                held(" · ".join(place), BODY.but(bold=True), room, 2),
            )
        )
        words.draw(pen, left, top + 21.6 - max(13.6, words.height))
        draw_qr(pen, code, qr_at, top + 9.0, QR_MODULE)
        draw_bars(pen, code, bars_at, top + 9.0, BAR, BAR_HEIGHT)
        set_text(code, FINE, across, CENTRE).draw(pen, bars_at, top + 19.7)


def _left(facts: IntakeTicketFacts, width: float, wording: Wording) -> list[Maker]:
    def people(step: int) -> Part:
        return _people(facts, width, step, wording)

    def fault(step: int) -> Part:
        words = set_text(quoted(facts.fault, wording), step_style(BODY, step), width - Quote.INDENT)
        notes = fault_notes(facts, wording)
        bodies: tuple[Block, ...] = (Quote(words),)
        if notes:
            bodies += (set_text(notes, FINE, width),)
        return Part(
            section_head(wording("The fault, in the customer’s words"), width, text_from=HEADS[step]),
            bodies,
            between=0.8,
        )

    def flags(step: int) -> Part:
        head = section_head(wording("Flags, and earlier visits"), width, text_from=HEADS[step])
        blocks: tuple[Block, ...] = tuple(flag_list(facts.flags, width, wording))
        none = set_text(wording("No flag. Not here before, as far as the book knows."), TABLE, width)
        return Part(head, blocks or (none,), between=1.5)

    def still(step: int) -> Part:
        note = wording("a stop only when it is to be ready")
        head = section_head(wording("Still to do"), width, note, HEADS[step])
        return Part(
            head, tuple(tick_lines([Tick(gate) for gate in facts.still_to_do], width, wording, gap=7.0))
        )

    makers: list[Maker] = [people, fault, flags]
    return [*makers, still] if facts.still_to_do else makers


MOST_LINES = 7  # of the customer's and the player's column where nothing else would have room


def _people(facts: IntakeTicketFacts, width: float, step: int, wording: Wording) -> Part:
    """Customer and player beside each other; at the last step at most seven lines of each."""
    room = (width - 6) / 2
    style = step_style(BODY, step)
    columns: list[tuple[float, Block]] = []
    clipped = False
    texts = ((wording("Customer"), _customer(facts)), (wording("Player"), _player(facts, wording)))
    for at, (title, lines) in enumerate(texts):
        blocks = [set_text(line, style, room) for line in lines]
        if step == STEPS - 1 and sum(len(block.lines) for block in blocks) > MOST_LINES:
            clipped = True
            if at == 0 and facts.customer.phone:
                lines = [lines[0], lines[-1], *lines[1:-1]]  # the telephone is needed on the first page
            most = [2] + [1] * (MOST_LINES - 2)
            blocks = [cut(line, style, room, count) for line, count in zip(lines, most, strict=False)]
        columns.append((at * (room + 6), Stack((section_head(title, room), *blocks))))
    return Part(None, (Beside(tuple(columns)),), fixed=True, clipped=clipped)


def _customer(facts: IntakeTicketFacts) -> list[list[Run]]:
    customer = facts.customer
    name = [Run(customer.name, bold=True)]
    if customer.number:
        name.append(Run(f" · {together(customer.number)}"))
    return [name, *([Run(line)] for line in (*customer.address, customer.phone) if line)]


def _player(facts: IntakeTicketFacts, wording: Wording) -> list[list[Run]]:
    player = facts.player
    lines = [[Run(player.name, bold=True), Run(f", {serial(player, wording)}")]]
    second = [Run(worded(player.mains, wording), bold=True)] if player.mains is not None else []
    for short in facts.condition_short:
        second.append(Run((" · " if second else "") + worded(short, wording)))
    lines.append(second)
    parts = (worded(player.transport_kind, wording), player.transport)
    lines.append([Run(", ".join(part for part in parts if part))])
    for row in facts.condition:
        label = wording("{label}:", label=worded(row.label, wording))
        lines.append([Run(label, bold=True), Run(" " + shown(row.value, wording))])
    return [line for line in lines if "".join(run.text for run in line)]


def _side(facts: IntakeTicketFacts, width: float, outline: float, wording: Wording) -> list[Maker]:
    def condition(step: int) -> Part:
        across = min(outline, (outline, 38.0, 32.0, 24.0)[step])
        # A number stands for a circle on the outline; without circles it would be read as a count.
        placed = any(mark.face for mark in facts.marks)
        named = [
            f"{number}\u00a0{worded(mark.short or mark.text, wording)}"
            if placed
            else worded(mark.text, wording)
            for number, mark in enumerate(facts.marks, 1)
        ]
        listed = " · ".join(named) if named else wording("no marks noted")
        bodies: tuple[Block, ...] = (
            player_outline(facts.marks, across, wording),
            set_text(listed, FINE, width),
        )
        return Part(section_head(wording("Condition when taken in"), width, text_from=HEADS[step]), bodies)

    def left(step: int) -> Part:
        ticks = list(facts.things)
        if facts.parts_back:
            ticks.append(Tick(wording("old parts, to give back")))
        bodies: tuple[Block, ...] = tuple(
            tick_lines([replace(t, strong=False) for t in ticks], width, wording)
        )
        if not bodies:
            bodies = (set_text(wording("nothing but the player"), TABLE, width),)
        return Part(section_head(wording("Left with us"), width, text_from=HEADS[step]), bodies, between=0.2)

    def money(step: int) -> Part:
        rows = _money(facts, wording)
        table = labelled_rows(rows, width, FINE_GREY, TABLE, 4.85, most=3 if step == STEPS - 1 else 40)
        bodies: tuple[Block, ...] = (table, Gap(0.8), _limit(facts, width, wording))
        head = section_head(wording("Money, with VAT"), width, text_from=HEADS[step])
        return Part(head, bodies, fixed=True, clipped=table.clipped)

    return [condition, left, money]


def _money(facts: IntakeTicketFacts, wording: Wording) -> list[tuple[str, str]]:
    rows: list[tuple[str, str]] = []
    if facts.deposit is not None:
        label = wording("deposit paid")
        if facts.deposit_means:
            label = wording("deposit paid, {means}", means=worded(facts.deposit_means, wording))
        rows.append((label, wording.money(facts.deposit)))
    if facts.diagnosis_fee is not None:
        rows.append((wording("diagnosis fee, if declined"), wording.money(facts.diagnosis_fee)))
    if facts.ring_by is not None:
        label = wording("ring by {day}", day=short_day(facts.ring_by, wording))
        rows.append((label, worded(facts.ring_when, wording)))
    return rows


def _limit(facts: IntakeTicketFacts, width: float, wording: Wording) -> Framed:
    inside = width - 6
    if facts.limit is None:
        none = set_text(wording("No go-ahead limit: ask first"), TABLE.but(bold=True), inside)
        return Framed(Stack((none,)), width)
    figure = fitted(Run(wording.money(facts.limit), bold=True), LIMIT, inside * 0.72, 1, RIGHT)
    label = set_text(wording("Go-ahead limit"), FINE, inside - figure.widest - 2)
    row = Beside(((0.0, Stack((Gap(1.0), label))), (inside - figure.width, figure)))
    return Framed(Stack((row,)), width)
