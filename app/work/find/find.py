"""Finds jobs, customers, players, transports and papers of money by anything that somebody remembers of them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import TypeVar

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from app.book.door import Book
from app.book.find.lookup import ids_by_tail, ids_by_words
from app.book.tables import Customer, Fitting, Job, Transport, TransportType, Unit
from app.trade.bench.stages import Outcome, Stage
from app.work.bench.cards import cards_in
from app.work.find.numbered import FoundNumbered, numbered
from app.work.people.phone_matches import has_figures, ids_by_phone

KINDS = ("job", "customer", "unit", "transport")
FEWEST_LETTERS = 2
_NUMBER = re.compile(r"[jJ]?\s*([0-9]{1,9})")

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class FoundJob:
    """A job as one line."""

    id: int
    number: int
    maker: str
    model: str
    serial: str
    customer: str
    stage: Stage
    outcome: Outcome | None
    taken_in_at: datetime


@dataclass(frozen=True, slots=True)
class FoundCustomer:
    """A customer as one line."""

    id: int
    name: str
    phone: str
    city: str
    jobs: int


@dataclass(frozen=True, slots=True)
class FoundUnit:
    """A player as one line, with who brought it last."""

    id: int
    maker: str
    model: str
    serial: str
    customer: str
    jobs: int


@dataclass(frozen=True, slots=True)
class FoundTransport:
    """A transport as one line. ``unit`` is the player it is in, empty on the shelf."""

    id: int
    type: str
    marking: str
    unit: str
    shelf: str


@dataclass(frozen=True, slots=True)
class FoundCard:
    """A know-how card as one line."""

    id: int
    title: str
    concerns: str


@dataclass(frozen=True, slots=True)
class Found:
    """What was found, by kind, each at most as many as asked for."""

    jobs: tuple[FoundJob, ...] = ()
    customers: tuple[FoundCustomer, ...] = ()
    units: tuple[FoundUnit, ...] = ()
    transports: tuple[FoundTransport, ...] = ()
    cards: tuple[FoundCard, ...] = ()
    numbered: tuple[FoundNumbered, ...] = ()

    def __bool__(self) -> bool:
        return any((self.jobs, self.customers, self.units, self.transports, self.cards, self.numbered))


def find(book: Book, text: str, limit: int = 6) -> Found:
    """What the text may mean, for every kind: a job's own number first, then words, then ends of numbers."""
    question = text.strip()
    if not question:
        return Found()
    with book.ask() as session:
        found: dict[str, list[int]] = {kind: [] for kind in KINDS}
        if number := _NUMBER.fullmatch(question):
            found["job"] += session.scalars(select(Job.id).where(Job.number == int(number[1])))
        if has_figures(question):
            found["customer"] += ids_by_phone(session, question, limit)
        if sum(letter.isalnum() for letter in question) >= FEWEST_LETTERS:
            for more in (
                ids_by_words(session, question, KINDS, limit),
                ids_by_tail(session, question, KINDS, limit),
            ):
                for kind, keys in more.items():
                    found[kind] += keys
        ids = {kind: list(dict.fromkeys(keys))[:limit] for kind, keys in found.items()}
        return Found(
            _jobs(session, ids["job"]),
            _customers(session, ids["customer"]),
            _units(session, ids["unit"]),
            _transports(session, ids["transport"]),
            _cards(session, question, limit),
            numbered(book, session, question, limit),
        )


def job_by_number(book: Book, number: int) -> int | None:
    """The id of the job with this number, None when there is none."""
    with book.ask() as session:
        return session.scalar(select(Job.id).where(Job.number == number))


def _in_order(ids: Iterable[int], rows: Iterable[tuple[int, T]]) -> tuple[T, ...]:
    by_id = dict(rows)
    return tuple(by_id[key] for key in ids if key in by_id)


def _jobs(session: Session, ids: list[int]) -> tuple[FoundJob, ...]:
    if not ids:
        return ()
    rows = session.execute(
        select(
            Job.id,
            Job.number,
            Unit.maker,
            Unit.model,
            Unit.serial,
            Customer.name,
            Job.stage,
            Job.outcome,
            Job.taken_in_at,
        )
        .join(Unit, Unit.id == Job.unit_id)
        .join(Customer, Customer.id == Job.customer_id)
        .where(Job.id.in_(ids))
    )
    return _in_order(ids, ((row.id, FoundJob(*row)) for row in rows))


def _customers(session: Session, ids: list[int]) -> tuple[FoundCustomer, ...]:
    if not ids:
        return ()
    jobs = select(func.count()).where(Job.customer_id == Customer.id).correlate(Customer).scalar_subquery()
    rows = session.execute(
        select(Customer.id, Customer.name, Customer.phone, Customer.city, jobs.label("jobs")).where(
            Customer.id.in_(ids), Customer.merged_into_id.is_(None), Customer.erased_at.is_(None)
        )
    )
    return _in_order(ids, ((row.id, FoundCustomer(*row)) for row in rows))


def _units(session: Session, ids: list[int]) -> tuple[FoundUnit, ...]:
    if not ids:
        return ()
    jobs = select(func.count()).where(Job.unit_id == Unit.id).correlate(Unit).scalar_subquery()
    rows = session.execute(
        select(
            Unit.id,
            Unit.maker,
            Unit.model,
            Unit.serial,
            func.coalesce(Customer.name, ""),
            jobs.label("jobs"),
        )
        .outerjoin(Customer, Customer.id == Unit.customer_id)
        .where(Unit.id.in_(ids))
    )
    return _in_order(ids, ((row.id, FoundUnit(*row)) for row in rows))


def _cards(session: Session, question: str, limit: int) -> tuple[FoundCard, ...]:
    """A shop has few cards: they are looked through, without an index of their own."""
    if sum(letter.isalnum() for letter in question) < FEWEST_LETTERS:
        return ()
    found = cards_in(session, question)[:limit]
    return tuple(FoundCard(card.id, card.entry.title, card.concerns) for card in found)


def _transports(session: Session, ids: list[int]) -> tuple[FoundTransport, ...]:
    if not ids:
        return ()
    rows = session.execute(
        select(
            Transport.id,
            TransportType.name,
            Transport.marking,
            func.trim(func.coalesce(Unit.maker, "") + " " + func.coalesce(Unit.model, "")),
            Transport.shelf,
        )
        .join(TransportType, TransportType.id == Transport.type_id)
        .outerjoin(Fitting, (Fitting.transport_id == Transport.id) & Fitting.removed_at.is_(None))
        .outerjoin(Unit, Unit.id == Fitting.unit_id)
        .where(Transport.id.in_(ids))
    )
    return _in_order(ids, ((row.id, FoundTransport(*row)) for row in rows))
