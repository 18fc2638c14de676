"""The journal of a period from what is frozen in the book: invoices, credit notes, payments."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, time, timedelta
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.door import Book
from app.book.tables import CreditNote, Customer, Invoice, Job, Payment
from app.trade.calendar.period import Period
from app.trade.calendar.promise import local_day
from app.trade.money import Money
from app.trade.office.journal import Entry, EntryKind
from app.trade.office.numbers import invoice_number
from app.trade.office.vat import VatCategory

Told = tuple[datetime, Entry]  # with the instant, to sort by


def journal(book: Book, period: Period) -> tuple[Entry, ...]:
    """Every row of the period, in the order of day and time."""
    with book.ask() as session:
        return journal_inside(session, book, period)


def journal_inside(session: Session, book: Book, period: Period) -> tuple[Entry, ...]:
    """The same inside a question."""
    told = [*_invoices(session, period), *_credit_notes(session, period), *_payments(session, book, period)]
    told.sort(key=lambda one: (one[1].day, one[0]))
    return tuple(entry for _, entry in told)


def _invoices(session: Session, period: Period) -> Iterator[Told]:
    for row in session.execute(
        select(*_of_issued(Invoice))
        .join(Job, Job.id == Invoice.job_id)
        .join(Customer, Customer.id == Invoice.customer_id)
        .where(Invoice.issued_on >= period.first, Invoice.issued_on <= period.last)
        .order_by(Invoice.id)
    ):
        yield from _issued(row, EntryKind.INVOICE, 1, "", "")


def _credit_notes(session: Session, period: Period) -> Iterator[Told]:
    for row in session.execute(
        select(
            *_of_issued(CreditNote),
            CreditNote.reason,
            Invoice.series.label("of_series"),
            Invoice.number.label("of_number"),
        )
        .join(Invoice, Invoice.id == CreditNote.invoice_id)
        .join(Job, Job.id == CreditNote.job_id)
        .join(Customer, Customer.id == CreditNote.customer_id)
        .where(CreditNote.issued_on >= period.first, CreditNote.issued_on <= period.last)
        .order_by(CreditNote.id)
    ):
        corrected = invoice_number(row.of_series, row.of_number)
        yield from _issued(row, EntryKind.CREDIT_NOTE, -1, corrected, row.reason)


def _of_issued(paper: type[Invoice] | type[CreditNote]) -> tuple[Any, ...]:
    """What the journal says of an invoice or credit note; whole rows would take three times as long."""
    return (
        paper.series,
        paper.number,
        paper.issued_on,
        paper.issued_at,
        paper.job_id,
        paper.currency,
        paper.groups,
        paper.rounding,
        Job.number.label("job"),
        Customer.name,
        Customer.vat_id,
    )


def _issued(row: Any, kind: EntryKind, sign: int, refers_to: str, reason: str) -> Iterator[Told]:
    """One row for each VAT rate of an invoice or credit note, and one for what its sum was rounded by."""
    whole = {
        "day": row.issued_on,
        "number": invoice_number(row.series, row.number),
        "refers_to": refers_to,
        "job": row.job,
        "job_id": row.job_id,
        "customer": row.name,
        "customer_vat_id": row.vat_id,
        "currency": row.currency,
    }
    for rate, category, base, tax, no_vat in row.groups:
        net, vat = Money(sign * base, row.currency), Money(sign * tax, row.currency)
        text = ". ".join(filter(None, (reason, no_vat)))
        entry = Entry(
            **whole,
            kind=kind,
            vat_rate=rate,
            category=VatCategory(category),
            net=net,
            vat=vat,
            gross=net + vat,
            text=text,
        )
        yield row.issued_at, entry
    if row.rounding:
        rounded = Money(sign * row.rounding, row.currency)
        yield row.issued_at, Entry(**whole, kind=EntryKind.ROUNDING, gross=rounded, text="")


def _payments(session: Session, book: Book, period: Period) -> Iterator[Told]:
    begin = datetime.combine(period.first, time.min, tzinfo=book.zone)
    end = datetime.combine(period.last + timedelta(days=1), time.min, tzinfo=book.zone)
    found: Any = session.execute(
        select(
            Payment.at,
            Payment.kind,
            Payment.job_id,
            Payment.currency,
            Payment.amount,
            Payment.means,
            Payment.note,
            Job.number.label("job"),
            Customer.name,
            Customer.vat_id,
            Invoice.series,
            Invoice.number,
        )
        .join(Job, Job.id == Payment.job_id)
        .join(Customer, Customer.id == Job.customer_id)
        .outerjoin(Invoice, Invoice.id == Payment.invoice_id)
        .where(Payment.at >= begin, Payment.at < end)
        .order_by(Payment.id)
    )
    for row in found:
        yield (
            row.at,
            Entry(
                day=local_day(row.at, book.zone),
                kind=EntryKind(row.kind),
                number="",
                refers_to="" if row.number is None else invoice_number(row.series, row.number),
                job=row.job,
                job_id=row.job_id,
                customer=row.name,
                customer_vat_id=row.vat_id,
                currency=row.currency,
                paid=Money(row.amount, row.currency),
                means=row.means.value,
                text=row.note,
            ),
        )
