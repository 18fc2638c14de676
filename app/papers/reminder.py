"""The reminder of an open invoice: friendly words first, then the sums and how they are paid."""

from __future__ import annotations

from app.papers.blocks import Stack
from app.papers.letter import Letter
from app.papers.plain_letter import begun, closed
from app.papers.reminder_facts import ReminderFacts
from app.papers.said import amount, serial, worded
from app.papers.sheet import made
from app.papers.sums import LABELS, SumsAndPayment, payment_block, sum_row
from app.papers.text import FINE_GREY, set_text
from app.trade.wording import MINUS, Wording


def reminder(facts: ReminderFacts, wording: Wording) -> bytes:
    """The PDF of a reminder, A4 or Letter."""
    letter = _letter(facts, wording)
    heading = (
        wording("A friendly reminder") if facts.count == 1 else wording("Once more, a friendly reminder")
    )
    flow = begun(letter, heading, facts.text, wording)
    about = wording("{player}, {serial}.", player=facts.player.name, serial=serial(facts.player, wording))
    flow.put(set_text(about, FINE_GREY, flow.width), 3.4)
    panel = payment_block(facts, wording)
    flow.put(SumsAndPayment(panel, _sums(facts, flow.width - LABELS, wording)), 1.6)
    closed(flow, facts.writer, facts.sheet.shop.name, wording)
    return made(
        flow.pages,
        letter.format,
        letter.title,
        facts.sheet,
        wording,
        lambda pen, page, pages: letter.dress(pen, page, pages, wording),
    )


def _letter(facts: ReminderFacts, wording: Wording) -> Letter:
    rows = [
        (wording("Date"), wording.day(facts.day, "d MMMM y")),
        (wording("Invoice"), facts.invoice),
        (wording("Date of invoice"), wording.day(facts.issued, "d MMMM y")),
        (wording("Job"), str(facts.job)),
    ]
    if facts.customer.number:
        rows.append((wording("Customer"), facts.customer.number))
    if facts.count > 1:
        rows.append((wording("Reminder"), str(facts.count)))
    return Letter(facts.sheet, wording("Reminder"), facts.invoice, facts.job, facts.customer, rows)


def _sums(facts: ReminderFacts, width: float, wording: Wording) -> Stack:
    rows = [sum_row(wording("Total with VAT"), amount(facts.total, wording), width, bold=True)]
    for payment in facts.payments:
        mark = MINUS if payment.amount.minor > 0 else ""
        figure = mark + amount(payment.amount, wording).lstrip(MINUS)
        rows.append(sum_row(worded(payment.words, wording), figure, width))
    label = wording("Still open, {currency}", currency=facts.balance.currency)
    rows.append(sum_row(label, amount(facts.balance, wording), width, bold=True, above=1.6, below=0.5))
    return Stack(tuple(rows))
