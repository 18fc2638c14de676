"""Who may do what at one time: locks that the system itself lets go when a process dies."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import IO, ClassVar

from app.trade.refusal import BookRefused, Refusal
from app.trade.sentence import Sentence


class WindowLock:
    """Holds ``book.sqlite.open`` beside the book. ``clean`` tells whether the last holder closed in order."""

    _held: ClassVar[set[Path]] = set()

    def __init__(self, book: Path) -> None:
        self.path = book.with_name(f"{book.name}.open")
        self._file: IO[str] | None = None
        self.clean = True

    def take(self) -> None:
        """Take the lock, or raise BookRefused when another window holds it."""
        file = self.path.open("a+", encoding="ascii")
        try:
            _lock(file)
        except OSError as error:
            file.close()
            raise open_elsewhere() from error
        file.seek(0)
        self.clean = file.read().strip() in ("", "closed")
        self._write(file, f"open {os.getpid()}")
        self._file = file
        self._held.add(self.path.absolute())

    @classmethod
    def held_here(cls, book: Path) -> bool:
        """Whether this very process holds the book open.

        Then its bytes must not be read past SQLite: closing such a handle drops SQLite's own locks.
        """
        return book.with_name(f"{book.name}.open").absolute() in cls._held

    def release(self, *, in_order: bool = True) -> None:
        """Let go, leaving word that all was closed in order.

        ``in_order`` False: the book was not looked through after all, so what was found stays written.
        """
        if self._file is not None:
            self._write(self._file, "closed" if in_order or self.clean else "open")
            self._file.close()
            self._file = None
            self._held.discard(self.path.absolute())

    @staticmethod
    def _write(file: IO[str], text: str) -> None:
        file.seek(0)
        file.truncate()
        file.write(text)
        file.flush()


class OpenElsewhere(BookRefused):
    """The refusal of a book that a window holds: it may still be read beside it."""


def open_elsewhere() -> OpenElsewhere:
    """That refusal, worded."""
    return OpenElsewhere(
        Sentence("This book is open in another window."),
        Sentence("Go to that window, or close it and try again."),
    )


class CopiesLock:
    """One copy at a time is made in one folder: ``with CopiesLock(folder): ...``. Raises Refusal."""

    def __init__(self, folder: Path) -> None:
        self._path = folder / "copies.lock"
        self._file: IO[str] | None = None

    def __enter__(self) -> None:
        file = self._path.open("a+", encoding="ascii")
        try:
            _lock(file)
        except OSError as error:
            file.close()
            raise Refusal(
                Sentence("Another copy is being made in this folder."),
                Sentence("Wait until it is finished, then try again."),
            ) from error
        self._file = file

    def __exit__(self, *_: object) -> None:
        if self._file is not None:
            self._file.close()


class PlaceLock:
    """Those who only read a book share its folder; whoever puts another file in its place has it alone.

    A reader that still holds the former file could take the new one's journal for its own.
    """

    def __init__(self, book: Path, *, alone: bool) -> None:
        self._folder = book.parent
        self._alone = alone
        self._handle: int | None = None

    def take(self) -> None:
        """Take the lock, or raise BookRefused when the other kind has it."""
        try:
            self._handle = _lock_folder(self._folder, self._alone)
        except BlockingIOError as error:
            raise BookRefused(
                Sentence("Another command of Spindlebook is working on a book in this folder."),
                Sentence("Wait until it is finished, then try again."),
            ) from error

    def release(self) -> None:
        """Let go."""
        if self._handle is not None:
            os.close(self._handle)
            self._handle = None


if sys.platform == "win32":  # pragma: no cover  # cannot be run on the machines that test

    def _lock(file: IO[str]) -> None:
        import msvcrt

        file.seek(1 << 20)  # far behind the text, which others may read
        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)

    def _lock_folder(folder: Path, alone: bool) -> int | None:
        return None  # not needed: a file that somebody reads cannot be replaced there

else:

    def _lock(file: IO[str]) -> None:
        import fcntl

        fcntl.flock(file.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)

    def _lock_folder(folder: Path, alone: bool) -> int | None:
        import fcntl

        handle = os.open(folder, os.O_RDONLY)
        try:
            fcntl.flock(handle, (fcntl.LOCK_EX if alone else fcntl.LOCK_SH) | fcntl.LOCK_NB)
        except OSError:
            os.close(handle)
            raise
        return handle
