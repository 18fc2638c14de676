"""What may be promised for a player that is taken in, by how long jobs like it took in the last two years."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import NamedTuple

from sqlalchemy import Text, and_, bindparam, or_, select, type_coerce

from app.book.columns import BIG, EPOCH, MICROSECOND
from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.book.tables import Fitting, Job, Transport, TransportType
from app.trade.bench.kinds import FaultGroup
from app.trade.bench.stages import Stage
from app.trade.calendar.local_days import local_days
from app.trade.calendar.promise import ShopCalendar
from app.trade.counter.fault_words import ReportedFault, possible_groups
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence, Value
from app.trade.statistics.promise import PromiseHelp, Turn, promise_help

LOOKED_BACK = timedelta(days=730)

_HERE = [stage.value for stage in Stage if stage is not Stage.HANDED_BACK]
_INSIDE = and_(
    Fitting.unit_id == Job.unit_id,
    or_(Job.handed_back_at.is_(None), Fitting.fitted_at <= Job.handed_back_at),
    or_(Fitting.removed_at.is_(None), Fitting.removed_at > Job.handed_back_at),
)
# Plain numbers and words: ten thousand typed rows would take as long as everything else together.
_JOBS = (
    select(
        type_coerce(Job.taken_in_at, BIG),
        type_coerce(Job.ready_at, BIG),
        type_coerce(Job.handed_back_at, BIG),
        type_coerce(Job.fault_group, Text),
        Transport.type_id,
    )
    .outerjoin(Fitting, _INSIDE)
    .outerjoin(Transport, Transport.id == Fitting.transport_id)
    .where(
        or_(
            type_coerce(Job.handed_back_at, BIG) >= bindparam("since"),
            type_coerce(Job.stage, Text).in_(_HERE),
        )
    )
)


@dataclass(frozen=True, slots=True)
class PromiseOffer:
    """``day`` is the day that would be promised today; ``of_what`` says which jobs it leans on."""

    help: PromiseHelp
    of_what: Sentence
    day: date


class _Like(NamedTuple):
    turn: Turn
    type_id: int | None
    group: str | None


def promise_offer(
    book: Book, type_id: int | None = None, faults: Sequence[ReportedFault] = ()
) -> PromiseOffer | None:
    """What jobs of this transport type with such a fault say; where they are too few those of the type, then those
    with such a fault, then all. None where even these are too few, or no day is open."""
    now = (book.now() - EPOCH) // MICROSECOND
    with book.ask() as session:
        calendar = settings_of(session).calendar
        rows = session.execute(_JOBS, {"since": now - LOOKED_BACK // MICROSECOND}).all()
        name = session.scalar(select(TransportType.name).where(TransportType.id == type_id))
    if not rows:
        return None
    day = local_days(min(row[0] for row in rows), max(now, *(row[0] for row in rows)), book.zone)
    jobs = [
        _Like(Turn(day(taken_in), day(ready or left or now), ready is not None), kind, group)
        for taken_in, ready, left, group, kind in rows
    ]
    for kind, groups in _narrowing(type_id if name else None, possible_groups(faults)):
        found = promise_help([job.turn for job in jobs if _is_like(job, kind, groups)], calendar)
        if found.working_days is not None:
            return _offer(found, name if kind is not None else None, bool(groups), calendar, book.today())
    return None


def _narrowing(
    type_id: int | None, groups: Collection[FaultGroup]
) -> list[tuple[int | None, Collection[FaultGroup]]]:
    """From what fits best to all; what is not known narrows nothing."""
    tried = [(type_id, groups), (type_id, ()), (None, groups), (None, ())]
    return [one for at, one in enumerate(tried) if one not in tried[:at]]


def _is_like(job: _Like, type_id: int | None, groups: Collection[FaultGroup]) -> bool:
    return (type_id is None or job.type_id == type_id) and (not groups or job.group in groups)


def _offer(
    found: PromiseHelp, name: str | None, with_fault: bool, calendar: ShopCalendar, today: date
) -> PromiseOffer | None:
    assert found.working_days is not None
    try:
        day = calendar.after(today, found.working_days)
    except Refusal:  # a calendar without an open day: nothing is promised
        return None
    template = _OF_WHAT[name is not None, with_fault]
    values: dict[str, Value] = {"n": found.n}
    if name is not None:
        values["type"] = name
    return PromiseOffer(found, Sentence(template.key, values), day)


_OF_WHAT = {
    (True, True): Sentence("{n} jobs of the last two years with {type} and such a fault"),
    (True, False): Sentence("{n} jobs of the last two years with {type}"),
    (False, True): Sentence("{n} jobs of the last two years with such a fault"),
    (False, False): Sentence("{n} jobs of the last two years"),
}
