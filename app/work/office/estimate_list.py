"""Estimates that are being written or wait for an answer, for the Office."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlalchemy import Select, func, or_, select

from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.book.tables import Customer, Estimate, EstimateAnswer, Job, Unit
from app.trade.bench.stages import Stage
from app.trade.calendar.promise import local_day
from app.trade.money import Money
from app.trade.office.estimate import ceiling_of, days_unanswered
from app.trade.office.numbers import invoice_number
from app.trade.settings.prices import CURRENCY
from app.trade.settings.terms import NO_ANSWER_DAYS
from app.work.office.estimate_rows import options_of


@dataclass(frozen=True, slots=True)
class OpenEstimate:
    """An estimate of a job in the shop that is being written, or has no answer yet."""

    job_id: int
    job_number: int
    customer: str
    player: str
    number: str  # empty while it is written
    issued_on: date | None
    valid_until: date
    days: int | None  # without an answer, once it is time to ring
    highest: Money | None  # of its options


def open_estimates(book: Book) -> tuple[OpenEstimate, ...]:
    """Estimates that wait for an answer, the oldest first, then those that are being written."""
    with book.ask() as session:
        settings, today = settings_of(session), book.today()
        rows = session.execute(
            select(Estimate, Job, Customer.name, Unit)
            .join(Job, Job.id == Estimate.job_id)
            .join(Customer, Customer.id == Job.customer_id)
            .join(Unit, Unit.id == Job.unit_id)
            .where(
                Job.stage != Stage.HANDED_BACK,
                Estimate.given_up_at.is_(None),
                Estimate.id.not_in(select(EstimateAnswer.estimate_id)),
                or_(Estimate.issued_at.is_(None), Estimate.id.in_(_last_out())),
            )
            .order_by(Estimate.issued_at.is_(None), Estimate.issued_at, Estimate.id)
        ).all()
        found = []
        for row, job, name, unit in rows:
            sums = [ceiling_of(kept.option, settings[CURRENCY]) for kept in options_of(session, row.id)]
            issued_on = None if row.issued_at is None else local_day(row.issued_at, book.zone)
            found.append(
                OpenEstimate(
                    job.id,
                    job.number,
                    name,
                    f"{unit.maker} {unit.model}".strip(),
                    "" if row.number is None else invoice_number("", row.number),
                    issued_on,
                    row.valid_until,
                    days_unanswered(issued_on, today, settings[NO_ANSWER_DAYS]),
                    max(sums, key=lambda one: one.minor, default=None),
                )
            )
        return tuple(found)


def _last_out() -> Select[Any]:
    """The estimate of each job that went out last: only it is answered."""
    return select(func.max(Estimate.id)).where(Estimate.issued_at.is_not(None)).group_by(Estimate.job_id)
