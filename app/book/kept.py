"""Answers about the whole shop (settings, quantities, names), kept while nobody changes what they rest on.

Nearly every action and every page asks for them, and they seldom change. An answer holds as long as history
stands where it stood, so that it is right whoever else writes in the book. What the statistics stand on (columns of
all visits) is kept in the same way: it says which tables it rests on, and there is one of each name.
"""

from __future__ import annotations

from collections.abc import Callable, Set
from typing import Any, TypeVar

from sqlalchemy.orm import Session

from app.book.chain import chain_end

T = TypeVar("T")
End = tuple[int, str]  # number and hash of the last history row

# What an answer rests on that says nothing else.
SHOP_WIDE = frozenset(
    {
        "settings",
        "quantities",
        "staff",
        "staff_marks",
        "instruments",
        "transport_types",
        "limits",
        "knowledge",
    }
)


class Kept:
    """What was asked while history ended with row ``seq``, by name, each with the tables it rests on. Shared by
    threads: an entry is only ever added."""

    def __init__(self, seq: int = -1, answers: dict[str, tuple[Any, Set[str]]] | None = None) -> None:
        self.seq = seq
        self.answers: dict[str, tuple[Any, Set[str]]] = {} if answers is None else answers

    def without(self, touched: Set[str]) -> dict[str, tuple[Any, Set[str]]]:
        """Those that rest on none of these tables."""
        return {name: kept for name, kept in self.answers.copy().items() if not kept[1] & touched}


class Keeper:
    """The kept answers of one open book. ``now`` is replaced, never altered."""

    def __init__(self) -> None:
        self.now = Kept()


class Standing:
    """One transaction's view: where history ends, and the answers that hold there."""

    def __init__(
        self, keeper: Keeper, touched: Callable[[], Set[str]] = frozenset, end: End | None = None
    ) -> None:
        self._keeper = keeper
        self._touched = touched  # tables that this transaction has changed
        self._end: End | None = None
        self._kept = Kept()
        if end is not None:
            self._stand(end)

    def end(self, session: Session) -> End:
        """Number and hash of the last history row, as this transaction sees it."""
        return self._end or self._stand(chain_end(session.connection()))

    def _stand(self, end: End) -> End:
        self._end = end
        self._kept = self._keeper.now
        if self._kept.seq != end[0]:
            self._kept = self._keeper.now = Kept(end[0])
        return end

    def answer(self, session: Session, name: str, make: Callable[[], T], rests_on: Set[str] = SHOP_WIDE) -> T:
        """The answer of this name, made when it is not kept. After a change to what it may rest on: made anew."""
        session.flush()
        if rests_on & self._touched():
            return make()
        self.end(session)
        if name not in self._kept.answers:
            self._kept.answers[name] = make(), rests_on
        found: T = self._kept.answers[name][0]
        return found

    def move_on(self, end: End) -> None:
        """The transaction was committed and history ends there now: what it did not touch still holds."""
        if self._end is not None:
            self._keeper.now = Kept(end[0], self._kept.without(self._touched()))


def kept(session: Session, name: str, make: Callable[[], T], rests_on: Set[str] = SHOP_WIDE) -> T:
    """An answer about the whole shop, from what is kept where the session belongs to an open book."""
    standing: Standing | None = session.info.get("standing")
    return make() if standing is None else standing.answer(session, name, make, rests_on)
