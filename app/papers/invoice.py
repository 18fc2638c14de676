"""The invoice: money on the first pages, then what stays with the player."""

from __future__ import annotations

from datetime import date

from app.papers.blocks import Beside, Gap, Stack, section
from app.papers.flow import Flow
from app.papers.invoice_facts import InvoiceFacts, InvoiceLine
from app.papers.letter import Letter
from app.papers.modification import modification_block
from app.papers.safety import safety_pair
from app.papers.said import amount, percent, serial, unit_price, worded
from app.papers.sheet import made
from app.papers.sums import LABELS, SumsAndPayment, payment_block, sum_rows
from app.papers.tables import Column, Table, pour_table, table
from app.papers.text import BODY, FIRST, RIGHT, TABLE, set_text
from app.trade.money import total
from app.trade.wording import Wording


def invoice(facts: InvoiceFacts, wording: Wording) -> bytes:
    """The PDF of an invoice, A4 or Letter."""
    letter = _letter(facts, wording)
    flow = letter.flow(wording)
    flow.put(set_text(worded(facts.heading, wording), FIRST, flow.width))
    flow.run(set_text(_intro(facts, wording), BODY, flow.width), 0.8)
    sums = SumsAndPayment(payment_block(facts, wording), sum_rows(facts, flow.width - LABELS, wording))
    pour_table(
        flow,
        _lines(facts, flow.width, wording),
        above=2.4,
        carried=lambda count: _carried(facts, count, wording),
        tail=sums.height,
    )
    flow.put(sums)
    if facts.guarantee:
        words = set_text(worded(facts.guarantee, wording), BODY, flow.width)
        flow.put(section(wording("Guarantee"), flow.width, words), 4.2)
    _keep_with_the_player(facts, flow, wording)
    return made(
        flow.pages,
        letter.format,
        letter.title,
        facts.sheet,
        wording,
        lambda pen, page, pages: letter.dress(pen, page, pages, wording),
    )


def _letter(facts: InvoiceFacts, wording: Wording) -> Letter:
    rows = [(wording("Date of invoice"), _long_day(facts.issued, wording))]
    if facts.work_to:
        rows.append((wording("Work done"), _span(facts, wording)))
    rows.append((wording("Job"), str(facts.job)))
    if facts.customer.number:
        rows.append((wording("Customer"), facts.customer.number))
    if facts.customer.vat_id:
        rows.append((wording("Your VAT number"), facts.customer.vat_id))
    if facts.pay_by:
        rows.append((wording("Pay by"), _long_day(facts.pay_by, wording)))
    number = facts.number or wording("draft")
    return Letter(facts.sheet, wording("Invoice"), number, facts.job, facts.customer, rows)


def _long_day(day: date, wording: Wording) -> str:
    return wording.day(day, "d MMMM y")


def _span(facts: InvoiceFacts, wording: Wording) -> str:
    """ "24 to 26 November 2026", said as short as the two days allow."""
    begin, end = facts.work_from, facts.work_to
    assert end is not None
    last = _long_day(end, wording)
    if begin is None or begin == end:
        return last
    if wording.language != "en":
        return wording("{begin} to {end}", begin=begin, end=end)
    style = "d" if (begin.year, begin.month) == (end.year, end.month) else "d MMMM"
    style = style if begin.year == end.year else "d MMMM y"
    return wording("{begin} to {end}", begin=wording.day(begin, style), end=last)


def _intro(facts: InvoiceFacts, wording: Wording) -> str:
    player = wording("{player}, {serial}.", player=facts.player.name, serial=serial(facts.player, wording))
    return f"{player} {worded(facts.intro, wording)}".rstrip()


def _lines(facts: InvoiceFacts, width: float, wording: Wording) -> Table:
    columns = (
        Column("", 6.0),
        Column(wording("What was done or fitted")),
        Column(wording("Qty"), 15.0, decimal=True),
        Column("", 12.0, most=24.0),
        Column(wording("Each"), 17.0, RIGHT),
        Column(wording("VAT"), 13.0, RIGHT),
        Column(wording("Net {currency}", currency=facts.net.currency), 20.0, RIGHT),
    )
    rows = [
        (str(number), *line_cells(line, facts.net.currency, wording))
        for number, line in enumerate(facts.lines, 1)
    ]
    return table(columns, rows, width)


def line_cells(line: InvoiceLine, currency: str, wording: Wording) -> tuple[str, ...]:
    """What, with what was taken off below it; quantity, unit, each, VAT and net."""
    what = worded(line.what, wording)
    if line.discount and line.discount.minor:
        less = wording("less {amount}", amount=amount(line.discount, wording))
        reason = worded(line.discount_reason, wording)
        what += f"\n{less}: {reason}" if reason else f"\n{less}"
    return (
        what,
        "" if line.quantity is None else wording.number(line.quantity, grouped=True),
        worded(line.unit, wording),
        "" if line.each is None else unit_price(line.each, line.quantity, currency, wording),
        "" if line.vat is None else percent(line.vat, wording),
        "" if line.net is None else amount(line.net, wording),
    )


def _carried(facts: InvoiceFacts, count: int, wording: Wording) -> str:
    so_far = total([line.net for line in facts.lines[:count] if line.net], facts.net.currency)
    return wording("carried forward {amount}", amount="\u2002" + amount(so_far, wording))


def _keep_with_the_player(facts: InvoiceFacts, flow: Flow, wording: Wording) -> None:
    """Modifications and safety notes.

    A modified player's begin a page of their own, to be kept with it; plain safety notes only when the page of
    the money has no room for them.
    """
    pair = safety_pair(facts.cautions_user, facts.cautions_technician, flow.width, wording)
    if not facts.modifications and pair.height + 5.0 <= flow.room:
        flow.put(pair, 5.0)
        return
    flow.turn()
    flow.put(_keep_heading(facts, flow.width, wording))
    count = len(facts.modifications)
    for number, modification in enumerate(facts.modifications, 1):
        head = ""
        if count > 1:
            head = wording(
                "Modification {number} of {count}: this player differs from its maker’s design",
                number=number,
                count=count,
            )
        flow.put(modification_block(modification, flow.width, wording, head), 0.0 if number == 1 else 5.0)
    if pair.height:
        flow.put(pair, 5.0 if count else 0.0)


def _keep_heading(facts: InvoiceFacts, width: float, wording: Wording) -> Stack:
    """Title of the page that stays with the player, and which player it is."""
    name = f"{facts.player.name}, {serial(facts.player, wording)}"
    about = set_text(name, TABLE, width * 0.5, RIGHT)
    title = set_text(wording("Keep this page with the player"), FIRST, width - about.widest - 5)
    heading = Beside(((0.0, title), (width - about.width, Stack((Gap(1.4), about)))))
    return Stack((heading, Gap(max(2.0, 10.8 - heading.height))))
