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
    for row, job, customer in session.execute(
        select(Invoice, Job.number, Customer)
        .join(Job, Job.id == Invoice.job_id)
        .join(Customer, Customer.id == Invoice.customer_id)
        .where(Invoice.issued_on >= period.first, Invoice.issued_on <= period.last)
        .order_by(Invoice.id)
    ):
        yield from _issued(row, EntryKind.INVOICE, 1, "", "", job, customer)


def _credit_notes(session: Session, period: Period) -> Iterator[Told]:
    for row, invoice, job, customer in session.execute(
        select(CreditNote, Invoice, Job.number, Customer)
        .join(Invoice, Invoice.id == CreditNote.invoice_id)
        .join(Job, Job.id == CreditNote.job_id)
        .join(Customer, Customer.id == CreditNote.customer_id)
        .where(CreditNote.issued_on >= period.first, CreditNote.issued_on <= period.last)
        .order_by(CreditNote.id)
    ):
        corrected = invoice_number(invoice.series, invoice.number)
        yield from _issued(row, EntryKind.CREDIT_NOTE, -1, corrected, row.reason, job, customer)


def _issued(
    row: Any, kind: EntryKind, sign: int, refers_to: str, reason: str, job: int, customer: Customer
) -> Iterator[Told]:
    """One row for each VAT rate of an invoice or credit note, and one for what its sum was rounded by."""
    whole = {
        "day": row.issued_on,
        "number": invoice_number(row.series, row.number),
        "refers_to": refers_to,
        "job": job,
        "job_id": row.job_id,
        "customer": customer.name,
        "customer_vat_id": customer.vat_id,
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
        select(Payment, Job.number, Customer, Invoice)
        .join(Job, Job.id == Payment.job_id)
        .join(Customer, Customer.id == Job.customer_id)
        .outerjoin(Invoice, Invoice.id == Payment.invoice_id)
        .where(Payment.at >= begin, Payment.at < end)
        .order_by(Payment.id)
    )
    for row, job, customer, invoice in found:
        yield (
            row.at,
            Entry(
                day=local_day(row.at, book.zone),
                kind=EntryKind(row.kind),
                number="",
                refers_to="" if invoice is None else invoice_number(invoice.series, invoice.number),
                job=job,
                job_id=row.job_id,
                customer=customer.name,
                customer_vat_id=customer.vat_id,
                currency=row.currency,
                paid=Money(row.amount, row.currency),
                means=row.means.value,
                text=row.note,
            ),
        )
