"""Puts another file in the book's place so that a kill at any step leaves the old book or the new one.

A marker beside the book is written before the first file moves and removed after the last; whoever opens
the book next finds it and finishes, or undoes when the new file is not whole.
"""

from __future__ import annotations

import errno
import json
from collections.abc import Callable
from dataclasses import asdict, dataclass
from pathlib import Path

from app.book.disk import (
    JOURNALS,
    flush_folder,
    hash_of,
    journals_of,
    remove_with_journals,
    write_whole,
)
from app.trade.refusal import BookRefused, Way
from app.trade.sentence import Sentence


@dataclass(frozen=True)
class Swap:
    """``sha256`` is that of the staged file; ``aside`` the folder, beside the book, that takes the old files."""

    sha256: str
    aside: str


def staged_file(book: Path) -> Path:
    """Where the new file waits, on the same disk as the book."""
    return book.with_name(f"{book.name}.incoming")


def marker_file(book: Path) -> Path:
    """What tells that files are being moved."""
    return book.with_name(f"{book.name}.swap.json")


def is_pending(book: Path) -> bool:
    """Whether a swap was begun and not ended."""
    return marker_file(book).exists()


def swap_in(book: Path, swap: Swap, step: Callable[[str], None]) -> None:
    """Move the present book and its journals aside and the staged file in. Holds both locks. Raises OSError.

    When the system refuses a move, everything is put back first.
    """
    write_whole(marker_file(book), json.dumps(asdict(swap)).encode())
    step("marked")
    try:
        _forward(book, swap, step)
        if hash_of(book) != swap.sha256:
            raise OSError(errno.EIO, "the disk gave back other bytes than were written", str(book))
    except OSError:
        _back(book, swap)
        raise
    _unmark(book)
    step("unmarked")


def finish(book: Path) -> None:
    """Finish a swap that was cut off, or undo it when the new file is not whole. Holds the window's lock."""
    if not is_pending(book):
        remove_with_journals(staged_file(book))  # staged, but never begun
        return
    swap = _read(book)
    staged = staged_file(book)
    try:
        if staged.exists():
            if hash_of(staged) == swap.sha256:
                _forward(book, swap, lambda name: None)
            else:
                _back(book, swap)
        elif not book.exists() or hash_of(book) != swap.sha256:
            _back(book, swap)
        _unmark(book)
    except OSError as error:
        raise BookRefused(
            Sentence(
                "A restore of {path} was cut off and cannot be finished: {why}.",
                {"path": str(book), "why": error.strerror or str(error)},
            ),
            Sentence("The former book is whole in the folder {folder}.", {"folder": swap.aside}),
        ) from error


def _forward(book: Path, swap: Swap, step: Callable[[str], None]) -> None:
    aside = book.parent / swap.aside
    aside.mkdir(parents=True, exist_ok=True)
    flush_folder(aside.parent)
    for file in (book, *journals_of(book)):
        if file.exists():
            file.replace(aside / file.name)
            step(f"aside {file.name.removeprefix(book.name) or 'book'}")
    flush_folder(aside)
    staged_file(book).replace(book)
    flush_folder(book.parent)
    step("swapped")


def _back(book: Path, swap: Swap) -> None:
    """The old files again where they were; what had come in goes away."""
    aside = book.parent / swap.aside
    if (aside / book.name).exists():
        remove_with_journals(book)
        for name in (book.name, *(book.name + end for end in JOURNALS)):
            if (aside / name).exists():
                (aside / name).replace(book.with_name(name))
        flush_folder(book.parent)
    remove_with_journals(staged_file(book))
    _unmark(book)


def _unmark(book: Path) -> None:
    marker_file(book).unlink(missing_ok=True)
    flush_folder(book.parent)


def _read(book: Path) -> Swap:
    try:
        told = json.loads(marker_file(book).read_text(encoding="utf-8"))
        return Swap(str(told["sha256"]), str(told["aside"]))
    except (ValueError, KeyError, TypeError) as error:
        raise BookRefused(
            Sentence("{path} cannot be read.", {"path": str(marker_file(book))}),
            Sentence("Restore a copy. Nothing is deleted."),
            ways=(Way.RESTORE,),
        ) from error
