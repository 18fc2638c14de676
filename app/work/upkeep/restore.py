"""Putting a copy in the book's place. The book must be closed; the window opens it again afterwards."""

from __future__ import annotations

from pathlib import Path

from app.book.copies import Copy
from app.book.door import Clock, system_clock
from app.book.restore import Restored, look_into, restore
from app.book.soundness import PARTS as LOOKED_INTO
from app.book.soundness import Watch, unwatched

__all__ = ["LOOKED_INTO", "Restored", "examine_copy", "restore_copy"]


def examine_copy(copy: Path, *, watch: Watch = unwatched) -> Copy:
    """Look through a copy from end to end, as a restore would. Raises Refusal when it is not sound.

    ``watch`` is told each of `LOOKED_INTO` before it begins, and may raise to stop.
    """
    return look_into(copy, watch)[0]


def restore_copy(book_path: Path, copy: Path, *, clock: Clock = system_clock) -> Restored:
    """Put ``copy`` in the place of the book, which is kept aside. Raises Refusal; then nothing changed."""
    return restore(book_path, copy, clock())
