"""Players that keep coming: the mean number of later visits for each, and those with the most."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from sqlalchemy import select

from app.book.door import Book
from app.book.tables import Transport, TransportType, Unit
from app.trade.sentence import Sentence, Value
from app.trade.statistics.comeback_rates import FEWEST
from app.trade.statistics.definition import Followed
from app.trade.statistics.recurrence import MeanCumulative, mean_cumulative
from app.trade.statistics.returns import NONE
from app.trade.statistics.survival import numbers_at_risk, tidy_marks
from app.work.statistics.answer import NELSON, Answer, Why, nothing_found, set_aside
from app.work.statistics.ground import Ground, ground_of, parted
from app.work.statistics.question import Question
from app.work.statistics.steps import Step, Steps

if TYPE_CHECKING:
    from app.work.statistics.ground import Whole

OF = 11  # parts of the work, as they are told where nothing was kept
MOST = 10
YEAR = 365


@dataclass(frozen=True, slots=True)
class MeanRow:
    """One group: ``units`` watched since each was first handed back, ``visits`` after that, and the mean after a year
    with its band (None where nobody was watched so long). ``at_risk`` are how many are watched at each of the
    answer's marks, in days."""

    label: str
    name: Value
    units: int
    visits: int
    year_mean: float | None
    year_low: float | None
    year_high: float | None
    few: bool
    at_risk: tuple[int, ...]
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
    """The groups, the one with most units first, and the ten with most visits, of equal ones those that came last."""

    rows: tuple[MeanRow, ...]
    marks: tuple[float, ...]
    most: tuple[Frequent, ...]


def keep_coming(book: Book, question: Question, step: Step | None = None) -> KeepComing:
    """Visits, for whatever fault, of each player (or transport, if that is followed) after it was first handed back."""
    steps = Steps(step, OF)
    ground = ground_of(book, question, steps)
    steps.next()
    of_unit = question.followed is Followed.UNIT
    start = _starts(ground, of_unit=of_unit)
    steps.next()
    came = _later(ground, start, of_unit=of_unit)
    steps.next()
    codes, today = ground.labels.code[ground.rows[start.at]], ground.today.toordinal()
    groups = parted(codes, ground.labels.texts)
    marks = tidy_marks(float(today - start.day.min()) if len(start.day) else 0.0)
    rows = []
    for label in sorted(groups, key=lambda label: (-len(groups[label]), label)):
        rows.append(_row(label, ground.name(label), *_curve(groups[label], start, came, today, marks)))
        steps.still()
    visits = sum(row.visits for row in rows)
    return KeepComing(
        question=question,
        headline=_headline(len(start.key), len(set(came.of.tolist())), visits)
        if rows
        else nothing_found(ground.first is not None),
        said=(Sentence("Every later visit counts, whatever its fault is."), *set_aside(ground.wrong)),
        why=Why(
            n=len(start.key),
            counted=Sentence("players, each watched since it was first handed back")
            if of_unit
            else Sentence("transports, each watched since it was first handed back"),
            events=visits,
            events_are=Sentence("later visits"),
            method=(Sentence("Mean cumulative function with robust 95 % band."),),
            source=(NELSON,),
        ),
        rows=tuple(rows),
        marks=marks,
        most=_most(book, start, came, of_unit=of_unit),
    )


@dataclass(frozen=True, slots=True, eq=False)
class _Starts:
    """Each player (or transport) that was ever handed back: ``at`` is the place in the ground's rows of its first
    repair, with the day and the job of that."""

    key: Whole
    at: Whole
    day: Whole
    job: Whole


@dataclass(frozen=True, slots=True, eq=False)
class _Later:
    """Each later visit: ``of`` is the place of its player among the starts."""

    of: Whole
    day: Whole
    job: Whole


