"""Transports: noted, taken out, put in, laid on the shelf; each keeps its whole life."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from sqlalchemy import select

from app.book.bench.modification_facts import fact_of
from app.book.door import Book, Change
from app.book.tables import Fitting, Job, Modification, PartChange, Reading, Transport, TransportType, Unit
from app.trade.bench.kinds import Arrangement
from app.trade.bench.modification_words import what_it_is
from app.trade.bench.units import UNITS
from app.trade.bench.verdict import VerdictWord
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Measure, Sentence
from app.work.bench.open_job import open_job, take_as_opened
from app.work.shop_book import Done

LABEL_LOW, LABEL_HIGH = Decimal("0.01"), Decimal("0.2")  # A; refuses typing slips


@dataclass(frozen=True, slots=True)
class TransportChoice:
    """A transport that could be put in: on the shelf, or in a donor."""

    id: int
    type_name: str
    marking: str
    where: str


def note_transport(
    book: Book,
    who: int,
    job_id: int,
    type_id: int,
    marking: str,
    label_current: Decimal | None = None,
    *,
    belongs_type: str = "",
) -> Done[int]:
    """Note the transport found in the job's unit. ``belongs_type`` when another type belongs there."""
    _check_label(label_current)
    with book.change(who, Sentence("noted the transport in the player")) as change:
        job = open_job(change, job_id)
        row = change.add(
            Transport(
                type_id=type_id, marking=marking.strip(), label_current=label_current, created_at=change.now
            )
        )
        _fit(change, row.id, job, belongs_type)
    return Done(row.id, change.changes)


def change_label(
    book: Book, who: int, transport_id: int, marking: str, label_current: Decimal | None, *, version: int
) -> Done[int]:
    """Correct what is written on a transport. Raises StaleRow, FieldRefusal."""
    _check_label(label_current)
    with book.change(who, Sentence("corrected what is written on a transport")) as change:
        row = change.get(Transport, transport_id, version=version)
        row.marking, row.label_current = marking.strip(), label_current
    return Done(transport_id, change.changes)


def take_out(book: Book, who: int, job_id: int, *, shelf: str = "") -> Done[int]:
    """Take the transport out of the job's unit and lay it on a shelf."""
    with book.change(who, Sentence("took the transport out")) as change:
        job = open_job(change, job_id)
        fitting = _open_fitting(change, job)
        if fitting is None:
            raise Refusal(Sentence("No transport is noted in this player."))
        take_as_opened(change, job, change.now, Sentence("a transport taken out"))
        fitting.removed_at, fitting.removed_job_id = change.now, job.id
        change.get(Transport, fitting.transport_id).shelf = shelf.strip()
    return Done(fitting.transport_id, change.changes)


def put_in(book: Book, who: int, job_id: int, transport_id: int, *, belongs_type: str = "") -> Done[int]:
    """Put a transport from the shelf (or out of a donor) into the job's unit. Raises Refusal."""
    with book.change(who, Sentence("put a transport in")) as change:
        job = open_job(change, job_id)
        elsewhere = change.session.scalars(
            select(Fitting).where(Fitting.transport_id == transport_id, Fitting.removed_at.is_(None))
        ).first()
        if elsewhere is not None:
            if not change.get(Unit, elsewhere.unit_id).is_donor:
                raise Refusal(Sentence("This transport is in another unit. Take it out there first."))
            elsewhere.removed_at, elsewhere.removed_job_id = change.now, job.id
        take_as_opened(change, job, change.now, Sentence("a transport put in"))
        change.get(Transport, transport_id).shelf = ""
        change.session.flush()
        _fit(change, transport_id, job, belongs_type)
    return Done(transport_id, change.changes)


def renew_part(
    book: Book,
    who: int,
    job_id: int,
    words: str,
    *,
    same_type: bool = True,
    label_after: Decimal | None = None,
) -> Done[int]:
    """Record that a part of the transport was renewed (pick-up, motor); a new label current may come with it."""
    if not words.strip():
        raise FieldRefusal({"words": Sentence("Say which part was renewed.")})
    _check_label(label_after)
    with book.change(who, Sentence("renewed a part of the transport")) as change:
        job = open_job(change, job_id)
        fitting = _open_fitting(change, job)
        if fitting is None:
            raise Refusal(Sentence("No transport is noted in this player."))
        transport = change.get(Transport, fitting.transport_id)
        take_as_opened(change, job, change.now, Sentence("a part renewed"))
        row = change.add(
            PartChange(
                transport_id=transport.id,
                job_id=job.id,
                words=words.strip(),
                same_type=same_type,
                label_before=transport.label_current,
                label_after=label_after,
                at=change.now,
                by=change.by,
            )
        )
        if label_after is not None:
            transport.label_current = label_after
    return Done(row.id, change.changes)


def _fit(change: Change, transport_id: int, job: Job, belongs_type: str) -> None:
    change.add(
        Fitting(
            transport_id=transport_id,
            unit_id=job.unit_id,
            fitted_at=change.now,
            fitted_job_id=job.id,
            as_maker=not belongs_type.strip(),
            belongs_type=belongs_type.strip(),
        )
    )


def _open_fitting(change: Change, job: Job) -> Fitting | None:
    return change.session.scalars(
        select(Fitting).where(Fitting.unit_id == job.unit_id, Fitting.removed_at.is_(None))
    ).first()


def _check_label(current: Decimal | None) -> None:
    if current is not None and not LABEL_LOW <= current <= LABEL_HIGH:
        raise FieldRefusal({"label_current": Sentence("A label current lies between 10 and 200 mA.")})


