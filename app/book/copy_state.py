"""When the last good copy of a book was made, and why the last try failed; kept beside the book."""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import Any

from app.book.chain import START
from app.book.copies import Copy
from app.book.disk import write_whole
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.upkeep.keep_rule import BackupMade, due


@dataclass(frozen=True)
class CopyState:
    """``failure`` stays until a copy succeeds; ``lacking`` counts files that the last copy had to leave out."""

    last_good_at: datetime | None = None
    last_good: Path | None = None
    history_rows: int = 0  # in the last good copy
    head: str = START  # its last history row's hash
    lacking: int = 0
    failed_at: datetime | None = None
    failure: Sentence | None = None
    next_step: Sentence | None = None

    def is_due(self, rows: int, head: str, now: datetime) -> bool:
        """Whether an automatic copy is due for a history of so many rows that ends in ``head``."""
        if rows == 0:
            return False
        if self.last_good_at is None or self.last_good is None or not self.last_good.exists():
            return True
        # After a restore another history may have grown to the same length.
        length = self.history_rows if head == self.head or rows != self.history_rows else -1
        return due(BackupMade(self.last_good.name, self.last_good_at, length), rows, now)


def state_file(book: Path) -> Path:
    """The small file beside the book."""
    return book.with_name(f"{book.name}.copies.json")


def read_state(book: Path) -> CopyState:
    """The state of the book's copies; a file that cannot be read counts as none."""
    try:
        told = json.loads(state_file(book).read_text(encoding="utf-8"))
        return CopyState(
            _instant(told["last_good_at"]),
            Path(told["last_good"]) if told["last_good"] else None,
            int(told["history_rows"]),
            str(told["head"]),
            int(told["lacking"]),
            _instant(told["failed_at"]),
            _sentence(told["failure"]),
            _sentence(told["next_step"]),
        )
    except (OSError, ValueError, KeyError, TypeError):
        return CopyState()


def keep_success(book: Path, copy: Copy) -> CopyState:
    """A copy succeeded: whatever failed before is over."""
    return _write(book, CopyState(copy.made_at, copy.path, copy.history_rows, copy.head, copy.files_lacking))


def keep_failure(book: Path, state: CopyState, refusal: Refusal, now: datetime) -> CopyState:
    """A copy failed: the last good one stays known, the reason stays visible."""
    failed = replace(state, failed_at=now, failure=refusal.sentence, next_step=refusal.next_step)
    return _write(book, failed)


def _write(book: Path, state: CopyState) -> CopyState:
    told = {
        "last_good_at": state.last_good_at.isoformat() if state.last_good_at else None,
        "last_good": str(state.last_good.absolute()) if state.last_good else None,
        "history_rows": state.history_rows,
        "head": state.head,
        "lacking": state.lacking,
        "failed_at": state.failed_at.isoformat() if state.failed_at else None,
        "failure": state.failure.as_json() if state.failure else None,
        "next_step": state.next_step.as_json() if state.next_step else None,
    }
    try:
        write_whole(state_file(book), json.dumps(told, indent=1, ensure_ascii=False).encode())
    except OSError:
        # The disk that refused the copy may refuse this too. The caller has the state, and the next
        # closing tries again, as the last good copy does not hold the end of history.
        return state
    return state


def _instant(told: Any) -> datetime | None:
    if not told:
        return None
    instant = datetime.fromisoformat(told)
    if instant.tzinfo is None:
        raise ValueError("a naive instant")
    return instant


def _sentence(told: Any) -> Sentence | None:
    return Sentence.of_json(told) if told else None
