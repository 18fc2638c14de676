"""Repeat faults: which repairs came back within the window, by group, and the jobs behind each number."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import and_, bindparam, exists, func, or_, select
from sqlalchemy.orm import Session

from app.book import tables
from app.book.door import Book
from app.trade.bench.kinds import FaultGroup
from app.trade.counter.fault_words import FaultWord, ReportedFault, possible_groups
from app.trade.sentence import Sentence
from app.trade.statistics.comeback_rates import Rate, headline, rates
from app.trade.statistics.comebacks import By, Repair, Standing, count, label_of, standing

T = tables.metadata.tables
_J, _F, _M = T["jobs"].c, T["fittings"].c, T["modifications"].c


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What is asked. ``since`` and ``until`` bound the day of handing back; ``group`` only one fault group."""

    by: By = By.TRANSPORT_TYPE
    window: int = 180
    since: date | None = None
    until: date | None = None
    group: FaultGroup | None = None
    same_group: bool = True


@dataclass(frozen=True, slots=True)
class RepeatFaults:
    """The answer: one rate for each group, and the sentence over the picture."""

    question: Question
    headline: Sentence
    rates: tuple[Rate, ...]
    first: date | None  # the first and last day of handing back in the book
    last: date | None


@dataclass(frozen=True, slots=True)
class JobBehind:
    """One job behind a number."""

    id: int
    number: int
    player: str
    customer: str
    handed_back: date
    group: FaultGroup | None
    standing: Standing
    next_in: date | None


def repeat_faults(book: Book, question: Question) -> RepeatFaults:
    """Comebacks out of repairs watched for the whole window, group by group against the rest of the shop."""
    repairs = _repairs(book, question)
    found = rates(count(repairs, question.by, question.window, same_group=question.same_group))
    days = [repair.handed_back for repair in repairs]
    return RepeatFaults(
        question,
        headline(found, question.by, question.window),
        found,
        min(days, default=None),
        max(days, default=None),
    )


def jobs_behind(book: Book, question: Question, label: str) -> tuple[JobBehind, ...]:
    """The jobs of one row, those that came back first, then newest first."""
    repairs = {
        repair.job: repair for repair in _repairs(book, question) if label_of(repair, question.by) == label
    }
    lines = []
    with book.ask() as session:
        for number, (job, unit, customer) in _named(session, repairs).items():
            repair = repairs[number]
            found = standing(repair, question.window, same_group=question.same_group)
            lines.append(
                JobBehind(
                    job.id,
                    number,
                    f"{unit.maker} {unit.model}",
                    customer.name,
                    repair.handed_back,
                    repair.group,
                    found,
                    repair.next_in,
                )
            )
    lines.sort(key=lambda line: (line.standing is not Standing.CAME_BACK, -line.number))
    return tuple(lines)


def _named(session: Session, numbers: Any) -> dict[int, Any]:
    rows = session.execute(
        select(tables.Job, tables.Unit, tables.Customer)
        .join(tables.Unit, tables.Unit.id == tables.Job.unit_id)
        .join(tables.Customer, tables.Customer.id == tables.Job.customer_id)
        .where(tables.Job.number.in_(list(numbers)))
    )
    return {row[0].number: row for row in rows}


def _lead(column: Any) -> Any:
    return func.lead(column).over(partition_by=_J.unit_id, order_by=(_J.taken_in_at, _J.id))


_VISITS = select(
    _J.id,
    _J.number,
    _J.unit_id,
    _J.outcome,
    _J.fault_group,
    _J.handed_back_at,
    _lead(_J.id).label("next_id"),
    _lead(_J.taken_in_at).label("next_at"),
    _lead(_J.fault_group).label("next_group"),
).subquery("visits")
_FITTED = and_(
    _F.unit_id == _VISITS.c.unit_id,
    _F.fitted_at <= _VISITS.c.handed_back_at,
    or_(_F.removed_at.is_(None), _F.removed_at > _VISITS.c.handed_back_at),
)
_MODIFIED = exists().where(
    or_(_M.unit_id == _VISITS.c.unit_id, _M.transport_id == _F.transport_id),
    _M.struck_at.is_(None),
    _M.at <= _VISITS.c.handed_back_at,
    or_(_M.reversed_at.is_(None), _M.reversed_at > _VISITS.c.handed_back_at),
)
_REPAIRS = (
    select(
        _VISITS,
        _F.transport_id,
        T["transport_types"].c.name.label("type_name"),
        _MODIFIED.label("modified"),
    )
    .select_from(_VISITS)
    .outerjoin(T["fittings"], _FITTED)
    .outerjoin(T["transports"], T["transports"].c.id == _F.transport_id)
    .outerjoin(T["transport_types"], T["transport_types"].c.id == T["transports"].c.type_id)
    .where(_VISITS.c.handed_back_at.is_not(None))
)
_WORDS = select(T["reported_faults"].c.job_id, T["reported_faults"].c.word).where(
    T["reported_faults"].c.job_id.in_(bindparam("jobs", expanding=True))
)


def _repairs(book: Book, question: Question) -> list[Repair]:
    zone, today = book.zone, book.today()

    def local(instant: datetime) -> date:
        return instant.astimezone(zone).date()

    with book.ask() as session:
        connection = session.connection()
        rows = {row.id: row for row in connection.execute(_REPAIRS)}
        open_next = [
            row.next_id for row in rows.values() if row.next_id is not None and row.next_group is None
        ]
        words: dict[int, list[str]] = {}
        for start in range(0, len(open_next), 500):
            for row in connection.execute(_WORDS, {"jobs": open_next[start : start + 500]}):
                words.setdefault(row.job_id, []).append(row.word)
    repairs = []
    for row in rows.values():
        if question.group is not None and row.fault_group is not question.group:
            continue
        handed_back = local(row.handed_back_at)
        if (question.since and handed_back < question.since) or (
            question.until and handed_back > question.until
        ):
            continue
        if row.next_id is None:
            next_groups = frozenset[FaultGroup]()
        elif row.next_group is not None:
            next_groups = frozenset({row.next_group})
        else:
            next_groups = possible_groups(
                ReportedFault(FaultWord(word)) for word in words.get(row.next_id, ())
            )
        repairs.append(
            Repair(
                row.number,
                row.unit_id,
                row.transport_id,
                row.type_name or "",
                row.fault_group,
                handed_back,
                row.outcome,
                bool(row.modified),
                today,
                local(row.next_at) if row.next_at is not None else None,
                next_groups,
            )
        )
    return repairs
