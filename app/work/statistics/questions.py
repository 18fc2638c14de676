"""Who answers each of the eight questions, and who is meant by a technician's name."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Protocol

from sqlalchemy import select

from app.book.door import Book
from app.book.tables import Staff
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.work.statistics.after_modification import after_modification
from app.work.statistics.answer import Answer
from app.work.statistics.comeback_rate import comeback_rates
from app.work.statistics.cost import cost
from app.work.statistics.how_long import how_long
from app.work.statistics.keep_coming import keep_coming
from app.work.statistics.over_time import over_time
from app.work.statistics.question import Question
from app.work.statistics.shop import the_shop
from app.work.statistics.steps import Step
from app.work.statistics.what_fails import what_fails


class Answers(Protocol):
    """Answers one question. ``step`` is called again and again with what is done, of how much, and the part that comes
    next; what it raises ends the work."""

    def __call__(self, book: Book, question: Question, step: Step | None = None) -> Answer: ...


ANSWERS: Mapping[str, Answers] = MappingProxyType(
    {
        "comeback-rate": comeback_rates,
        "how-long": how_long,
        "keep-coming": keep_coming,
        "over-time": over_time,
        "what-fails": what_fails,
        "after-modification": after_modification,
        "cost": cost,
        "shop": the_shop,
    }
)


def technician_named(book: Book, name: str) -> int:
    """The key of a member of staff by name, capital letters or not. Raises Refusal naming those there are."""
    with book.ask() as session:
        people = {found.casefold(): key for key, found in session.execute(select(Staff.id, Staff.name))}
        there = tuple(session.scalars(select(Staff.name).order_by(Staff.name)))
    if name.casefold() not in people:
        raise Refusal(
            Sentence("Nobody of the shop is called {name}.", {"name": name}),
            Sentence("These are: {names}", {"names": there}),
        )
    return people[name.casefold()]
