"""The life of a transport: its stays in players, their jobs, what was changed, and what was read, on one time axis."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from app.book.bench.catalogue import quantities
from app.book.bench.modification_facts import fact_of
from app.book.door import Book
from app.book.tables import Fitting, Job, Modification, PartChange, Reading, Transport, TransportType, Unit
from app.trade.bench.kinds import Arrangement
from app.trade.bench.modification_words import way_back, what_it_is
from app.trade.bench.modifications import Circuit
from app.trade.bench.quantities import Quantity
from app.trade.bench.stages import Moment, Outcome
from app.trade.bench.units import UNITS
from app.trade.bench.verdict import VerdictWord
from app.trade.sentence import Measure, Sentence


@dataclass(frozen=True, slots=True)
class LifeJob:
    """One visit of a player while the transport was in it."""

    id: int
    number: int
    taken_in: datetime
    handed_back: datetime | None
    outcome: Outcome | None
    fault: str


@dataclass(frozen=True, slots=True)
class FittingSpan:
    """One stay in a unit; ``until`` None: it is there now. ``belongs_type``: another type belongs in that unit."""

    unit_id: int
    unit: str
    serial: str
    since: datetime
    until: datetime | None
    jobs: tuple[LifeJob, ...]
    belongs_type: str = ""


@dataclass(frozen=True, slots=True)
class LifeReading:
    """One reading of the transport's life. Value, standard uncertainty and the limits of its day in ``unit``, the
    same for all readings of a quantity: the one in which the last was shown. ``bound``: it is a lower bound only."""

    id: int
    quantity: str
    detail: str
    name: Sentence
    at: datetime
    value: Decimal
    uncertainty: Decimal
    unit: str
    low: Decimal | None
    high: Decimal | None
    limit_source: str
    verdict: VerdictWord | None
    moment: Moment
    bound: bool
    job_id: int
    job_number: int


@dataclass(frozen=True, slots=True)
class LifeModification:
    """One modification, from the day it was made until it was put back. ``unit``: it is one of that player, live
    while the transport was in it; empty: it is in the transport itself."""

    id: int
    words: Sentence
    way_back: Sentence
    circuit: Circuit
    at: datetime
    job_id: int
    job_number: int
    reversed_at: datetime | None
    ours: bool
    unit: str = ""


@dataclass(frozen=True, slots=True)
class LifeRenewal:
    """A part of the transport renewed; ``label`` when a new label current came with it."""

    id: int
    words: str
    at: datetime
    job_id: int
    job_number: int
    label: Measure | None


@dataclass(frozen=True, slots=True)
class TransportLife:
    """Every unit, reading and change of one transport, in the order of time. Struck-out ones are left out."""

    id: int
    version: int
    type_name: str
    arrangement: Arrangement
    marking: str
    label: Measure | None
    shelf: str
    note: str
    spans: tuple[FittingSpan, ...]
    readings: tuple[LifeReading, ...]
    modifications: tuple[LifeModification, ...]
    renewed: tuple[LifeRenewal, ...]


def transport_life(book: Book, transport_id: int) -> TransportLife:
    """The whole life of one transport. Raises NoResultFound for one that is not there."""
    with book.ask() as session:
        transport = session.get_one(Transport, transport_id)
        kind = session.get_one(TransportType, transport.type_id)
        spans = _spans(session, transport_id)
        readings = session.scalars(
            select(Reading)
            .where(Reading.transport_id == transport_id, Reading.struck_at.is_(None))
            .order_by(Reading.at, Reading.id)
        ).all()
        changes = session.scalars(
            select(Modification)
            .where(
                or_(
                    Modification.transport_id == transport_id,
                    Modification.unit_id.in_({span.unit_id for span in spans}),
                ),
                Modification.struck_at.is_(None),
            )
            .order_by(Modification.at, Modification.id)
        ).all()
        renewed = session.scalars(
            select(PartChange).where(PartChange.transport_id == transport_id).order_by(PartChange.at)
        ).all()
        numbers = _numbers(session, [*readings, *changes, *renewed])
        return TransportLife(
            id=transport.id,
            version=transport.version,
            type_name=kind.name,
            arrangement=kind.arrangement,
            marking=transport.marking,
            label=_milliampere(transport.label_current),
            shelf=transport.shelf,
            note=transport.note,
            spans=spans,
            readings=_readings(readings, quantities(session), numbers),
            modifications=_modifications(changes, transport_id, spans, numbers),
            renewed=tuple(
                LifeRenewal(
                    row.id, row.words, row.at, row.job_id, numbers[row.job_id], _milliampere(row.label_after)
                )
                for row in renewed
            ),
        )


def _milliampere(current: Decimal | None) -> Measure | None:
    return None if current is None else Measure(UNITS["mA"].to_shown(current), "mA")


def _numbers(session: Session, rows: Iterable[Reading | Modification | PartChange]) -> dict[int, int]:
    touched = {row.job_id for row in rows}
    return dict(session.execute(select(Job.id, Job.number).where(Job.id.in_(touched))).all())


def _spans(session: Session, transport_id: int) -> tuple[FittingSpan, ...]:
    fittings = session.execute(
        select(Fitting, Unit)
        .join(Unit, Unit.id == Fitting.unit_id)
        .where(Fitting.transport_id == transport_id)
        .order_by(Fitting.fitted_at, Fitting.id)
    ).all()
    jobs: dict[int, list[Job]] = defaultdict(list)
    for job in session.scalars(
        select(Job).where(Job.unit_id.in_({unit.id for _, unit in fittings})).order_by(Job.taken_in_at)
    ):
        jobs[job.unit_id].append(job)
    return tuple(
        FittingSpan(
            unit.id,
            f"{unit.maker} {unit.model}".strip(),
            unit.serial,
            fitting.fitted_at,
            fitting.removed_at,
            tuple(
                LifeJob(
                    job.id,
                    job.number,
                    job.taken_in_at,
                    job.handed_back_at,
                    job.outcome,
                    job.fault_short or job.fault,
                )
                for job in jobs[unit.id]
                if (job.handed_back_at is None or job.handed_back_at >= fitting.fitted_at)
                and (fitting.removed_at is None or job.taken_in_at <= fitting.removed_at)
            ),
            fitting.belongs_type,
        )
        for fitting, unit in fittings
    )


def _readings(
    rows: Sequence[Reading], known: Mapping[str, Quantity], numbers: Mapping[int, int]
) -> tuple[LifeReading, ...]:
    """Those with a value; an open circuit has none to plot."""
    shown = {(row.quantity, row.detail): row.unit for row in rows if row.digits is not None}
    made = []
    for row in rows:
        if row.digits is None:
            continue
        unit = UNITS[shown[row.quantity, row.detail]]
        quantity = known.get(row.quantity)
        made.append(
            LifeReading(
                id=row.id,
                quantity=row.quantity,
                detail=row.detail,
                name=quantity.named(row.detail) if quantity else Sentence("{id}", {"id": row.quantity}),
                at=row.at,
                value=unit.to_shown(row.digits),
                uncertainty=Decimal(0)
                if row.uncertainty is None
                else unit.to_shown(Decimal(repr(row.uncertainty))),
                unit=shown[row.quantity, row.detail],
                low=None if row.limit_low is None else unit.to_shown(row.limit_low),
                high=None if row.limit_high is None else unit.to_shown(row.limit_high),
                limit_source=row.limit_source,
                verdict=VerdictWord(row.verdict) if row.verdict else None,
                moment=row.moment,
                bound=bool(row.bound),
                job_id=row.job_id,
                job_number=numbers[row.job_id],
            )
        )
    return tuple(made)


def _modifications(
    rows: Sequence[Modification],
    transport_id: int,
    spans: Sequence[FittingSpan],
    numbers: Mapping[int, int],
) -> tuple[LifeModification, ...]:
    """The transport's own from making to reversal, those of a player once for each stay in which they were live."""
    made = []
    for row in rows:
        number = numbers[row.job_id]
        fact = fact_of(row, number, "", "", {})
        told = (row.id, what_it_is(fact), way_back(fact), row.circuit)
        if row.transport_id == transport_id:
            made.append(LifeModification(*told, row.at, row.job_id, number, row.reversed_at, row.ours))
            continue
        for span in spans:
            ended = [at for at in (row.reversed_at, span.until) if at is not None]
            since, until = max(row.at, span.since), min(ended, default=None)
            if span.unit_id == row.unit_id and (until is None or until > since):
                made.append(LifeModification(*told, since, row.job_id, number, until, row.ours, span.unit))
    return tuple(sorted(made, key=lambda change: change.at))
