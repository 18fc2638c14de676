"""The list of jobs: keys by filter in the order of a column, pages of rows, and the counts on the dividers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo
from enum import StrEnum
from itertools import chain
from typing import Any

from sqlalchemy import ColumnElement, Select, and_, case, func, literal_column, or_, select
from sqlalchemy.orm import Session

from app.book.door import Book
from app.book.office.billed import is_invoiced
from app.book.tables import Customer, Fitting, Flag, Job, Unit
from app.trade.bench.flag import Level, Subject
from app.trade.bench.stages import Stage, Waiting
from app.work.counter.ready_players import count_uncollected
from app.work.counter.unanswered import count_unanswered

PAGE = 100  # rows at once


class Show(StrEnum):
    """Which jobs the list holds."""

    IN_THE_SHOP = "in the shop"
    READY = "ready"
    WAITING = "waiting for the customer"
    ON_THE_BENCH = "on the bench"
    TO_WORK_ON = "to work on"
    HANDED_BACK = "handed back this week"
    EVERY = "every job"


class Sort(StrEnum):
    """The column by which it is sorted."""

    NUMBER = "number"
    PROMISED = "promised"
    PLAYER = "player"
    CUSTOMER = "customer"
    FAULT = "fault"
    STAGE = "stage"
    FLAGS = "flags"


class Promise(StrEnum):
    """The group of a job by its promise."""

    LATE = "late"
    TODAY = "today"
    COLLECT = "to be collected"  # ready, and its promised day is past
    LATER = "later"  # or no day yet


RANKS = tuple(Promise)
STAGES = tuple(Stage)
LEVELS = (Level.STOP, Level.CAUTION, Level.NOTE)
WORKED_ON = (Stage.TAKEN_IN, Stage.ON_THE_BENCH, Stage.RUNNING_IN)
IN_THE_SHOP = (*WORKED_ON, Stage.READY)  # by name, so that the index on stage and promise answers
WAITING_FOR_PEOPLE = (Waiting.ANSWER, Waiting.CUSTOMER)
# Written as in the index.
BY_TIME = (Job.promised_time == literal_column("''"), Job.promised_time, Job.number)


@dataclass(frozen=True, slots=True)
class Group:
    """A run of rows under one heading; ``start`` is the place of its first row."""

    promise: Promise
    start: int
    count: int


@dataclass(frozen=True, slots=True)
class JobIds:
    """The keys of the list in their order. ``groups`` only where it is sorted by promise, the soonest first."""

    ids: tuple[int, ...]
    groups: tuple[Group, ...] = ()


@dataclass(frozen=True, slots=True)
class ShopCounts:
    """What the heading and the dividers say."""

    in_the_shop: int
    late: int
    today: int
    held: int
    to_work_on: int
    to_invoice: int
    ever: int  # jobs in the book at all
    unanswered: int = 0  # asked, and no answer for longer than the shop wants to wait
    uncollected: int = 0  # ready, and the time to collect is over


def job_ids(
    book: Book,
    show: Show = Show.IN_THE_SHOP,
    sort: Sort = Sort.PROMISED,
    *,
    descending: bool = False,
    promise: Promise | None = None,
) -> JobIds:
    """The keys of the jobs to show, sorted in the database; with ``promise`` only those of that group."""
    today = book.today()
    shown = [_shown(show, today, book.zone)]
    if promise is not None:
        shown.append(_rank(today) == RANKS.index(promise))
    by_promise = sort is Sort.PROMISED and not descending
    with book.ask() as session:
        if by_promise and show is Show.EVERY:
            runs = _every_by_promise(session, today, RANKS if promise is None else (promise,))
            return JobIds(tuple(chain.from_iterable(runs)))
        ids = _keys(session, _sorted(select(Job.id), sort, descending, today).where(*shown))
        return JobIds(
            ids, _groups(session, shown, today) if by_promise and show is not Show.HANDED_BACK else ()
        )


def _every_by_promise(
    session: Session, today: date, promises: Sequence[Promise]
) -> Iterator[tuple[int, ...]]:
    """The same order as `_sorted` gives, in runs of an index: sorting the whole book takes twice the time."""
    past, due = Job.promised_on < today, Job.promised_on
    runs: dict[Promise, tuple[ColumnElement[bool], ...]] = {
        Promise.LATE: (and_(past, Job.stage != Stage.READY),),
        Promise.TODAY: (due == today,),
        Promise.COLLECT: (and_(past, Job.stage == Stage.READY),),
        Promise.LATER: (due > today, due.is_(None)),
    }
    for promise in promises:
        for run in runs[promise]:
            yield _keys(session, select(Job.id).where(run).order_by(due, *BY_TIME))


def _keys(session: Session, statement: Select[Any]) -> tuple[int, ...]:
    """The keys as the driver hands them over: of 100,000 a third of the time that wrapped rows take."""
    cursor = session.connection().execute(statement).cursor
    assert cursor is not None
    return tuple(key for (key,) in cursor.fetchall())


def shop_counts(book: Book) -> ShopCounts:
    """How many players are here, late, due today, held by a stop, to be worked on and to be invoiced."""
    today = book.today()
    with book.ask() as session:
        here = Job.stage.in_(IN_THE_SHOP)
        in_shop, late, due, bench = session.execute(
            select(
                func.count(),
                func.count().filter(_rank(today) == RANKS.index(Promise.LATE)),
                func.count().filter(_rank(today) == RANKS.index(Promise.TODAY)),
                func.count().filter(Job.stage.in_(WORKED_ON)),
            ).where(here)
        ).one()
        held = session.scalar(select(func.count()).where(here, _flagged(Level.STOP))) or 0
        ever = session.scalar(select(func.count()).select_from(Job)) or 0
        waiting, left = count_unanswered(session, book), count_uncollected(session, book)
        return ShopCounts(in_shop, late, due, held, bench, _to_invoice(session), ever, waiting, left)


def _shown(show: Show, today: date, zone: tzinfo) -> ColumnElement[bool]:
    here = Job.stage.in_(IN_THE_SHOP)
    match show:
        case Show.IN_THE_SHOP:
            return here
        case Show.READY:
            return Job.stage == Stage.READY
        case Show.WAITING:
            return and_(here, Job.waiting.in_(WAITING_FOR_PEOPLE))
        case Show.ON_THE_BENCH:
            return Job.stage.in_((Stage.ON_THE_BENCH, Stage.RUNNING_IN))
        case Show.TO_WORK_ON:
            return Job.stage.in_(WORKED_ON)
        case Show.HANDED_BACK:
            monday = today - timedelta(days=today.weekday())
            return Job.handed_back_at >= datetime.combine(monday, time(), zone)
        case _:
            return Job.id.is_not(None)


def _rank(today: date) -> ColumnElement[int]:
    """The place of a job's group by its promise."""
    past = Job.promised_on < today
    return case(
        (and_(past, Job.stage == Stage.READY), RANKS.index(Promise.COLLECT)),
        (past, RANKS.index(Promise.LATE)),
        (Job.promised_on == today, RANKS.index(Promise.TODAY)),
        else_=RANKS.index(Promise.LATER),
    )