def transports_on_hand(book: Book) -> tuple[TransportChoice, ...]:
    """Transports that lie on a shelf or sit in a donor, by type."""
    with book.ask() as session:
        rows = session.execute(
            select(Transport, TransportType.name, Unit.maker, Unit.model, Unit.is_donor)
            .join(TransportType, TransportType.id == Transport.type_id)
            .outerjoin(Fitting, (Fitting.transport_id == Transport.id) & Fitting.removed_at.is_(None))
            .outerjoin(Unit, Unit.id == Fitting.unit_id)
            .where(Transport.scrapped_at.is_(None), (Fitting.id.is_(None)) | Unit.is_donor)
            .order_by(TransportType.name, Transport.marking)
        ).all()
        return tuple(
            TransportChoice(row.id, kind, row.marking, f"{maker} {model}" if donor else row.shelf)
            for row, kind, maker, model, donor in rows
        )


@dataclass(frozen=True, slots=True)
class FittingSpan:
    """One stay in a unit; ``until`` None: it is there now."""

    unit_id: int
    unit: str
    serial: str
    since: datetime
    until: datetime | None
    jobs: tuple[tuple[int, int, datetime], ...]  # id, number, taken in


@dataclass(frozen=True, slots=True)
class LifeReading:
    """One reading of the transport's life, in the unit shown."""

    quantity: str
    detail: str
    at: datetime
    value: Decimal
    uncertainty: Decimal
    unit: str
    low: Decimal | None
    high: Decimal | None
    limit_source: str
    verdict: VerdictWord | None
    job_number: int


@dataclass(frozen=True, slots=True)
class LifeModification:
    """One modification of the transport's life."""

    id: int
    words: Sentence
    at: datetime
    job_number: int
    reversed_at: datetime | None
    ours: bool


@dataclass(frozen=True, slots=True)
class TransportLife:
    """Every unit, reading and modification of one transport, in the order of time."""

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
    renewed: tuple[tuple[datetime, str, int], ...]  # when, which part, job number


def transport_life(book: Book, transport_id: int) -> TransportLife:
    """The whole life of one transport."""
    with book.ask() as session:
        transport = session.get_one(Transport, transport_id)
        kind = session.get_one(TransportType, transport.type_id)
        spans = []
        for fitting, unit in session.execute(
            select(Fitting, Unit)
            .join(Unit, Unit.id == Fitting.unit_id)
            .where(Fitting.transport_id == transport_id)
            .order_by(Fitting.fitted_at, Fitting.id)
        ).all():
            jobs = [
                (job.id, job.number, job.taken_in_at)
                for job in session.scalars(
                    select(Job).where(Job.unit_id == unit.id).order_by(Job.taken_in_at)
                )
                if (job.handed_back_at is None or job.handed_back_at >= fitting.fitted_at)
                and (fitting.removed_at is None or job.taken_in_at <= fitting.removed_at)
            ]
            spans.append(
                FittingSpan(
                    unit.id,
                    f"{unit.maker} {unit.model}",
                    unit.serial,
                    fitting.fitted_at,
                    fitting.removed_at,
                    tuple(jobs),
                )
            )
        readings = session.scalars(
            select(Reading)
            .where(Reading.transport_id == transport_id, Reading.struck_at.is_(None))
            .order_by(Reading.at, Reading.id)
        ).all()
        modifications = session.scalars(
            select(Modification)
            .where(Modification.transport_id == transport_id, Modification.struck_at.is_(None))
            .order_by(Modification.at)
        ).all()
        renewed = session.scalars(
            select(PartChange).where(PartChange.transport_id == transport_id).order_by(PartChange.at)
        ).all()
        touched = (
            {r.job_id for r in readings} | {m.job_id for m in modifications} | {c.job_id for c in renewed}
        )
        numbers = dict(session.execute(select(Job.id, Job.number).where(Job.id.in_(touched))).all())
        return TransportLife(
            id=transport.id,
            version=transport.version,
            type_name=kind.name,
            arrangement=kind.arrangement,
            marking=transport.marking,
            label=None
            if transport.label_current is None
            else Measure(UNITS["mA"].to_shown(transport.label_current), "mA"),
            shelf=transport.shelf,
            note=transport.note,
            spans=tuple(spans),
            readings=tuple(
                _life_reading(row, numbers[row.job_id]) for row in readings if row.digits is not None
            ),
            modifications=tuple(
                LifeModification(
                    row.id,
                    what_it_is(fact_of(row, numbers[row.job_id], "", "", {})),
                    row.at,
                    numbers[row.job_id],
                    row.reversed_at,
                    row.ours,
                )
                for row in modifications
            ),
            renewed=tuple((row.at, row.words, numbers[row.job_id]) for row in renewed),
        )


def _life_reading(row: Reading, job_number: int) -> LifeReading:
    unit = UNITS[row.unit]
    assert row.digits is not None
    return LifeReading(
        row.quantity,
        row.detail,
        row.at,
        unit.to_shown(row.digits),
        Decimal(0) if row.uncertainty is None else unit.to_shown(Decimal(repr(row.uncertainty))),
        row.unit,
        None if row.limit_low is None else unit.to_shown(row.limit_low),
        None if row.limit_high is None else unit.to_shown(row.limit_high),
        row.limit_source,
        VerdictWord(row.verdict) if row.verdict else None,
        job_number,
    )
