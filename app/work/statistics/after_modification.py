"""After a modification: how jobs fare whose current, laser power or the like was changed, against standard repairs."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum
from typing import Any

from sqlalchemy import Text, select, type_coerce

from app.book.bench.catalogue import quantities
from app.book.door import Book
from app.book.tables import Modification, Reading, StartUpResult, Transport, TransportType
from app.trade.bench.kinds import HowSeen
from app.trade.bench.modifications import Circuit
from app.trade.bench.quantities import Quantity
from app.trade.bench.units import UNITS
from app.trade.calendar.promise import local_day
from app.trade.sentence import Sentence, Value, words
from app.trade.statistics.comeback_rates import FEWEST, LEVEL, shown_p
from app.trade.statistics.comebacks import Standing
from app.trade.statistics.log_rank import LogRank, Watched, log_rank_strata
from app.trade.statistics.proportions import wilson
from app.trade.statistics.survival import Survival, kaplan_meier
from app.work.office.repairs import Seen
from app.work.statistics.answer import KAPLAN_MEIER, LOG_RANK, WILSON, Answer, Why, nothing_found, set_aside
from app.work.statistics.ground import ground_of
from app.work.statistics.question import Question
from app.work.statistics.steps import Step, Steps


class Changed(StrEnum):
    """What of the player was changed; of several kinds in one job the first counts."""

    COIL = words("raised coil current")
    LASER = words("set laser power")
    OTHER = words("other non-standard change")
    STANDARD = words("standard repair")


@dataclass(frozen=True, slots=True)
class ChangedRow:
    """Jobs of one kind. ``share`` of ``could`` came back within the window, with its interval; ``test`` is against the
    ``like`` standard repairs of the same transport type that had stopped at the same rung (None: the standard itself)."""

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
    """The kinds that have a job, the standard last, and the readings of modified transports in order."""

    rows: tuple[ChangedRow, ...]
    readings: tuple[ReadingPoint, ...]


@dataclass(frozen=True, slots=True)
class _Job:
    seen: Seen
    standing: Standing
    stratum: tuple[str, int | None]
    days: float


def after_modification(book: Book, question: Question, step: Step | None = None) -> AfterModification:
    """Jobs that left a change of ours inside, and standard repairs like them."""
    ground = ground_of(book, question, Steps(step, 4))
    with book.ask() as session:
        made = session.execute(
            select(Modification.job_id, type_coerce(Modification.circuit, Text), Modification.ratio)
            .where(
                Modification.ours,
                Modification.struck_at.is_(None),
                (Modification.reversed_job_id.is_(None))
                | (Modification.reversed_job_id != Modification.job_id),
            )
            .order_by(Modification.id)
        )
        kinds: dict[int, Changed] = {}
        for job, circuit, ratio in made:
            kinds[job] = min(kinds.get(job, Changed.OTHER), _kind(circuit, ratio), key=_ORDER.index)
        climbs = select(StartUpResult.job_id, StartUpResult.rung).where(
            StartUpResult.struck_at.is_(None), StartUpResult.seen == HowSeen.NORMAL_USE
        )
        # read backwards, so that the first climb of a job stays
        rungs: dict[int, int] = dict(
            session.execute(climbs.order_by(StartUpResult.at.desc(), StartUpResult.id.desc())).all()
        )
    groups: defaultdict[Changed, list[_Job]] = defaultdict(list)
    odd = 0
    for one in ground.each:
        if one.outcome not in question.definition.counted:
            continue
        days = ((one.next_in or ground.today) - one.handed_back).days
        if days < 0:
            odd += 1
        else:
            stratum = (one.transport_type, rungs.get(one.job_id))
            groups[kinds.get(one.job_id, Changed.STANDARD)].append(
                _Job(one, ground.standing(one), stratum, float(days))
            )
    rows = tuple(_row(kind, groups[kind], groups[Changed.STANDARD]) for kind in Changed if groups[kind])
    n = sum(row.n for row in rows)
    changed = [row for row in rows if row.kind is not Changed.STANDARD]
    modified = {
        job.seen.transport_id for kind in groups if kind is not Changed.STANDARD for job in groups[kind]
    }
    return AfterModification(
        question=question,
        headline=_headline(changed) if rows else nothing_found(ground.first is not None),
        said=(
            Sentence(
                "These jobs were not drawn by lot: a change is made where nothing else helped, so a difference may come "
                "from the players and not from the change."
            ),
            *set_aside(odd + ground.wrong),
        ),
        why=Why(
            n=n,
            counted=Sentence("repairs, each watched until it came back or until today"),
            events=sum(row.curve.event_count for row in rows),
            events_are=Sentence("came back"),
            method=(
                Sentence(
                    "Kaplan-Meier; log-rank test within strata of transport type and rung; shares with score interval."
                ),
            ),
            source=(KAPLAN_MEIER, LOG_RANK, WILSON),
        ),
        rows=rows,
        readings=_readings(book, [key for key in modified if key is not None]),
    )


_ORDER = tuple(Changed)


def _kind(circuit: str, ratio: object) -> Changed:
    if circuit in (Circuit.RADIAL_COIL, Circuit.FOCUS_COIL):
        return Changed.COIL if ratio is None or float(str(ratio)) > 1 else Changed.OTHER
    return Changed.LASER if circuit == Circuit.LASER_SUPPLY else Changed.OTHER


def _row(kind: Changed, jobs: Sequence[_Job], standard: Sequence[_Job]) -> ChangedRow:
    back = sum(job.standing is Standing.CAME_BACK for job in jobs)
    could = back + sum(job.standing is Standing.HELD for job in jobs)
    low, high = wilson(back, could)
    test, like = None, 0
    if kind is not Changed.STANDARD:
        own = {job.stratum for job in jobs}
        alike = [job for job in standard if job.stratum in own]
        like = len(alike)
        strata = [(_watched(jobs, stratum), _watched(alike, stratum)) for stratum in sorted(own, key=repr)]
        test = log_rank_strata(strata)
    return ChangedRow(
        kind,
        Sentence(kind.value),
        len(jobs),
        could,
        back,
        back / could if could else None,
        low,
        high,
        len(jobs) < FEWEST,
        kaplan_meier([job.days for job in jobs], [job.seen.next_in is not None for job in jobs]),
        like,
        test,
        tuple(job.seen.job_id for job in jobs),
    )


def _watched(jobs: Sequence[_Job], stratum: tuple[str, int | None]) -> Watched:
    own = [job for job in jobs if job.stratum == stratum]
    return [job.days for job in own], [job.seen.next_in is not None for job in own]


def _readings(book: Book, transports: Sequence[int]) -> tuple[ReadingPoint, ...]:
    with book.ask() as session:
        known = quantities(session)
        rows = session.execute(
            select(
                Reading.transport_id,
                (TransportType.name + " " + Transport.marking).label("transport"),
                Reading.quantity,
                Reading.detail,
                Reading.at,
                Reading.value,
                Reading.job_id,
                Reading.unit,
            )
            .join(Transport, Transport.id == Reading.transport_id)
            .join(TransportType, TransportType.id == Transport.type_id)
            .where(
                Reading.transport_id.in_(transports), Reading.struck_at.is_(None), Reading.value.is_not(None)
            )
            .order_by(Reading.transport_id, Reading.quantity, Reading.detail, Reading.at, Reading.id)
        )
        return tuple(
            _reading(known.get(row.quantity), row, local_day(row.at, book.zone))
            for row in rows  # an open circuit has no value
        )


def _reading(quantity: Quantity | None, row: Any, day: date) -> ReadingPoint:
    """A reading in the unit that its quantity is shown in now, else in that of its day."""
    unit = UNITS[row.unit] if quantity is None else quantity.unit
    return ReadingPoint(
        row.transport_id,
        row.transport.strip(),
        row.quantity + (f" {row.detail}" if row.detail else ""),
        Sentence("{id}", {"id": row.quantity}) if quantity is None else quantity.named(row.detail),
        day,
        row.value,
        unit.to_shown(Decimal(repr(row.value))),
        unit.shown,
        row.job_id,
    )


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
