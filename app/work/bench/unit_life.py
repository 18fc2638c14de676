"""The life of a player here: visits, transports that were in it, what is changed inside it now, and its flags."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from app.book.bench.modification_facts import fact_of
from app.book.door import Book
from app.book.tables import (
    Attachment,
    Fitting,
    Flag,
    Job,
    Modification,
    Staff,
    Transport,
    TransportType,
    Unit,
)
from app.trade.bench.flag import Level, Subject
from app.trade.bench.forecast import Pace
from app.trade.bench.kinds import Arrangement
from app.trade.bench.know_first import StandsNow, ToKnow, know_first
from app.trade.bench.modification_words import way_back, what_it_is
from app.trade.bench.modifications import Modification as Fact
from app.trade.sentence import Sentence
from app.work.bench.life_curves import LifeCurve, life_curves
from app.work.bench.transport_life import transport_life
from app.work.bench.unit_parts import UnitPart, parts_fitted, parts_given
from app.work.counter.known_unit import KnownUnit, what_book_knows

MOST_PICTURES = 6
ORDER = (Level.STOP, Level.CAUTION, Level.NOTE)


@dataclass(frozen=True, slots=True)
class UnitFitting:
    """One transport's stay in this unit; ``until`` None: it is inside now. ``came_from`` and ``went_to`` are the
    players of its stays before and after, empty for the shelf."""

    transport_id: int
    type_name: str
    arrangement: Arrangement
    marking: str
    since: datetime
    until: datetime | None
    as_maker: bool
    belongs_type: str
    came_from: str = ""
    went_to: str = ""


@dataclass(frozen=True, slots=True)
class UnitModification:
    """One change of the unit, or of the transport inside it now."""

    id: int
    words: Sentence
    way_back: Sentence
    ours: bool
    at: datetime
    job_id: int
    job_number: int
    reversed_at: datetime | None
    in_transport: bool = False


@dataclass(frozen=True, slots=True)
class UnitPicture:
    """A picture kept with one of its jobs; its bytes are read by `kept_file`."""

    id: int
    name: str
    note: str
    at: datetime
    job_id: int
    job_number: int


@dataclass(frozen=True, slots=True)
class UnitFlag:
    """An open flag of the unit or the transport inside it, with what clears it."""

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
    modifications: tuple[UnitModification, ...]  # of the unit itself, also those put back
    inside: tuple[UnitModification, ...]  # live now, in the unit or in its transport
    flags: tuple[UnitFlag, ...]
    know_first: tuple[ToKnow, ...]
    pictures: tuple[UnitPicture, ...]  # the newest first
    fitted: tuple[UnitPart, ...] = ()  # parts of the stock, the newest first; without those put back again
    given: tuple[UnitPart, ...] = ()  # parts that were taken out of it as a donor
    is_donor: bool = False


def unit_life(book: Book, unit_id: int) -> UnitLife:
    """The whole life of one unit. Raises NoResultFound for one that is not there."""
    known = what_book_knows(book, unit_id)
    with book.ask() as session:
        unit = session.get_one(Unit, unit_id)
        note, is_donor = unit.note, unit.is_donor
        names = dict(session.execute(select(Staff.id, Staff.name)).all())
        fitted = session.execute(
            select(Fitting, Transport, TransportType)
            .join(Transport, Transport.id == Fitting.transport_id)
            .join(TransportType, TransportType.id == Transport.type_id)
            .where(Fitting.unit_id == unit_id)
            .order_by(Fitting.fitted_at, Fitting.id)
        ).all()
        transport = known.transport
        inside_id = transport.id if transport is not None else -1
        changed = session.execute(
            select(Modification, Job.number)
            .join(Job, Job.id == Modification.job_id)
            .where(
                or_(Modification.unit_id == unit_id, Modification.transport_id == inside_id),
                Modification.struck_at.is_(None),
            )
            .order_by(Modification.at, Modification.id)
        ).all()
        flags = session.scalars(
            select(Flag)
            .where(
                or_(
                    (Flag.unit_id == unit_id) & (Flag.subject == Subject.UNIT),
                    (Flag.transport_id == inside_id) & (Flag.subject == Subject.TRANSPORT),
                ),
                Flag.cleared_at.is_(None),
            )
            .order_by(Flag.id)
        ).all()
        pictures = session.execute(
            select(Attachment, Job.number)
            .join(Job, Job.id == Attachment.job_id)
            .where(
                Job.unit_id == unit_id,
                Attachment.media_type.startswith("image/"),
                Attachment.struck_at.is_(None),
            )
            .order_by(Attachment.at.desc(), Attachment.id.desc())
            .limit(MOST_PICTURES)
        ).all()
        seen = tuple(
            UnitPicture(row.id, row.name, row.note, row.at, row.job_id or 0, number)
            for row, number in pictures
        )
        changes = tuple(_change(row, fact_of(row, number, "", "", names)) for row, number in changed)
        beside = _stays_beside(session, [fitting for fitting, _, _ in fitted])
        stays = tuple(
            UnitFitting(
                moved.id,
                kind.name,
                kind.arrangement,
                moved.marking,
                fitting.fitted_at,
                fitting.removed_at,
                fitting.as_maker,
                fitting.belongs_type,
                *beside[fitting.id],
            )
            for fitting, moved, kind in fitted
        )
        fitted_parts, given = parts_fitted(session, unit_id), parts_given(session, unit_id)
        open_flags = tuple(
            UnitFlag(flag.level, flag.word, flag.sentence, flag.clears)
            for flag in sorted(flags, key=lambda flag: ORDER.index(flag.level))
        )
    inside = tuple(change for change in changes if change.reversed_at is None)
    curves = life_curves(transport_life(book, transport.id), book.zone) if transport is not None else ()
    return UnitLife(
        known=known,
        note=note,
        fittings=stays,
        modifications=tuple(change for change in changes if not change.in_transport),
        inside=inside,
        flags=open_flags,
        pictures=seen,
        fitted=fitted_parts,
        given=given,
        is_donor=is_donor,
        know_first=know_first(_stands(known, inside, bool(stays), curves)),
    )


def _change(row: Modification, fact: Fact) -> UnitModification:
    return UnitModification(
        row.id,
        what_it_is(fact),
        way_back(fact),
        row.ours,
        row.at,
        row.job_id,
        fact.job,
        row.reversed_at,
        row.transport_id is not None,
    )


def _stays_beside(session: Session, here: Sequence[Fitting]) -> dict[int, tuple[str, str]]:
    """For each stay the players of the same transport's stays before and after it, empty for the shelf between."""
    stays: dict[int, list[tuple[Fitting, str]]] = defaultdict(list)
    for stay, maker, model in session.execute(
        select(Fitting, Unit.maker, Unit.model)
        .join(Unit, Unit.id == Fitting.unit_id)
        .where(Fitting.transport_id.in_({fitting.transport_id for fitting in here}))
        .order_by(Fitting.fitted_at, Fitting.id)
    ):
        stays[stay.transport_id].append((stay, f"{maker} {model}".strip()))
    found = {}
    for run in stays.values():
        for at, (stay, _) in enumerate(run):
            before, after = (run[at - 1] if at else None), (run[at + 1] if at + 1 < len(run) else None)
            found[stay.id] = (
                before[1] if before is not None and before[0].removed_at == stay.fitted_at else "",
                after[1] if after is not None and after[0].fitted_at == stay.removed_at else "",
            )
    return found


def _stands(
    known: KnownUnit, inside: Sequence[UnitModification], had_one: bool, curves: Sequence[LifeCurve]
) -> StandsNow:
    closed = next((visit for visit in known.visits if visit.outcome is not None and visit.handed_back), None)
    transport = known.transport
    return StandsNow(
        transport=f"{transport.type} {transport.marking}".strip() if transport is not None else "",
        had_one=had_one,
        live=len(inside),
        last_job=closed.number if closed is not None else None,
        last_outcome=closed.outcome if closed is not None else None,
        worn=tuple(curve.name for curve in curves if curve.forecast.pace is Pace.REACHES),
        beyond=tuple(curve.name for curve in curves if curve.forecast.pace is Pace.BEYOND),
    )
