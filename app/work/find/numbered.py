"""Finds invoices, credit notes and estimates by the number that is printed on them, and by the reference of a transfer."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlalchemy import Select, and_, or_, select
from sqlalchemy.orm import Session

from app.book.door import Book
from app.book.office.settings import NumberSeries
from app.book.tables import CreditNote, Customer, Estimate, Invoice, Job, Paper
from app.trade.calendar.promise import local_day
from app.trade.money import Money
from app.trade.office.creditor_reference import numbers_referred
from app.trade.office.numbers import invoice_number, read_invoice_number
from app.work.papers.kinds import Kind


@dataclass(frozen=True, slots=True)
class FoundNumbered:
    """A paper of money as one line. ``amount`` is None of an estimate: it has one for each option."""

    kind: Kind
    id: int
    number: str
    job_id: int
    customer: str
    issued_on: date
    amount: Money | None


def numbered(book: Book, session: Session, question: str, limit: int) -> tuple[FoundNumbered, ...]:
    """Those with this number, inside a question. Without letters in front of it every series is asked."""
    read = read_invoice_number(question)
    if read is None:
        return _referred(session, question)[:limit]
    letters, number = read
    found = [
        FoundNumbered(
            kind, row.id, invoice_number(row.series, row.number), row.job_id, name, row.issued_on, amount
        )
        for kind, table, column in (
            (Kind.INVOICE, Invoice, Invoice.gross),
            (Kind.CREDIT_NOTE, CreditNote, CreditNote.due),
        )
        for row, name, minor in session.execute(_of_series(session, kind, table, column, letters, number))
        for amount in (Money(minor, row.currency),)
    ]
    if not letters:
        found += _estimates(book, session, number)
    return tuple(found[:limit])


def _referred(session: Session, question: str) -> tuple[FoundNumbered, ...]:
    """The invoice that the reference on a bank statement is of (ISO 11649)."""
    splits = numbers_referred(question)
    if not splits:
        return ()
    asked = (
        select(Invoice, Customer.name)
        .join(Customer, Customer.id == Invoice.customer_id)
        .where(or_(*(and_(Invoice.series == series, Invoice.number == number) for series, number in splits)))
        .order_by(Invoice.id.desc())
    )
    return tuple(
        FoundNumbered(
            Kind.INVOICE,
            row.id,
            invoice_number(row.series, row.number),
            row.job_id,
            name,
            row.issued_on,
            Money(row.gross, row.currency),
        )
        for row, name in session.execute(asked)
    )


def _estimates(book: Book, session: Session, number: int) -> list[FoundNumbered]:
    """Estimates have one series, without letters; one that is still written has no number."""
    rows = session.execute(
        select(Estimate.id, Estimate.job_id, Paper.issued_at, Customer.name)
        .join(Job, Job.id == Estimate.job_id)
        .join(Customer, Customer.id == Job.customer_id)
        .join(Paper, Paper.id == Estimate.paper_id)
        .where(Estimate.number == number)
    ).all()
    said = invoice_number("", number)
    return [
        FoundNumbered(Kind.ESTIMATE, key, said, job_id, name, local_day(at, book.zone), None)
        for key, job_id, at, name in rows
    ]


def _of_series(
    session: Session,
    kind: Kind,
    table: type[Invoice] | type[CreditNote],
    amount: Any,
    letters: str,
    number: int,
) -> Select[Any]:
    """Rows of one kind with this number; the series are named, since the index is by series first."""
    series = [letters] if letters else _series(session, kind)
    return (
        select(table, Customer.name, amount)
        .join(Customer, Customer.id == table.customer_id)
        .where(table.series.in_(series), table.number == number)
        .order_by(table.issued_on.desc(), table.id.desc())
    )


def _series(session: Session, kind: Kind) -> list[str]:
    """The letters of every series of a kind that numbers were taken from; the plain one has none."""
    names = session.scalars(select(NumberSeries.name))
    return [name.removeprefix(kind.value).strip() for name in names if _of(name, kind)]


def _of(name: str, kind: Kind) -> bool:
    return name == kind.value or name.startswith(f"{kind.value} ")
