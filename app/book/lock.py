"""One window at a time on one file: a lock that the system itself lets go when a process dies."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import IO

from app.trade.refusal import BookRefused
from app.trade.sentence import Sentence


class WindowLock:
    """Holds ``book.sqlite.open`` beside the book. ``clean`` tells whether the last holder closed in order."""

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
            raise BookRefused(
                Sentence("This book is open in another window."),
                Sentence("Go to that window, or close it and try again."),
            ) from error
        file.seek(0)
        self.clean = file.read().strip() in ("", "closed")
        self._write(file, f"open {os.getpid()}")
        self._file = file

    def release(self) -> None:
        """Let go, leaving word that all was closed in order."""
        if self._file is not None:
            self._write(self._file, "closed")
            self._file.close()
            self._file = None

    @staticmethod
    def _write(file: IO[str], text: str) -> None:
        file.seek(0)
        file.truncate()
        file.write(text)
        file.flush()


if sys.platform == "win32":  # pragma: no cover  # cannot be run on the machines that test

    def _lock(file: IO[str]) -> None:
        import msvcrt

        file.seek(1 << 20)  # far behind the text, which others may read
        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)

else:

    def _lock(file: IO[str]) -> None:
        import fcntl

        fcntl.flock(file.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)
