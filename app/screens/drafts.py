"""What is half typed, kept in one file for each workstation: never in the book, never lost in a crash."""

from __future__ import annotations

import contextlib
import json
import logging
import os
from collections.abc import Mapping
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject, QTimer, Signal

_log = logging.getLogger(__name__)

DELAY_MS = 1000


class Drafts(QObject):
    """Drafts by the key of their form, e.g. ``intake``; values are what JSON can hold.

    A change is on disk one second after the last keystroke: the new file is written whole beside the old
    one, forced to disk, then put in its place, so that a crash leaves the old or the new one, never half.
    """

    kept = Signal(str)  # the key of a form whose draft is now safely on disk
    failed = Signal(object)  # the OSError; what was typed stays in the window

    _written = Signal(object)

    def __init__(self, path: Path, parent: QObject | None = None, *, delay_ms: int = DELAY_MS) -> None:
        super().__init__(parent)
        self._path = path
        self._drafts: dict[str, dict[str, Any]] = _read(path)
        self._fresh: set[str] = set()
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(delay_ms)
        self._timer.timeout.connect(self._write_soon)
        self._pool = ThreadPoolExecutor(1, thread_name_prefix="draft")
        self._written.connect(self._tell)

    def read(self, form: str) -> dict[str, Any] | None:
        """What was typed into ``form`` and not saved, or None."""
        draft = self._drafts.get(form)
        return dict(draft) if draft is not None else None

    def forms(self) -> tuple[str, ...]:
        """The keys of all forms with a draft."""
        return tuple(self._drafts)

    def keep(self, form: str, values: Mapping[str, Any]) -> None:
        """Keep what stands in ``form`` now."""
        if self._drafts.get(form) == dict(values):
            return
        self._drafts[form] = dict(values)
        self._fresh.add(form)
        self._timer.start()

    def drop(self, form: str) -> None:
        """The form was saved or emptied: forget its draft."""
        if self._drafts.pop(form, None) is not None:
            self._fresh.discard(form)
            self._timer.start()

    def flush(self) -> None:
        """Write at once and wait for the disk."""
        if self._timer.isActive():
            self._timer.stop()
            self._write_soon()
        self._pool.submit(lambda: None).result()

    def close(self) -> None:
        """Write what is not yet written and end the thread."""
        self.flush()
        self._pool.shutdown(wait=True)

    def _write_soon(self) -> None:
        text = json.dumps(self._drafts, ensure_ascii=False, indent=1, sort_keys=True)
        forms = frozenset(self._fresh)
        self._fresh.clear()
        future = self._pool.submit(_write, self._path, text)
        future.add_done_callback(lambda f: self._written.emit((forms, f)))

    def _tell(self, outcome: tuple[frozenset[str], Future[None]]) -> None:
        forms, future = outcome
        error = future.exception()
        if error is not None:
            self._fresh |= forms & set(self._drafts)
            self.failed.emit(error)
            return
        for form in sorted(forms):
            self.kept.emit(form)


def _read(path: Path) -> dict[str, dict[str, Any]]:
    try:
        content = json.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        return {}
    except (OSError, ValueError):
        # A damaged file is put aside, not overwritten: somebody may still read words out of it.
        _log.warning("the drafts could not be read and were put aside: %s", path)
        with contextlib.suppress(OSError):
            path.replace(path.with_suffix(path.suffix + ".damaged"))
        return {}
    if not isinstance(content, dict):
        return {}
    return {str(k): v for k, v in content.items() if isinstance(v, dict)}


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(path.name + ".new")
    with beside.open("w", encoding="utf-8") as file:
        file.write(text)
        file.flush()
        os.fsync(file.fileno())
    beside.replace(path)
    if os.name == "posix":
        folder = os.open(path.parent, os.O_RDONLY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)
