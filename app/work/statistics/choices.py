"""What can be chosen in the filters of a question: what the book has, by name."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import select

from app.book.bench.knowledge_data import knowledge_of
from app.book.door import Book
from app.book.tables import Staff, TransportType, Trial, Unit
from app.trade.sentence import Sentence


@dataclass(frozen=True, slots=True)
class Choices:
    """Transport types by name, makers with their models, kinds of change that were tried (id and words), and the
    people of the shop (key and name)."""

    transport_types: tuple[str, ...] = ()
    players: tuple[tuple[str, str], ...] = ()
    changes: tuple[tuple[str, Sentence], ...] = ()
    people: tuple[tuple[int, str], ...] = ()


def choices(book: Book) -> Choices:
    """Everything that a filter may ask for."""
    with book.ask() as session:
        types = session.scalars(select(TransportType.name).order_by(TransportType.name))
        players = session.execute(select(Unit.maker, Unit.model).distinct().order_by(Unit.maker, Unit.model))
        tried = frozenset(session.scalars(select(Trial.change).distinct()))
        people = session.execute(select(Staff.id, Staff.name).order_by(Staff.name))
        known = knowledge_of(session).knowledge.changes
        return Choices(
            tuple(types),
            tuple((maker, model) for maker, model in players),
            tuple((key, change.name) for key, change in known.items() if key in tried),
            tuple((key, name) for key, name in people),
        )
