"""Rows of the Office place: jobs to invoice, open invoices by age, players that went without one, cautions."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from app.screens.counter.list_rows import no_answer_words
from app.screens.kit.cells import Column, Figure, Group, Leave, Row, Words
from app.screens.language import moment, money, near_day, number, say
from app.trade.money import Money, total
from app.trade.sentence import Sentence
from app.work.office.estimate_list import OpenEstimate
from app.work.office.invoice_lists import GoneWithout, InvoiceRow, ToInvoice
from app.work.office.overview import Overview, OwnerSees

LEAVING = (Leave("customer", "second"), Leave("when", "second", 90), Leave("second", "second", 90))


def columns() -> tuple[Column, ...]:
    """Job, customer and player, what it is about, since when, and how much."""
    return (
        Column("job", say("Job"), 58),
        Column("customer", say("Customer and player"), 0, least=150),
        Column("second", say("Invoice"), 192),
        Column("when", say("Since"), 204),
        Column("amount", say("Amount"), 112, number=True),
    )


def rows_of(found: Overview, today: date) -> list[Row | Group]:
    """Everything under its heading; what is late first, an empty part is left out."""
    late = [row for row in found.open_invoices if row.overdue]
    back = [row for row in found.open_invoices if row.open.minor < 0]
    later = [row for row in found.open_invoices if not row.overdue and row.open.minor > 0]
    rows: list[Row | Group] = []
    if late:
        rows.append(Group(say("Overdue"), _invoices(late), "caution"))
        rows += [_invoice(row, today) for row in late]
    if found.estimates:
        rows.append(Group(say("Estimates"), _counted_estimates(found.estimates)))
        rows += [_estimate(row, today) for row in found.estimates]
    if found.to_invoice:
        rows.append(Group(say("To invoice"), _jobs(len(found.to_invoice))))
        rows += [_to_invoice(row) for row in found.to_invoice]
    if found.owner_sees:
        rows.append(Group(say("For the owner to see"), _jobs(len(found.owner_sees))))
        rows += [_sees(row) for row in found.owner_sees]
    if back:
        rows.append(Group(say("Paid too much, to give back"), _invoices(back)))
        rows += [_invoice(row, today) for row in back]
    if later:
        rows.append(Group(say("Open, not due yet"), _invoices(later)))
        rows += [_invoice(row, today) for row in later]
    if found.gone:
        rows.append(Group(say("Handed back without an invoice"), _jobs(len(found.gone))))
        rows += [_gone(row, today) for row in found.gone]
    return rows


def summary_of(found: Overview) -> str:
    """The soft line under the heading."""
    parts = []
    if found.to_invoice:
        count = len(found.to_invoice)
        parts.append(say("1 job to invoice.") if count == 1 else say("{n} jobs to invoice.", n=count))
    owed = [row.open for row in found.open_invoices if row.open.minor > 0]
    if owed:
        sum_of = total(owed, owed[0].currency)
        parts.append(
            say("1 invoice open, {sum}.", sum=sum_of)
            if len(owed) == 1
            else say("{n} invoices open, {sum}.", n=len(owed), sum=sum_of)
        )
    late = sum(row.overdue > 0 for row in found.open_invoices)
    if late:
        parts.append(say("1 is overdue.") if late == 1 else say("{n} are overdue.", n=late))
    return " ".join(parts)


def _jobs(count: int) -> str:
    return say("1 job") if count == 1 else say("{n} jobs", n=count)


def _invoices(rows: list[InvoiceRow]) -> str:
    sum_of = total([row.open for row in rows], rows[0].open.currency)
    if len(rows) == 1:
        return say("1 invoice, {sum}", sum=sum_of)
    return say("{n} invoices, {sum}", n=len(rows), sum=sum_of)


def _counted_estimates(rows: Sequence[OpenEstimate]) -> str:
    """How many wait for an answer; those that are being written say so themselves."""
    out = sum(row.issued_on is not None for row in rows)
    if not out:
        return ""
    return say("1 without an answer") if out == 1 else say("{n} without an answer", n=out)


def _estimate(row: OpenEstimate, today: date) -> Row:
    """One that is being written, or waits for its answer."""
    if row.issued_on is None:
        which, when = Words(say("being written"), soft=True), Words("")
    else:
        until = say("open until {day}", day=near_day(row.valid_until, today))
        which = Words(row.number, until)
        issued = say("issued {day}", day=near_day(row.issued_on, today))
        if row.days is None:
            when = Words(issued)
        else:
            when = Words(no_answer_words(row.days), before="caution", strong=True)
    return Row(
        ("estimate", row.job_id),
        (
            Words(str(row.job_number), strong=True),
            Words(row.customer, row.player),
            which,
            when,
            None if row.highest is None else _figure(row.highest),
        ),
    )


def _invoice(row: InvoiceRow, today: date) -> Row:
    if row.overdue:
        when = Words(_days_late(row.overdue), near_day(row.pay_by, today), strong=True)
    else:
        when = Words(say("to pay by {day}", day=near_day(row.pay_by, today)))
    return Row(
        ("invoice", row.job_id),
        (
            Words(str(row.job_number), strong=True),
            Words(row.customer),
            Words(row.number, say("issued {day}", day=near_day(row.issued_on, today))),
            when if row.open.minor > 0 else Words(say("issued {day}", day=near_day(row.issued_on, today))),
            _figure(row.open),
        ),
    )


def _days_late(days: int) -> str:
    return say("1 day late") if days == 1 else say("{n} days late", n=days)


def _to_invoice(row: ToInvoice) -> Row:
    ready = "" if row.ready_at is None else say("ready {day}", day=moment(row.ready_at, "EEE d MMM"))
    held = (
        Words(_first(row.held), before="stop", strong=True) if row.held else Words(say("none yet"), soft=True)
    )
    return Row(
        ("invoice", row.job_id),
        (
            Words(str(row.number), strong=True),
            Words(row.customer, row.player),
            held,
            Words(ready),
            _figure(row.so_far),
        ),
    )


def _first(held: tuple[Sentence, ...]) -> str:
    return say(held[0])


def _sees(row: OwnerSees) -> Row:
    words = ", ".join(say(word) for word in row.words)
    return Row(
        ("job", row.job_id),
        (
            Words(str(row.number), strong=True),
            Words(row.customer, row.player),
            Words(words, before="caution"),
            None,
            None,
        ),
    )


def _gone(row: GoneWithout, today: date) -> Row:
    outcome = say(row.outcome.value) if row.outcome is not None else ""
    return Row(
        ("invoice", row.job_id),
        (
            Words(str(row.number), strong=True),
            Words(row.customer, row.player),
            Words(say("none"), outcome, soft=True),
            Words(say("handed back {day}", day=near_day(row.handed_back, today))),
            None,
        ),
    )


def _figure(amount: Money) -> Figure:
    return Figure(number(amount.amount, grouped=True), amount.currency, tip=money(amount))
