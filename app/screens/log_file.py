"""The log: a rotating file in the platform's folder for logs, without anything that people typed.

What an exception says may name a customer or hold a value that was typed; SQLAlchemy's even hold whole rows. So
the file gets the kind of an exception and the places it came through, not its message. With
``SPINDLEBOOK_LOG=debug`` in the environment everything is written: for invented books.
"""

from __future__ import annotations

import logging
import os
import traceback
from collections.abc import Mapping
from logging.handlers import RotatingFileHandler
from pathlib import Path

from PySide6.QtCore import QMessageLogContext, QtMsgType

NAME = "spindlebook.log"
LARGEST = 512 * 1024  # bytes, then a new file is begun
KEPT = 4  # older files beside it
VARIABLE = "SPINDLEBOOK_LOG"

_LEVELS = {
    QtMsgType.QtDebugMsg: logging.DEBUG,
    QtMsgType.QtInfoMsg: logging.DEBUG,
    QtMsgType.QtWarningMsg: logging.WARNING,
    QtMsgType.QtCriticalMsg: logging.ERROR,
    QtMsgType.QtFatalMsg: logging.CRITICAL,
}
_qt = logging.getLogger("qt")


def log_folder() -> Path:
    """Where this system wants a program's logs; not made here."""
    from platformdirs import user_log_path

    return user_log_path("Spindlebook", appauthor=False)


class LogFile:
    """Writes what the program logs into a folder until it is closed. A folder that cannot be written is no
    reason not to work: then ``path`` is None and nothing is written."""

    def __init__(self, folder: Path, environment: Mapping[str, str] = os.environ) -> None:
        full = environment.get(VARIABLE, "").casefold() == "debug"
        self.path: Path | None = folder / NAME
        self._root = logging.getLogger()
        self._level_before = self._root.level
        self._handler: logging.Handler
        try:
            folder.mkdir(parents=True, exist_ok=True)
            self._handler = RotatingFileHandler(
                folder / NAME, maxBytes=LARGEST, backupCount=KEPT, encoding="utf-8"
            )
        except OSError:
            self.path = None
            self._handler = logging.NullHandler()
        self._handler.setLevel(logging.DEBUG if full else logging.INFO)
        self._handler.setFormatter(LogLines(full=full))
        self._root.addHandler(self._handler)
        self._root.setLevel(min(self._level_before or logging.WARNING, self._handler.level))

    def close(self) -> None:
        """Stop writing."""
        self._root.removeHandler(self._handler)
        self._root.setLevel(self._level_before)
        self._handler.close()


class LogLines(logging.Formatter):
    """Time, level, place and words; of an exception only kinds and places, unless ``full``."""

    def __init__(self, *, full: bool = False) -> None:
        super().__init__("%(asctime)s %(levelname)s %(name)s %(threadName)s: %(message)s")
        self.full = full

    def format(self, record: logging.LogRecord) -> str:
        before, record.exc_text = record.exc_text, None  # another handler may have formatted it in full
        try:
            return super().format(record)
        finally:
            record.exc_text = before

    def formatException(self, ei: object) -> str:
        assert isinstance(ei, tuple)
        error = ei[1]
        return as_text(error, full=self.full) if isinstance(error, BaseException) else ""


def as_text(error: BaseException, *, full: bool = False) -> str:
    """The way an error took, and what led to it. Without ``full`` only kinds and places, no message."""
    if full:
        return "".join(traceback.format_exception(error)).rstrip()
    lines: list[str] = []
    part: BaseException | None = error
    while part is not None:
        if lines:
            lines.insert(0, "which led to\n")
        lines[:0] = [*traceback.format_tb(part.__traceback__), f"{type(part).__name__}\n"]
        part = part.__cause__ or (None if part.__suppress_context__ else part.__context__)
    return "".join(lines).rstrip()


def hear_qt(kind: QtMsgType, context: QMessageLogContext, message: str) -> None:
    """Hands Qt's own messages to the log; for ``qInstallMessageHandler``."""
    _qt.log(_LEVELS.get(kind, logging.WARNING), "%s", message)
