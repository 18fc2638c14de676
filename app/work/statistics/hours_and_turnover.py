"""The working time of each person and the turnover of each month."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, tzinfo
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from sqlalchemy import ColumnElement, Text, func, select, type_coerce
from sqlalchemy.orm import Session

from app.book import tables
from app.book.columns import BIG
from app.trade.calendar.local_days import day_numbers
from app.trade.money import MICRO, Money
from app.work.statistics.columns import columns_of
from app.work.statistics.steps import READING, Steps
from app.work.statistics.turns import day_written
from app.work.statistics.visits import Visits

if TYPE_CHECKING:
    from app.work.statistics.ground import Marks, Whole

T = tables.metadata.tables
_L, _S = T["labour"].c, T["staff"].c
_HOURS = select(_L.job_id, _L.hours, type_coerce(_L.at, BIG), _L.by).where(_L.struck_at.is_(None))
_PAPERS = ((T["invoices"].c, 1), (T["credit_notes"].c, -1))


@dataclass(frozen=True, slots=True)
class HoursRow:
    """The working time of one person in the period."""

    name: str
    hours: Decimal
    jobs: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class MonthRow:
    """Invoices less credit notes of one month, without VAT."""

    first: date
    net: Money


def hours_of(
    session: Session,
    zone: tzinfo,
    visits: Visits,
    passes: Marks | None,
    since: date,
    until: date,
    only: int | None,
    steps: Steps,
) -> tuple[HoursRow, ...]:
    """The hours worked in the period on jobs that pass, by person, or of ``only`` one."""
    import numpy as np

    asked = _HOURS if only is None else _HOURS.where(_L.by == only)
    steps.next(READING)
    job, hours, at, by = columns_of(session, _L.id, asked, steps.still)
    steps.next()
    day = day_numbers(at, zone)
    inside = (day >= since.toordinal()) & (day <= until.toordinal())
    if passes is not None:
        inside &= passes[visits.places(job)]
    people: defaultdict[str, list[int]] = defaultdict(list)
    for key, name in session.execute(select(_S.id, _S.name)):
        people[name].append(key)
    rows = []
    for name in sorted(people):
        steps.still()
        own = inside & np.isin(by, people[name])
        if own.any():
            total, jobs = Decimal(int(hours[own].sum())) / MICRO, np.unique(job[own])
            rows.append(HoursRow(name, total, tuple(jobs.tolist())))
    return tuple(rows)


def turnover_of(
    session: Session,
    visits: Visits,
    passes: Marks | None,
    since: date,
    until: date,
    currency: str,
    steps: Steps,
) -> tuple[MonthRow, ...]:
    """What was asked for in each month of the period for jobs that pass, less what was credited."""
    months: defaultdict[int, int] = defaultdict(int)
    found: Sequence[Any]
    for paper, sign in _PAPERS:
        steps.next(READING)
        period = paper.issued_on.between(since, until)
        if passes is None:  # half the time that the columns take
            sums = select(month_of(paper.issued_on), func.sum(paper.net)).where(period)
            found = session.execute(sums.group_by(month_of(paper.issued_on))).all()
        else:
            asked = select(paper.job_id, paper.net, day_written(paper.issued_on)).where(period)
            job, net, day = columns_of(session, paper.id, asked, steps.still)
            own = passes[visits.places(job)]
            found = _summed(day[own] // 100, net[own])
        for month, amount in found:
            months[int(month)] += sign * amount
    return tuple(
        MonthRow(date(month // 100, month % 100, 1), Money(months[month], currency))
        for month in sorted(months)
    )


def month_of(column: ColumnElement[date]) -> ColumnElement[str]:
    """The month of a day of the book as it is written, without the stroke: 202603."""
    return func.replace(func.substr(type_coerce(column, Text), 1, 7), "-", "", type_=Text())


def _summed(months: Whole, amounts: Whole) -> list[tuple[int, int]]:
    import numpy as np

    there, place = np.unique(months, return_inverse=True)
    sums = np.zeros(len(there), dtype=np.int64)
    np.add.at(sums, place, amounts)
    return list(zip(there.tolist(), sums.tolist(), strict=True))
