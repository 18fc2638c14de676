"""What the book knows of a player while it is taken in: visits, last readings, flags, guarantee, comeback."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from sqlalchemy import func, or_, select
from sqlalchemy.orm import Session

from app.book.bench.catalogue import quantities
from app.book.door import Book
from app.book.find.lookup import ids_by_tail, ids_by_words
from app.book.office.shop_settings import settings_of
from app.book.tables import Customer, Fitting, Flag, Job, Reading, Transport, TransportType, Unit
from app.trade.bench.comeback import ComebackProposal, comeback_proposal, guarantees_running
from app.trade.bench.flag import Level, Subject
from app.trade.bench.kinds import Arrangement, FaultGroup
from app.trade.bench.stages import CauseFound, MainsClass, Moment, Outcome, Stage
from app.trade.bench.units import UNITS
from app.trade.bench.verdict import VerdictWord
from app.trade.calendar.promise import local_day
from app.trade.counter.fault_words import ReportedFault
from app.trade.people.serial import serial_key
from app.trade.sentence import Measure, Sentence
from app.trade.settings.terms import COMEBACK_WINDOW
from app.work.counter.former_jobs import done_words, former_jobs

ORDER = (Level.STOP, Level.CAUTION, Level.NOTE)
FEWEST_LETTERS = 2


@dataclass(frozen=True, slots=True)
class UnitMatch:
    """A player as offered while its serial, maker or model is typed. ``last_seen``: when it last came in."""

    id: int
    maker: str
    model: str
    serial: str
    customer: str
    last_seen: datetime | None


@dataclass(frozen=True, slots=True)
class Visit:
    """One earlier job of the player."""

    job_id: int
    number: int
    taken_in: date
    handed_back: date | None
    stage: Stage
    outcome: Outcome | None
    group: FaultGroup | None
    cause: CauseFound | None
    fault: str
    done: str


@dataclass(frozen=True, slots=True)
class LastReading:
    """A final reading of the last visit that had any. ``value`` None: open circuit."""

    name: Sentence
    value: Measure | None
    verdict: VerdictWord | None


@dataclass(frozen=True, slots=True)
class KnownFlag:
    """An open flag of the player or the transport in it, with the job that raised it."""

    level: Level
    word: Sentence
    sentence: Sentence
    job_id: int | None


@dataclass(frozen=True, slots=True)
class KnownTransport:
    """The transport that was in the player when it last left."""

    id: int
    type_id: int
    type: str
    arrangement: Arrangement
    marking: str
    has_transit_lock: bool


@dataclass(frozen=True, slots=True)
class KnownUnit:
    """Everything that stands beside the form. ``in_shop``: id and number of a job that is not closed."""

    id: int
    maker: str
    model: str
    serial: str
    serial_unreadable: bool
    look: str
    mains_class: MainsClass
    mains_voltage: str
    customer_id: int | None
    customer: str
    transport: KnownTransport | None
    visits: tuple[Visit, ...]
    finals: tuple[LastReading, ...]
    finals_of: int | None  # number of the job that those readings belong to
    flags: tuple[KnownFlag, ...]
    guarantees: tuple[Sentence, ...]
    comeback: ComebackProposal | None
    comeback_job_id: int | None
    in_shop: tuple[int, int] | None


def match_units(
    book: Book,
    *,
    serial: str = "",
    words: str = "",
    customer_id: int | None = None,
    limit: int = 8,
) -> tuple[UnitMatch, ...]:
    """Players that what is typed may mean: by serial, by maker and model, else those of the customer."""
    with book.ask() as session:
        ids: list[int] = []
        key = serial_key(serial)
        if len(key) >= FEWEST_LETTERS:
            ids += session.scalars(
                select(Unit.id)
                .where(Unit.serial_key >= key, Unit.serial_key < f"{key}\U0010ffff")
                .order_by(Unit.serial_key)
                .limit(limit)
            )
            ids += ids_by_tail(session, key, ("unit",), limit)["unit"]
        elif len(words.strip()) >= FEWEST_LETTERS:
            ids += _of_customer(session, customer_id, words)
            ids += ids_by_words(session, words, ("unit",), limit)["unit"]
        elif customer_id is not None:
            ids += _of_customer(session, customer_id, "")
        return _matches(session, list(dict.fromkeys(ids))[:limit])


def _of_customer(session: Session, customer_id: int | None, words: str) -> list[int]:
    if customer_id is None:
        return []
    typed = words.casefold().split()
    return [
        unit.id
        for unit in session.scalars(
            select(Unit).where(Unit.customer_id == customer_id).order_by(Unit.id.desc()).limit(50)
        )
        if all(word in f"{unit.maker} {unit.model}".casefold() for word in typed)
    ]


def _matches(session: Session, ids: list[int]) -> tuple[UnitMatch, ...]:
    if not ids:
        return ()
    seen = (
        select(Job.unit_id, func.max(Job.taken_in_at).label("at"))
        .where(Job.unit_id.in_(ids))
        .group_by(Job.unit_id)
        .subquery()
    )
    rows = {
        unit.id: UnitMatch(unit.id, unit.maker, unit.model, unit.serial, name or "", at)
        for unit, name, at in session.execute(
            select(Unit, Customer.name, seen.c.at)
            .outerjoin(Customer, Customer.id == Unit.customer_id)
            .outerjoin(seen, seen.c.unit_id == Unit.id)
            .where(Unit.id.in_(ids))
        )
    }
    return tuple(rows[key] for key in ids if key in rows)


def unit_by_serial(book: Book, serial: str, maker: str = "", model: str = "") -> int | None:
    """The one player with exactly this serial (and maker and model where they are typed), else None."""
    with book.ask() as session:
        return unit_with_serial(session, serial, maker, model)


def unit_with_serial(session: Session, serial: str, maker: str, model: str) -> int | None:
    """The same inside a transaction. Two players with one serial are told apart by maker and model, or not at all."""
    key = serial_key(serial)
    if not key:
        return None
    found = [
        unit.id
        for unit in session.scalars(select(Unit).where(Unit.serial_key == key))
        if maker.strip().casefold() in ("", unit.maker.casefold())
        and model.strip().casefold() in ("", unit.model.casefold())
    ]
    return found[0] if len(found) == 1 else None


def what_book_knows(book: Book, unit_id: int, faults: Iterable[ReportedFault] = ()) -> KnownUnit:
    """Everything known of a player, and whether ``faults`` make it a comeback."""
    with book.ask() as session:
        unit = session.get_one(Unit, unit_id)
        owner = session.get(Customer, unit.customer_id) if unit.customer_id else None
        former = former_jobs(session, unit_id, book.zone)
        window = settings_of(session)[COMEBACK_WINDOW]
        proposal = comeback_proposal(former, faults, window, book.today())
        jobs = session.scalars(select(Job).where(Job.unit_id == unit_id).order_by(Job.number.desc())).all()
        transport = transport_inside(session, unit_id)
        finals, finals_of = _last_finals(session, jobs)
        return KnownUnit(
            id=unit.id,
            maker=unit.maker,
            model=unit.model,
            serial=unit.serial,
            serial_unreadable=unit.serial_unreadable,
            look=unit.look,
            mains_class=unit.mains_class,
            mains_voltage=unit.mains_voltage,
            customer_id=unit.customer_id,
            customer=owner.name if owner else "",
            transport=transport,
            visits=tuple(
                Visit(
                    job_id=job.id,
                    number=job.number,
                    taken_in=local_day(job.taken_in_at, book.zone),
                    handed_back=local_day(job.handed_back_at, book.zone) if job.handed_back_at else None,
                    stage=job.stage,
                    outcome=job.outcome,
                    group=job.fault_group,
                    cause=job.cause,
                    fault=job.fault_short or job.fault,
                    done=done_words(session, job),
                )
                for job in jobs
            ),
            finals=finals,
            finals_of=finals_of,
            flags=_flags(session, unit_id, transport.id if transport else None),
            guarantees=guarantees_running(former, book.today()),
            comeback=proposal,
            comeback_job_id=next((j.id for j in jobs if proposal and j.number == proposal.job), None),
            in_shop=next(((j.id, j.number) for j in jobs if j.stage is not Stage.HANDED_BACK), None),
        )


def transport_inside(session: Session, unit_id: int) -> KnownTransport | None:
    """The transport that is in the unit now."""
    row = session.execute(
        select(Transport, TransportType)
        .join(TransportType, TransportType.id == Transport.type_id)
        .join(Fitting, Fitting.transport_id == Transport.id)
        .where(Fitting.unit_id == unit_id, Fitting.removed_at.is_(None))
    ).first()
    if row is None:
        return None
    transport, kind = row
    return KnownTransport(
        transport.id, kind.id, kind.name, kind.arrangement, transport.marking, kind.has_transit_lock
    )


def _flags(session: Session, unit_id: int, transport_id: int | None) -> tuple[KnownFlag, ...]:
    owned = [Flag.unit_id == unit_id]
    if transport_id is not None:
        owned.append(Flag.transport_id == transport_id)
    rows = session.scalars(
        select(Flag)
        .where(Flag.cleared_at.is_(None), Flag.subject != Subject.JOB, or_(*owned))
        .order_by(Flag.id)
    )
    flags = [KnownFlag(row.level, row.word, row.sentence, row.job_id) for row in rows]
    return tuple(sorted(flags, key=lambda flag: ORDER.index(flag.level)))


def _last_finals(session: Session, jobs: Iterable[Job]) -> tuple[tuple[LastReading, ...], int | None]:
    numbers = {job.id: job.number for job in jobs}
    latest = session.scalar(
        select(func.max(Reading.job_id)).where(
            Reading.job_id.in_(numbers), Reading.moment == Moment.FINAL, Reading.struck_at.is_(None)
        )
    )
    if latest is None:
        return (), None
    known = quantities(session)
    readings = []
    for row in session.scalars(
        select(Reading)
        .where(Reading.job_id == latest, Reading.moment == Moment.FINAL, Reading.struck_at.is_(None))
        .order_by(Reading.id)
    ):
        quantity = known.get(row.quantity)
        name = quantity.named(row.detail) if quantity else Sentence("{id}", {"id": row.quantity})
        value = None
        if row.digits is not None:
            shown = UNITS[row.unit].to_shown(row.digits)
            whole = shown == shown.to_integral()
            value = Measure(shown.quantize(Decimal(1)) if whole else shown.normalize(), row.unit)
        readings.append(LastReading(name, value, VerdictWord(row.verdict) if row.verdict else None))
    return tuple(readings), numbers[latest]
