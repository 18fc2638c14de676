"""Players that keep coming: the mean number of later visits for each, and those with the most."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from datetime import date

from sqlalchemy import select

from app.book.door import Book
from app.book.tables import Transport, TransportType, Unit
from app.trade.sentence import Sentence, Value
from app.trade.statistics.comeback_rates import FEWEST
from app.trade.statistics.definition import Followed
from app.trade.statistics.recurrence import MeanCumulative, mean_cumulative
from app.work.office.repairs import all_visits
from app.work.statistics.answer import NELSON, Answer, Why, nothing_found
from app.work.statistics.ground import ground_of
from app.work.statistics.question import Question
from app.work.statistics.steps import Step, Steps

MOST = 10
YEAR = 365


@dataclass(frozen=True, slots=True)
class MeanRow:
    """One group: ``units`` watched since each was first handed back, ``visits`` after that, and the mean after a year
    with its band (None where nobody was watched so long)."""

    label: str
    name: Value
    units: int
    visits: int
    year_mean: float | None
    year_low: float | None
    year_high: float | None
    few: bool
    curve: MeanCumulative
    jobs: tuple[int, ...]  # of the later visits


@dataclass(frozen=True, slots=True)
class Frequent:
    """One of those with most visits; ``jobs`` are all its visits, the first one too."""

    id: int
    name: str
    serial: str
    visits: int
    first: date
    last: date
    jobs: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class KeepComing(Answer):
    """The groups, the one with most units first, and the ten with most visits."""

    rows: tuple[MeanRow, ...]
    most: tuple[Frequent, ...]


def keep_coming(book: Book, question: Question, step: Step | None = None) -> KeepComing:
    """Visits, for whatever fault, of each player (or transport, if that is followed) after it was first handed back."""
    ground = ground_of(book, question, Steps(step, 4))
    of_unit = question.followed is Followed.UNIT
    start: dict[int, tuple[date, str]] = {}
    first_job: dict[int, int] = {}
    for one in ground.each:
        key = one.unit_id if of_unit else one.transport_id
        if key is None or one.handed_back > ground.today:
            continue
        # repairs come with the latest first, so that the first one stays
        start[key], first_job[key] = (one.handed_back, ground.label(one)), one.job_id
    came: defaultdict[int, list[tuple[date, int]]] = defaultdict(list)
    for visit in all_visits(book):
        key = visit.unit_id if of_unit else visit.transport_id
        if (
            key in start
            and visit.job_id != first_job[key]
            and start[key][0] <= visit.taken_in <= ground.today
        ):
            came[key].append((visit.taken_in, visit.job_id))
    groups: defaultdict[str, list[int]] = defaultdict(list)
    for key, (_, label) in start.items():
        groups[label].append(key)
    rows = []
    for label in sorted(groups, key=lambda label: (-len(groups[label]), label)):
        keys = groups[label]
        ends = [(ground.today - start[key][0]).days for key in keys]
        owner = [at for at, key in enumerate(keys) for _ in came.get(key, ())]
        days = [(day - start[key][0]).days for key in keys for day, _ in came.get(key, ())]
        jobs = tuple(job for key in keys for _, job in came.get(key, ()))
        rows.append(_row(label, ground.name(label), mean_cumulative(ends, owner, days), jobs))
    visits = sum(row.visits for row in rows)
    return KeepComing(
        question=question,
        headline=_headline(len(start), visits) if rows else nothing_found(ground.first is not None),
        said=(Sentence("Every later visit counts, whatever its fault is."),),
        why=Why(
            n=len(start),
            counted=Sentence("players, each watched since it was first handed back")
            if of_unit
            else Sentence("transports, each watched since it was first handed back"),
            events=visits,
            events_are=Sentence("later visits"),
            method=(Sentence("Mean cumulative function with robust 95 % band."),),
            source=(NELSON,),
        ),
        rows=tuple(rows),
        most=_most(book, start, first_job, came, of_unit=of_unit),
    )


def _row(label: str, name: Value, curve: MeanCumulative, jobs: tuple[int, ...]) -> MeanRow:
    mean, low, high = curve.at(YEAR), None, None
    if mean and curve.low is not None and curve.high is not None:
        at = curve.mean.index(mean)
        low, high = curve.low[at], curve.high[at]
    return MeanRow(
        label, name, curve.units, curve.event_count, mean, low, high, curve.units < FEWEST, curve, jobs
    )


def _headline(units: int, visits: int) -> Sentence:
    if not visits:
        return Sentence("None of {units} came in again", {"units": units})
    return Sentence("{units} came in again {visits} times in all", {"units": units, "visits": visits})


def _most(
    book: Book,
    start: dict[int, tuple[date, str]],
    first_job: dict[int, int],
    came: dict[int, list[tuple[date, int]]],
    *,
    of_unit: bool,
) -> tuple[Frequent, ...]:
    keys = sorted(came, key=lambda key: (-len(came[key]), key))[:MOST]
    with book.ask() as session:
        if of_unit:
            rows = session.execute(
                select(Unit.id, Unit.maker + " " + Unit.model, Unit.serial).where(Unit.id.in_(keys))
            )
        else:
            rows = session.execute(
                select(Transport.id, TransportType.name, Transport.marking)
                .join(TransportType, TransportType.id == Transport.type_id)
                .where(Transport.id.in_(keys))
            )
        names = {key: (name.strip(), serial) for key, name, serial in rows}
    return tuple(
        Frequent(
            key,
            *names[key],
            1 + len(came[key]),
            start[key][0],
            max(came[key])[0],
            (first_job[key], *(job for _, job in sorted(came[key]))),
        )
        for key in keys
    )
