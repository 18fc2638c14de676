"""Answers about the whole shop (settings, quantities, names), kept while nobody changes what they rest on.

Nearly every action and every page asks for them, and they seldom change. An answer holds as long as history
stands where it stood, so that it is right whoever else writes in the book.
"""

from __future__ import annotations

from collections.abc import Callable, Set
from typing import Any, TypeVar

from sqlalchemy.orm import Session

from app.book.chain import chain_end

T = TypeVar("T")
End = tuple[int, str]  # number and hash of the last history row

# Only answers that rest on these tables are kept.
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
    """What was asked while history ended with row ``seq``. Shared by threads: an entry is only ever added."""

    def __init__(self, seq: int = -1, answers: dict[str, Any] | None = None) -> None:
        self.seq = seq
        self.answers: dict[str, Any] = {} if answers is None else answers


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

    def answer(self, session: Session, name: str, make: Callable[[], T]) -> T:
        """The answer of this name, made when it is not kept. After a change to what it may rest on: made anew."""
        session.flush()
        if SHOP_WIDE & self._touched():
            return make()
        self.end(session)
        if name not in self._kept.answers:
            self._kept.answers[name] = make()
        found: T = self._kept.answers[name]
        return found

    def move_on(self, end: End) -> None:
        """The transaction was committed and history ends there now: what it did not touch still holds."""
        if self._end is not None and not SHOP_WIDE & self._touched():
            self._keeper.now = Kept(end[0], self._kept.answers)


def kept(session: Session, name: str, make: Callable[[], T]) -> T:
    """An answer about the whole shop, from what is kept where the session belongs to an open book."""
    standing: Standing | None = session.info.get("standing")
    return make() if standing is None else standing.answer(session, name, make)
