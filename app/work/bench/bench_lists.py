"""What the job sheet offers while something is entered: quantities, the order of the sheet, instruments, changes."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from app.book.bench.catalogue import quantities
from app.book.bench.knowledge_data import knowledge_of, shipped_knowledge
from app.book.door import Book
from app.book.office.shop_settings import settings_of
from app.book.tables import (
    Fitting,
    Instrument,
    Job,
    Limit,
    Reading,
    StartUpResult,
    Transport,
    TransportType,
)
from app.trade.bench.changes import BenchChange
from app.trade.bench.kinds import Arrangement
from app.trade.bench.ladder import OTHER, Ladder, Suspect
from app.trade.bench.likelihoods import SymptomWord
from app.trade.bench.quantities import Quantity
from app.trade.bench.sheet_order import When, read_entry
from app.trade.bench.thresholds import Thresholds
from app.trade.settings.thresholds import thresholds_of
from app.work.bench.cards import CardFacts, cards_beside

MOST_SEEN = 40  # words offered again
LOOKED_THROUGH = 5000  # start-ups, newest first, that they are looked for in


@dataclass(frozen=True, slots=True)
class InstrumentChoice:
    """An instrument to read with. ``overdue``: its calibration is past its date."""

    id: int
    name: str
    overdue: bool


@dataclass(frozen=True, slots=True)
class SheetStep:
    """One reading of the sheet that a transport type asks for."""

    quantity: Quantity
    detail: str  # which rail; empty where the quantity is one of its kind
    when: When = When.ALWAYS


@dataclass(frozen=True, slots=True)
class BenchLists:
    """Everything that fields of the job sheet complete from. ``sheet`` is empty for an unknown transport."""

    quantities: tuple[Quantity, ...]  # typed ones of this arrangement, without those of a safety test
    sheet: tuple[SheetStep, ...]
    instruments: tuple[InstrumentChoice, ...]
    changes: tuple[BenchChange, ...]
    suspects: tuple[Suspect, ...]  # of this arrangement, without "none of these"
    symptoms: tuple[SymptomWord, ...]
    rungs: tuple[str, ...]  # English words of the ladder, 1 first, for this arrangement
    discs: tuple[str, ...]  # seen before
    errors: tuple[str, ...]
    thresholds: Thresholds
    cards: tuple[CardFacts, ...]  # know-how on this player or its transport


@cache
def shipped_changes() -> dict[str, BenchChange]:
    """The changes that can be tried, as they ship."""
    return dict(shipped_knowledge().knowledge.changes)


def bench_lists(book: Book, job_id: int) -> BenchLists:
    """The lists for the transport that is in this job's player now."""
    with book.ask() as session:
        job = session.get_one(Job, job_id)
        kind = _type_inside(session, job.unit_id)
        arrangement = kind.arrangement if kind is not None else None
        known = quantities(session)
        shop = knowledge_of(session)
        ladder, knowledge = shop.ladder, shop.knowledge
        return BenchLists(
            quantities=tuple(
                q for q in known.values() if not q.worked_out and not q.mains_classes and q.fits(arrangement)
            ),
            sheet=_sheet(session, kind, dict(known)) if kind is not None else (),
            instruments=_instruments(session, book),
            changes=tuple(knowledge.changes.values()),
            suspects=_suspects(session, arrangement),
            symptoms=tuple(knowledge.likelihoods.symptoms.values()),
            rungs=rung_words(ladder, arrangement),
            discs=_seen(session, "disc"),
            errors=_seen(session, "error_shown"),
            thresholds=thresholds_of(settings_of(session)),
            cards=cards_beside(session, job_id),
        )


def _suspects(session: Session, arrangement: Arrangement | None) -> tuple[Suspect, ...]:
    return tuple(
        suspect
        for suspect in knowledge_of(session).ladder.suspects.values()
        if suspect.id != OTHER and (arrangement is None or suspect.arrangement in (None, arrangement))
    )


def rung_words(ladder: Ladder, arrangement: Arrangement | None) -> tuple[str, ...]:
    """The words of the twelve rungs, 1 first."""
    return tuple(rung.name(arrangement).key for rung in ladder.rungs)


def _type_inside(session: Session, unit_id: int) -> TransportType | None:
    return session.scalars(
        select(TransportType)
        .join(Transport, Transport.type_id == TransportType.id)
        .join(Fitting, Fitting.transport_id == Transport.id)
        .where(Fitting.unit_id == unit_id, Fitting.removed_at.is_(None))
    ).first()


def _sheet(session: Session, kind: TransportType, known: dict[str, Quantity]) -> tuple[SheetStep, ...]:
    """The type's own order. A quantity that asks which one comes once for each that has a limit, or that was
    read on this type before."""
    steps: list[SheetStep] = []
    for code, when in map(read_entry, kind.sheet):
        quantity = known.get(code)
        if quantity is None or quantity.worked_out:
            continue
        if not quantity.asks_name:
            steps.append(SheetStep(quantity, "", when))
            continue
        details = _details(session, kind.id, code) or ("",)
        steps += [SheetStep(quantity, detail, when) for detail in details]
    return tuple(steps)


def _details(session: Session, type_id: int, code: str) -> tuple[str, ...]:
    of_type = session.scalars(
        select(Limit.detail)
        .where(
            Limit.transport_type_id == type_id,
            Limit.quantity == code,
            Limit.detail != "",
            Limit.retired.is_(False),
        )
        .order_by(Limit.id)
    ).all()
    if of_type:
        return tuple(dict.fromkeys(of_type))
    last = session.scalars(
        select(Reading.detail)
        .where(Reading.quantity == code, Reading.detail != "", Reading.struck_at.is_(None))
        .order_by(Reading.id.desc())
        .limit(1)
    ).all()
    return tuple(last)


def _instruments(session: Session, book: Book) -> tuple[InstrumentChoice, ...]:
    today = book.today()
    return tuple(
        InstrumentChoice(row.id, row.name, row.due_on is not None and row.due_on < today)
        for row in session.scalars(
            select(Instrument).where(Instrument.retired.is_(False)).order_by(Instrument.name)
        )
    )


def _seen(session: Session, column: str) -> tuple[str, ...]:
    words = getattr(StartUpResult, column)
    newest = select(func.max(StartUpResult.id)).scalar_subquery()
    rows = session.scalars(
        select(words)
        .where(
            words != "", StartUpResult.id > newest - LOOKED_THROUGH
        )  # few are filled: never search them all
        .order_by(StartUpResult.id.desc())
        .limit(MOST_SEEN * 5)
    )
    return tuple(list(dict.fromkeys(rows))[:MOST_SEEN])
