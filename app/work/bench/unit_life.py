"""The life of a player here: its visits, the transports that were in it, its modifications and open flags."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select

from app.book.bench.modification_facts import fact_of
from app.book.door import Book
from app.book.tables import Fitting, Flag, Job, Modification, Staff, Transport, TransportType, Unit
from app.trade.bench.flag import Level, Subject
from app.trade.bench.kinds import Arrangement
from app.trade.bench.modification_words import way_back, what_it_is
from app.trade.sentence import Sentence
from app.work.counter.known_unit import KnownUnit, what_book_knows

ORDER = (Level.STOP, Level.CAUTION, Level.NOTE)


@dataclass(frozen=True, slots=True)
class UnitFitting:
    """One transport's stay in this unit; ``until`` None: it is inside now."""

    transport_id: int
    type_name: str
    arrangement: Arrangement
    marking: str
    since: datetime
    until: datetime | None
    as_maker: bool
    belongs_type: str


@dataclass(frozen=True, slots=True)
class UnitModification:
    """One change of the unit itself."""

    id: int
    words: Sentence
    way_back: Sentence
    ours: bool
    at: datetime
    job_id: int
    job_number: int
    reversed_at: datetime | None


@dataclass(frozen=True, slots=True)
class UnitFlag:
    """An open flag of the unit, with what clears it."""

    level: Level
    word: Sentence
    sentence: Sentence
    clears: Sentence


@dataclass(frozen=True, slots=True)
class UnitLife:
    """Everything the page of a player shows."""

    known: KnownUnit  # who and what, visits (newest first), last final readings, guarantees
    note: str
    fittings: tuple[UnitFitting, ...]
    modifications: tuple[UnitModification, ...]
    flags: tuple[UnitFlag, ...]


def unit_life(book: Book, unit_id: int) -> UnitLife:
    """The whole life of one unit. Raises NoResultFound for one that is not there."""
    known = what_book_knows(book, unit_id)
    with book.ask() as session:
        unit = session.get_one(Unit, unit_id)
        names = dict(session.execute(select(Staff.id, Staff.name)).all())
        fitted = session.execute(
            select(Fitting, Transport, TransportType)
            .join(Transport, Transport.id == Fitting.transport_id)
            .join(TransportType, TransportType.id == Transport.type_id)
            .where(Fitting.unit_id == unit_id)
            .order_by(Fitting.fitted_at, Fitting.id)
        ).all()
        changed = session.execute(
            select(Modification, Job.number)
            .join(Job, Job.id == Modification.job_id)
            .where(Modification.unit_id == unit_id, Modification.struck_at.is_(None))
            .order_by(Modification.at, Modification.id)
        ).all()
        flags = session.scalars(
            select(Flag)
            .where(Flag.unit_id == unit_id, Flag.subject == Subject.UNIT, Flag.cleared_at.is_(None))
            .order_by(Flag.id)
        ).all()
        facts = {row.id: fact_of(row, number, "", "", names) for row, number in changed}
        return UnitLife(
            known=known,
            note=unit.note,
            fittings=tuple(
                UnitFitting(
                    transport.id,
                    kind.name,
                    kind.arrangement,
                    transport.marking,
                    fitting.fitted_at,
                    fitting.removed_at,
                    fitting.as_maker,
                    fitting.belongs_type,
                )
                for fitting, transport, kind in fitted
            ),
            modifications=tuple(
                UnitModification(
                    row.id,
                    what_it_is(facts[row.id]),
                    way_back(facts[row.id]),
                    row.ours,
                    row.at,
                    row.job_id,
                    number,
                    row.reversed_at,
                )
                for row, number in changed
            ),
            flags=tuple(
                UnitFlag(flag.level, flag.word, flag.sentence, flag.clears)
                for flag in sorted(flags, key=lambda flag: ORDER.index(flag.level))
            ),
        )