def _sorted(statement: Select[Any], sort: Sort, descending: bool, today: date) -> Select[Any]:
    """In the order of a column; equal ones by job number."""
    keys: list[ColumnElement[Any]]
    match sort:
        case Sort.NUMBER:
            keys = []
        case Sort.PROMISED:
            soonest = Job.promised_on.desc() if descending else Job.promised_on.asc()
            rank = [] if descending else [_rank(today)]
            return statement.order_by(*rank, Job.promised_on.is_(None), soonest, *BY_TIME)
        case Sort.PLAYER:
            statement = statement.join(Unit, Unit.id == Job.unit_id)
            keys = [func.lower(Unit.maker), func.lower(Unit.model), func.lower(Unit.serial_key)]
        case Sort.CUSTOMER:
            statement = statement.join(Customer, Customer.id == Job.customer_id)
            keys = [func.lower(Customer.name)]
        case Sort.FAULT:
            keys = [func.lower(Job.fault_short)]
        case Sort.STAGE:
            keys = [case(*((Job.stage == stage, at) for at, stage in enumerate(STAGES)))]
        case _:
            keys = [case(*((_flagged(level), at) for at, level in enumerate(LEVELS)), else_=len(LEVELS))]
    ways = [key.desc() if descending else key.asc() for key in keys]
    return statement.order_by(*ways, Job.number.desc() if descending else Job.number.asc())


def _flagged(level: Level) -> ColumnElement[bool]:
    """Whether an open flag of this level hangs on the job, its player or the transport inside."""
    is_open = and_(Flag.level == level, Flag.cleared_at.is_(None))
    on_job = select(Flag.job_id).where(is_open, Flag.subject == Subject.JOB)
    on_unit = select(Flag.unit_id).where(is_open, Flag.subject == Subject.UNIT)
    inside = (
        select(Fitting.unit_id)
        .join(Flag, Flag.transport_id == Fitting.transport_id)
        .where(is_open, Flag.subject == Subject.TRANSPORT, Fitting.removed_at.is_(None))
    )
    return or_(Job.id.in_(on_job), Job.unit_id.in_(on_unit), Job.unit_id.in_(inside))


def _groups(session: Session, shown: Sequence[ColumnElement[bool]], today: date) -> tuple[Group, ...]:
    rank = _rank(today)
    counted = dict(session.execute(select(rank, func.count()).where(*shown).group_by(rank)).all())
    groups, start = [], 0
    for at, promise in enumerate(RANKS):
        if count := counted.get(at, 0):
            groups.append(Group(promise, start, count))
            start += count
    return tuple(groups)


def _to_invoice(session: Session) -> int:
    """Jobs that are ready and have no invoice yet."""
    return (
        session.scalar(select(func.count()).select_from(Job).where(Job.stage == Stage.READY, ~is_invoiced()))
        or 0
    )