def _starts(ground: Ground, *, of_unit: bool) -> _Starts:
    """In the order in which each stands first in the ground, where the latest visits are first."""
    import numpy as np

    keys = (ground.visits.unit if of_unit else ground.visits.transport)[ground.rows]
    seen = np.flatnonzero((keys > 0) & (ground.left <= ground.today.toordinal()))
    _, latest = np.unique(keys[seen], return_index=True)
    _, from_end = np.unique(keys[seen][::-1], return_index=True)
    at = seen[len(seen) - 1 - from_end[np.argsort(latest)]]
    return _Starts(keys[at], at, ground.left[at], ground.job[at])


def _later(ground: Ground, start: _Starts, *, of_unit: bool) -> _Later:
    """The visits of each after its first handing back, player by player in order of time."""
    import numpy as np

    visits = ground.visits
    keys = visits.unit if of_unit else visits.came_with
    by_key = np.argsort(start.key)
    place = np.searchsorted(start.key, keys, sorter=by_key)
    of = np.append(by_key, NONE)[place]
    known = (of != NONE) & (np.append(start.key, NONE)[of] == keys)
    counts = (
        known
        & (visits.job != np.append(start.job, NONE)[of])
        & (visits.came >= np.append(start.day, 0)[of])
        & (visits.came <= ground.today.toordinal())
    )
    found = np.flatnonzero(counts)
    found = found[np.lexsort((visits.job[found], visits.taken_in[found], visits.unit[found]))]
    found = found[np.argsort(of[found], kind="stable")]
    return _Later(of[found], visits.came[found], visits.job[found])


def _curve(
    own: Whole, start: _Starts, came: _Later, today: int, marks: tuple[float, ...]
) -> tuple[MeanCumulative, tuple[int, ...], tuple[int, ...]]:
    """The curve of these starts, how many are watched at each mark, and the jobs of their later visits."""
    import numpy as np

    order = np.sort(own)
    place = np.full(len(start.key), NONE)
    place[order] = np.arange(len(order))
    theirs = np.flatnonzero(place[came.of] != NONE)
    of = came.of[theirs]
    ends = today - start.day[order]
    curve = mean_cumulative(ends, place[of], came.day[theirs] - start.day[of])
    return curve, numbers_at_risk(ends, marks), tuple(came.job[theirs].tolist())


def _row(
    label: str, name: Value, curve: MeanCumulative, at_risk: tuple[int, ...], jobs: tuple[int, ...]
) -> MeanRow:
    mean, low, high = curve.at(YEAR), None, None
    if mean and curve.low is not None and curve.high is not None:
        at = curve.mean.index(mean)
        low, high = curve.low[at], curve.high[at]
    few = curve.units < FEWEST
    return MeanRow(label, name, curve.units, curve.event_count, mean, low, high, few, at_risk, curve, jobs)


def _headline(units: int, again: int, visits: int) -> Sentence:
    if not visits:
        return Sentence("None of {units} came in again", {"units": units})
    values: dict[str, Value] = {"again": again, "units": units, "visits": visits}
    if visits == 1:
        return Sentence("1 of {units} came in again, once", values)
    return Sentence("{again} of {units} came in again, {visits} times in all", values)


def _most(book: Book, start: _Starts, came: _Later, *, of_unit: bool) -> tuple[Frequent, ...]:
    import numpy as np

    counts = np.bincount(came.of, minlength=len(start.key))
    last_day = start.day.copy()
    np.maximum.at(last_day, came.of, came.day)  # of equal ones those that came last
    most = [int(at) for at in np.lexsort((start.key, -last_day, -counts))[:MOST] if counts[at]]
    keys = start.key[most].tolist() if most else []
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
    found = []
    for at, key in zip(most, keys, strict=True):
        own = np.flatnonzero(came.of == at)
        own = own[np.lexsort((came.job[own], came.day[own]))]
        first, last = int(start.day[at]), int(came.day[own[-1]])
        found.append(
            Frequent(
                key,
                *names[key],
                1 + len(own),
                date.fromordinal(first),
                date.fromordinal(last),
                (int(start.job[at]), *came.job[own].tolist()),
            )
        )
    return tuple(found)
