"""Putting a copy in the book's place. The book must be closed; the window opens it again afterwards."""

from __future__ import annotations

from pathlib import Path

from app.book.copies import Copy
from app.book.door import Clock, system_clock
from app.book.restore import Restored, look_into, restore

__all__ = ["Restored", "examine_copy", "restore_copy"]


def examine_copy(copy: Path) -> Copy:
    """Look through a copy from end to end, as a restore would. Raises Refusal when it is not sound."""
    return look_into(copy)[0]


def restore_copy(book_path: Path, copy: Path, *, clock: Clock = system_clock) -> Restored:
    """Put ``copy`` in the place of the book, which is kept aside. Raises Refusal; then nothing changed."""
    return restore(book_path, copy, clock())
