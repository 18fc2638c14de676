"""What was taken and given back on one day, by means, to be counted against the till."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from sqlalchemy import select

from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.book.tables import Customer, Invoice, Job, Payment, Staff
from app.trade.bench.kinds import Means
from app.trade.money import Money, total
from app.trade.office.numbers import invoice_number
from app.trade.office.takings import Taken, by_means
from app.trade.settings.prices import CURRENCY


@dataclass(frozen=True, slots=True)
class TakenLine:
    """One payment of the day; below zero it was given back. ``invoice`` is empty for a deposit."""

    id: int
    job_id: int
    job_number: int
    customer: str
    invoice: str
    kind: str
    means: Means
    amount: Money
    at: datetime
    by: str
    note: str


@dataclass(frozen=True, slots=True)
class DaysTakings:
    """The day, its payments in the order of time, and the sums."""

    day: date
    lines: tuple[TakenLine, ...]
    means: tuple[Taken, ...]
    sum: Money


def days_takings(book: Book, day: date | None = None) -> DaysTakings:
    """The takings of a day of the shop, from midnight to midnight of its own time; None means today."""
    day = day or book.today()
    begin = datetime.combine(day, time.min, tzinfo=book.zone)
    end = datetime.combine(day + timedelta(days=1), time.min, tzinfo=book.zone)
    with book.ask() as session:
        currency = settings_of(session)[CURRENCY]
        lines = tuple(
            TakenLine(
                payment.id,
                payment.job_id,
                number,
                customer,
                _number(invoice),
                payment.kind,
                payment.means,
                Money(payment.amount, payment.currency),
                payment.at,
                name,
                payment.note,
            )
            for payment, number, customer, name, invoice in session.execute(
                select(Payment, Job.number, Customer.name, Staff.name, Invoice)
                .join(Job, Job.id == Payment.job_id)
                .join(Customer, Customer.id == Job.customer_id)
                .join(Staff, Staff.id == Payment.by)
                .outerjoin(Invoice, Invoice.id == Payment.invoice_id)
                .where(Payment.at >= begin, Payment.at < end)
                .order_by(Payment.at, Payment.id)
            )
        )
    sums = by_means(((line.means, line.amount) for line in lines), currency)
    return DaysTakings(day, lines, sums, total([line.amount for line in lines], currency))


def _number(invoice: Invoice | None) -> str:
    return "" if invoice is None else invoice_number(invoice.series, invoice.number)
