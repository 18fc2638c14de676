"""Copies of the book: made now or on closing, where they are, and how the last try went."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from app.book.automatic_copies import copy_if_due
from app.book.backup import PARTS as COPY_PARTS
from app.book.backup import back_up
from app.book.chain import chain_end
from app.book.copies import Copy, Why, copies_folder, list_copies
from app.book.copy_state import CopyState, read_state
from app.book.door import Book
from app.book.soundness import Watch, unwatched
from app.trade.sentence import Sentence

__all__ = [
    "COPY_PARTS",
    "Copy",
    "CopyStanding",
    "CopyState",
    "back_up_now",
    "close_with_copy",
    "copies_of",
    "copy_now_if_due",
    "copy_standing",
]


@dataclass(frozen=True, slots=True)
class CopyStanding:
    """How safe the book is. ``behind``: history went on since the last good copy. A failure stays shown
    until a copy succeeds; ``files_lacking`` counts files that the last copy had to leave out."""

    last_good_at: datetime | None
    last_good: Path | None
    behind: bool
    failed_at: datetime | None
    failure: Sentence | None
    next_step: Sentence | None
    files_lacking: int


def back_up_now(book: Book, folder: Path | None = None, *, watch: Watch = unwatched) -> Copy:
    """Make a checked copy in ``folder`` or the usual one. Raises Refusal, which stays visible.

    ``watch`` is told each of `COPY_PARTS` before it begins, and may raise to stop.
    """
    return back_up(book.path, folder or copies_folder(book.path), book.now(), Why.BY_HAND, watch=watch)


def copy_now_if_due(book: Book) -> CopyStanding:
    """Make a copy when one is due (history went on, an hour has passed). One that fails is told, not raised."""
    return _standing(book, copy_if_due(book, book.now()))


def close_with_copy(book: Book) -> CopyState:
    """Close the book after a copy when one is due. A copy that fails keeps nobody from closing."""
    try:
        return copy_if_due(book, book.now())
    finally:
        book.close()


def copy_standing(book: Book) -> CopyStanding:
    """How the book's copies stand."""
    return _standing(book, read_state(book.path))


def copies_of(book_path: Path, folder: Path | None = None) -> tuple[Copy, ...]:
    """The copies that can be restored, newest first; works when the book itself is damaged or gone."""
    return tuple(list_copies(folder or copies_folder(book_path)))


def _standing(book: Book, state: CopyState) -> CopyStanding:
    with book.ask() as session:
        rows, head = chain_end(session.connection())
    return CopyStanding(
        last_good_at=state.last_good_at,
        last_good=state.last_good,
        behind=(rows, head) != (state.history_rows, state.head),
        failed_at=state.failed_at,
        failure=state.failure,
        next_step=state.next_step,
        files_lacking=state.lacking,
    )
