"""The credit note: what is given back of which invoice, why, how it reaches the customer, where the job stands."""

from __future__ import annotations

from dataclasses import dataclass

from app.papers.blocks import Block, Gap, Stack, Whole, section
from app.papers.credit_note_facts import CreditedLine, CreditNoteFacts
from app.papers.flow import Flow
from app.papers.invoice import line_cells
from app.papers.letter import Letter
from app.papers.line_breaks import Run
from app.papers.pen import Pen
from app.papers.said import amount, serial, worded
from app.papers.sheet import made
from app.papers.signatures import signature_lines
from app.papers.sums import LABELS, net_and_vat_rows, sum_row, total_row
from app.papers.tables import Column, Table, pour_table, table
from app.papers.text import BODY, FINE, FIRST, RIGHT, TABLE, set_text
from app.trade.money import total
from app.trade.wording import MINUS, Wording

ACCOUNT = 81.0  # width of the account of the job
SIGNATURE_ROOM = 14.0


def credit_note(facts: CreditNoteFacts, wording: Wording) -> bytes:
    """The PDF of a credit note, A4 or Letter."""
    letter = _letter(facts, wording)
    flow = letter.flow(wording)
    flow.put(set_text(worded(facts.heading, wording), FIRST, flow.width))
    flow.run(set_text(_intro(facts, wording), BODY, flow.width), 0.8)
    sums = _HowAndSums(_how(facts, wording), _sums(facts, flow.width - LABELS, wording))
    pour_table(
        flow,
        _lines(facts, flow.width, wording),
        above=2.4,
        carried=lambda count: _carried(facts, count, wording),
        tail=sums.height,
    )
    flow.put(sums)
    if facts.stand and facts.open is not None:
        flow.put(
            section(wording("Where the job stands after this note"), flow.width, _stand(facts, wording)), 9.0
        )
    said = wording(
        "The invoice itself is unchanged; keep both papers together. Guarantee and modification stay as invoice "
        "{number} says.",
        number=facts.invoice,
    )
    flow.run(set_text(said, BODY, flow.width), 3.2)
    if facts.signed:
        _signature(flow, wording)
    return made(
        flow.pages,
        letter.format,
        letter.title,
        facts.sheet,
        wording,
        lambda pen, page, pages: letter.dress(pen, page, pages, wording),
    )


def _letter(facts: CreditNoteFacts, wording: Wording) -> Letter:
    rows = [
        (wording("Date"), wording.day(facts.issued, "d MMMM y")),
        (wording("Corrects invoice"), facts.invoice),
        (wording("Invoice of"), wording.day(facts.invoice_issued, "d MMMM y")),
        (wording("Job"), str(facts.job)),
    ]
    if facts.customer.number:
        rows.append((wording("Customer"), facts.customer.number))
    if facts.customer.vat_id:
        rows.append((wording("Your VAT number"), facts.customer.vat_id))
    number = facts.number or wording("draft")
    return Letter(facts.sheet, wording("Credit note"), number, facts.job, facts.customer, rows)


def _intro(facts: CreditNoteFacts, wording: Wording) -> list[Run]:
    player = wording("{player}, {serial}.", player=facts.player.name, serial=serial(facts.player, wording))
    return [Run(f"{player} "), Run(wording("Reason:"), bold=True), Run(f" {facts.reason}")]


def _lines(facts: CreditNoteFacts, width: float, wording: Wording) -> Table:
    columns = (
        Column("", 6.0),
        Column(wording("Credited")),
        Column(wording("Invoice line"), 20.0, RIGHT),
        Column(wording("Qty"), 15.0, decimal=True),
        Column("", 12.0, most=24.0),
        Column(wording("Each"), 17.0, RIGHT),
        Column(wording("VAT"), 13.0, RIGHT),
        Column(wording("Net {currency}", currency=facts.net.currency), 20.0, RIGHT),
    )
    rows = [
        (str(number), *_cells(line, facts.net.currency, wording))
        for number, line in enumerate(facts.lines, 1)
    ]
    return table(columns, rows, width)


def _cells(credited: CreditedLine, currency: str, wording: Wording) -> tuple[str, ...]:
    what, *rest = line_cells(credited.line, currency, wording)
    return (what, wording("line {number}", number=str(credited.invoice_line)), *rest)


def _carried(facts: CreditNoteFacts, count: int, wording: Wording) -> str:
    so_far = total([one.line.net for one in facts.lines[:count] if one.line.net], facts.net.currency)
    return wording("carried forward {amount}", amount="\u2002" + amount(so_far, wording))


def _sums(facts: CreditNoteFacts, width: float, wording: Wording) -> Stack:
    rows = net_and_vat_rows(facts.lines_net, facts.discounts, facts.net, facts.vat, width, wording)
    if facts.rounding is not None and facts.rounding.minor:
        rows.append(total_row(facts.total, width, wording))
        rows.append(sum_row(wording("Rounding"), amount(facts.rounding, wording), width))
    label = wording("Credited to you, {currency}", currency=facts.credited.currency)
    rows.append(sum_row(label, amount(facts.credited, wording), width, bold=True, above=1.6, below=0.5))
    return Stack(tuple(rows))


def _how(facts: CreditNoteFacts, wording: Wording) -> Stack:
    width = LABELS - 4
    return Stack(
        (
            Gap(3.2),
            set_text(Run(wording("How it reaches you"), bold=True), TABLE, width),
            Gap(0.4),
            set_text(worded(facts.how, wording), FINE, width),
        )
    )


@dataclass(frozen=True)
class _HowAndSums(Whole):
    """How the money comes back at the left, sums at the right: never parted."""

    how: Stack
    sums: Stack

    @property
    def height(self) -> float:
        """Of the taller."""
        return 1.6 + max(self.how.height, self.sums.height)

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Both."""
        self.how.draw(pen, x, top + 1.6)
        self.sums.draw(pen, x + LABELS, top + 1.6)


def _stand(facts: CreditNoteFacts, wording: Wording) -> Stack:
    """The account of the job down to what is open, as the customer would work it out."""
    assert facts.open is not None
    rows: list[Block] = [
        sum_row(
            worded(line.words, wording), _with_sign(line.amount.minor, amount(line.amount, wording)), ACCOUNT
        )
        for line in facts.stand
    ]
    owed = facts.open.minor < 0
    label = wording("We owe you") if owed else wording("Open")
    rows.append(sum_row(label, amount(facts.open, wording).lstrip(MINUS), ACCOUNT, bold=True, above=0.5))
    return Stack(tuple(rows))


def _with_sign(minor: int, figure: str) -> str:
    return (MINUS if minor < 0 else "") + figure.lstrip(MINUS)


def _signature(flow: Flow, wording: Wording) -> None:
    lines = ((0.0, 81.0, wording("received: signature of customer")), (88.0, 30.0, wording("date")))
    flow.put(signature_lines(lines, SIGNATURE_ROOM), 4.2)
