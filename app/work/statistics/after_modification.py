"""After a modification: how jobs fare whose current, laser power or the like was changed, against standard repairs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum
from functools import cache
from typing import TYPE_CHECKING, Any

from sqlalchemy import Text, bindparam, select, type_coerce
from sqlalchemy.orm import Session

from app.book import tables
from app.book.bench.catalogue import quantities
from app.book.columns import BIG
from app.book.door import Book
from app.book.kept import kept
from app.book.tables import Modification, Reading, Transport, TransportType
from app.trade.bench.kinds import HowSeen
from app.trade.bench.modifications import Circuit
from app.trade.bench.quantities import Quantity
from app.trade.bench.units import UNITS, Unit
from app.trade.calendar.local_days import local_days
from app.trade.sentence import Sentence, Value, words
from app.trade.statistics.comeback_rates import FEWEST, LEVEL, shown_p
from app.trade.statistics.comebacks import Standing
from app.trade.statistics.log_rank import LogRank, Watched, log_rank_strata
from app.trade.statistics.proportions import wilson
from app.trade.statistics.returns import NONE
from app.trade.statistics.survival import Survival, kaplan_meier
from app.work.statistics.answer import KAPLAN_MEIER, LOG_RANK, WILSON, Answer, Why, nothing_found, set_aside
from app.work.statistics.columns import columns_of
from app.work.statistics.ground import Ground, ground_in
from app.work.statistics.question import Question
from app.work.statistics.steps import Step, Steps
from app.work.statistics.visits import RESTS_ON, Visits

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from app.work.statistics.ground import Marks, Whole

    Small = NDArray[np.int8]

OF = 14  # parts of the work, as they are told where nothing was kept
RUNGS = 128  # more than any ladder has
AT_ONCE = 500  # transports


class Changed(StrEnum):
    """What of the player was changed; of several kinds in one job the first counts. LIKE are those standard repairs
    whose transport type and rung a changed job had, where there are others."""

    COIL = words("raised coil current")
    LASER = words("set laser power")
    OTHER = words("other non-standard change")
    LIKE = words("standard repair like these")
    STANDARD = words("standard repair")


@dataclass(frozen=True, slots=True)
class ChangedRow:
    """Jobs of one kind. ``share`` of ``could`` came back within the window, with its interval; ``test`` is against the
    ``like`` standard repairs of the same transport type that had stopped at the same rung (None: the standard, and those
    of it that are like these)."""

    kind: Changed
    name: Value
    n: int
    could: int
    came_back: int
    share: float | None
    low: float
    high: float
    few: bool
    curve: Survival
    like: int
    test: LogRank | None
    jobs: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class ReadingPoint:
    """One reading of a transport that carries a change of ours: ``value`` in SI, ``shown`` in ``unit``. ``name`` are
    the words of the quantity; ``transport`` is its type with what is written on it."""

    transport_id: int
    transport: str
    quantity: str
    name: Sentence
    day: date
    value: float
    shown: Decimal
    unit: str
    job: int


@dataclass(frozen=True, slots=True, kw_only=True)
class AfterModification(Answer):
    """The kinds that have a job, the standard last, of which those like the changed ones stand apart; and the readings
    of modified transports in order."""

    rows: tuple[ChangedRow, ...]
    readings: tuple[ReadingPoint, ...]


def after_modification(book: Book, question: Question, step: Step | None = None) -> AfterModification:
    """Jobs that left a change of ours inside, and standard repairs like them."""
    import numpy as np

    steps = Steps(step, OF)
    with book.ask() as session:
        ground = ground_in(session, book, question, steps)
        kind = _kinds(session, ground)
        rung = _first_rungs(session, ground.visits, steps)[ground.rows]
    jobs, odd = _watched(ground, kind, rung)
    steps.next()
    standard = jobs.of(Changed.STANDARD)
    rows = []
    like = jobs.like_the_changed(standard)
    for changed in Changed:
        if len(own := like if changed is Changed.LIKE else jobs.of(changed)):
            rows.append(_row(jobs, changed, own, standard, steps))
    apart = [row for row in rows if row.kind is not Changed.LIKE]  # no job twice
    changed_rows = [row for row in apart if row.kind is not Changed.STANDARD]
    carried = np.unique(jobs.transport[jobs.kind != _ORDER.index(Changed.STANDARD)])
    return AfterModification(
        question=question,
        headline=_headline(changed_rows) if rows else nothing_found(ground.first is not None),
        said=(
            Sentence(
                "These jobs were not drawn by lot: a change is made where nothing else helped, so a difference may come "
                "from the players and not from the change."
            ),
            *question.definition.sentences(),
            *set_aside(odd + ground.wrong),
        ),
        why=Why(
            n=sum(row.n for row in apart),
            counted=Sentence("repairs, each watched until it came back or until today"),
            events=sum(row.curve.event_count for row in apart),
            events_are=Sentence("came back"),
            method=(
                Sentence(
                    "Kaplan-Meier; log-rank test within strata of transport type and rung; shares with score interval."
                ),
            ),
            source=(KAPLAN_MEIER, LOG_RANK, WILSON),
        ),
        rows=tuple(rows),
        readings=_readings(book, carried[carried > 0].tolist(), steps),
    )


_ORDER = tuple(Changed)
_CLIMB = tables.metadata.tables["start_up_results"].c
_CLIMBS = select(_CLIMB.job_id, _CLIMB.rung, type_coerce(_CLIMB.at, BIG), _CLIMB.id).where(
    _CLIMB.struck_at.is_(None), _CLIMB.seen == HowSeen.NORMAL_USE
)
_READINGS = (
    select(
        Reading.transport_id,
        (TransportType.name + " " + Transport.marking).label("transport"),
        Reading.quantity,
        Reading.detail,
        type_coerce(Reading.at, BIG).label("at"),
        Reading.value,
        Reading.job_id,
        Reading.unit,
    )
    .join(Transport, Transport.id == Reading.transport_id)
    .join(TransportType, TransportType.id == Transport.type_id)
    .where(
        Reading.transport_id.in_(bindparam("transports", expanding=True)),
        Reading.struck_at.is_(None),
        Reading.value.is_not(None),
    )
    .order_by(Reading.transport_id, Reading.quantity, Reading.detail, Reading.at, Reading.id)
)


def _kind(circuit: str, ratio: object) -> Changed:
    if circuit in (Circuit.RADIAL_COIL, Circuit.FOCUS_COIL):
        return Changed.COIL if ratio is None or float(str(ratio)) > 1 else Changed.OTHER
    return Changed.LASER if circuit == Circuit.LASER_SUPPLY else Changed.OTHER


def _kinds(session: Session, ground: Ground) -> Small:
    """For each repair the place in `_ORDER` of what was changed in it."""
    import numpy as np

    made = session.execute(
        select(Modification.job_id, type_coerce(Modification.circuit, Text), Modification.ratio)
        .where(
            Modification.ours,
            Modification.struck_at.is_(None),
            (Modification.reversed_job_id.is_(None)) | (Modification.reversed_job_id != Modification.job_id),
        )
        .order_by(Modification.id)
    )
    kinds: dict[int, int] = {}
    for job, circuit, ratio in made:
        kinds[job] = min(kinds.get(job, len(_ORDER)), _ORDER.index(_kind(circuit, ratio)))
    found = np.full(len(ground.visits.job), _ORDER.index(Changed.STANDARD), dtype=np.int8)
    found[ground.visits.places(np.array(list(kinds), dtype=np.int64))] = list(kinds.values())
    return found[ground.rows]


def _first_rungs(session: Session, visits: Visits, steps: Steps) -> Small:
    """For each visit the rung that its first climb in normal use reached, NONE where there was none; kept with the
    visits."""
    import numpy as np

    def gathered() -> Small:
        job, rung, at, key = columns_of(session, _CLIMB.id, _CLIMBS, steps.still)
        # the first one of each job is written last, and stays
        order = np.lexsort((key, at))[::-1]
        found = np.full(len(visits.job), NONE, dtype=np.int8)
        found[visits.places(job[order])] = rung[order]
        return found

    return kept(session, "first rungs", gathered, RESTS_ON | {"start_up_results"})


@dataclass(frozen=True, slots=True, eq=False)
class _Jobs:
    """The jobs that are compared: what was changed, days watched, whether each came back then, and where it stands;
    ``stratum`` tells transport type and rung, ``strata`` what it means."""

    job: Whole
    kind: Small
    days: Whole
    came: Marks
    back: Marks
    held: Marks
    transport: Whole
    stratum: Whole
    strata: Mapping[int, tuple[str, int | None]]

    def of(self, kind: Changed) -> Whole:
        """The places of those of a kind."""
        import numpy as np

        return np.flatnonzero(self.kind == _ORDER.index(kind))

    def like_the_changed(self, standard: Whole) -> Whole:
        """Of these standard repairs those whose type and rung a changed job had; none where that are all of them."""
        import numpy as np

        changed = self.stratum[self.kind != _ORDER.index(Changed.STANDARD)]
        like = standard[np.isin(self.stratum[standard], changed)]
        return like if len(like) < len(standard) else like[:0]

    def watched(self, at: Whole) -> Watched:
        """Days and ends of these."""
        return self.days[at], self.came[at]


def _watched(ground: Ground, kind: Small, rung: Small) -> tuple[_Jobs, int]:
    """The jobs whose outcome counts, and how many of them were set aside as their days cannot be right."""
    import numpy as np

    came = ground.back != NONE
    days = np.where(came, ground.back, ground.today.toordinal()) - ground.left
    fit = np.flatnonzero(ground.counts & (days >= 0))
    rows = ground.rows[fit]
    types = ground.visits.kind[rows].astype(np.int64)
    stratum = types * RUNGS + rung[fit] + 1
    strata = {
        code: (ground.visits.kinds[code // RUNGS], code % RUNGS - 1 if code % RUNGS else None)
        for code in np.unique(stratum).tolist()
    }
    jobs = _Jobs(
        ground.job[fit],
        kind[fit],
        days[fit],
        came[fit],
        ground.stand(Standing.CAME_BACK)[fit],
        ground.stand(Standing.HELD)[fit],
        ground.visits.transport[rows],
        stratum,
        strata,
    )
    return jobs, int(np.count_nonzero(ground.counts)) - len(fit)


def _row(jobs: _Jobs, kind: Changed, own: Whole, standard: Whole, steps: Steps) -> ChangedRow:
    import numpy as np

    back, held = int(jobs.back[own].sum()), int(jobs.held[own].sum())
    could = back + held
    low, high = wilson(back, could)
    test, like = None, 0
    if kind not in (Changed.LIKE, Changed.STANDARD):
        there = np.unique(jobs.stratum[own])
        alike = standard[np.isin(jobs.stratum[standard], there)]
        like = len(alike)
        strata = []
        for code in sorted(there.tolist(), key=lambda code: repr(jobs.strata[code])):
            parts = (part[jobs.stratum[part] == code] for part in (own, alike))
            first, second = (jobs.watched(part) for part in parts)
            strata.append((first, second))
        steps.next()
        test = log_rank_strata(strata)
    steps.next()
    return ChangedRow(
        kind,
        Sentence(kind.value),
        len(own),
        could,
        back,
        back / could if could else None,
        low,
        high,
        len(own) < FEWEST,
        kaplan_meier(*jobs.watched(own)),
        like,
        test,
        tuple(jobs.job[own].tolist()),
    )


def _readings(book: Book, transports: Sequence[int], steps: Steps) -> tuple[ReadingPoint, ...]:
    """Those of these transports; an open circuit has no value."""
    found: list[ReadingPoint] = []
    with book.ask() as session:
        known = quantities(session)
        named = cache(lambda key, detail, unit: _named(known.get(key), key, detail, unit))
        for start in range(0, len(transports), AT_ONCE):
            steps.still()
            rows: Any = session.execute(_READINGS, {"transports": transports[start : start + AT_ONCE]}).all()
            moments = [row.at for row in rows]
            day = local_days(min(moments, default=0), max(moments, default=0), book.zone)
            for transport_id, transport, key, detail, at, value, job, typed_in in rows:
                text, name, unit = named(key, detail, typed_in)
                shown = unit.to_shown(Decimal(repr(value)))
                found.append(
                    ReadingPoint(
                        transport_id, transport.strip(), text, name, day(at), value, shown, unit.shown, job
                    )
                )
    return tuple(found)


def _named(quantity: Quantity | None, key: str, detail: str, typed_in: str) -> tuple[str, Sentence, Unit]:
    """What a reading is called, and the unit that its quantity is shown in now, else that of its day."""
    text = f"{key} {detail}" if detail else key
    if quantity is None:
        return text, Sentence("{id}", {"id": key}), UNITS[typed_in]
    return text, quantity.named(detail), quantity.unit


def _headline(changed: Sequence[ChangedRow]) -> Sentence:
    if not changed:
        return Sentence("No repair left a change of ours inside")
    told = [row for row in changed if not row.few and row.test is not None and row.test.p < LEVEL]
    if not told:
        return Sentence("No change can be told from standard repairs of the same kind")
    row = min(told, key=lambda row: row.test.p if row.test else 1.0)
    assert row.test is not None
    values = {"kind": row.name, "p": shown_p(row.test.p)}
    if row.test.observed[0] > row.test.expected[0]:
        return Sentence("Comes back more often than like standard repairs: {kind} (p {p})", values)
    return Sentence("Comes back less often than like standard repairs: {kind} (p {p})", values)
