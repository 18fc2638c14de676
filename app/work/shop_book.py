"""Opens the shop's book with everything wired that every change must do."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Generic, TypeVar

from app.book.changes import Changes
from app.book.door import Book, Change, Clock, system_clock
from app.book.find.index import refresh_index
from app.book.lock import OpenElsewhere
from app.book.opening import check_file, open_book, read_book
from app.book.places import is_address

T = TypeVar("T")


def _refresh_flags(change: Change) -> None:
    """The rules come with the first change: a window stands before anybody makes one."""
    from app.book.bench.flag_rows import refresh_flags

    refresh_flags(change)


# What the door does at the end of every action, in this order.
SETTLE = (_refresh_flags, refresh_index)

__all__ = [
    "Book",
    "Changes",
    "Clock",
    "Done",
    "OpenElsewhere",
    "close_book",
    "look_at_file",
    "open_shop",
    "peek_shop",
]


@dataclass(frozen=True, slots=True)
class Done(Generic[T]):
    """What an action gave back, and what it changed."""

    value: T
    changes: Changes


def open_shop(path: Path, *, clock: Clock = system_clock, make: bool = False, draft: bool = False) -> Book:
    """Open a book for work; ``make`` makes an empty one where none is. Raises BookRefused.

    ``draft`` is for a book that a program builds: it is sure to be on the disk only once it is closed.
    """
    if make and not is_address(path):
        path.parent.mkdir(parents=True, exist_ok=True)
    return open_book(path, clock=clock, settle=SETTLE, make=make, draft=draft)


def peek_shop(path: Path, *, clock: Clock = system_clock) -> Book:
    """Open a book for asking only, beside a window that may hold it. Raises BookRefused."""
    return read_book(path, clock=clock)


def look_at_file(path: Path) -> None:
    """Raise BookRefused when what lies at ``path`` is no book that this program opens; opens nothing itself."""
    check_file(path)


def close_book(book: Book) -> None:
    """Close in order."""
    book.close()
