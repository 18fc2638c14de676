"""A book that a program builds does not wait for the disk; one that people write in always does."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from app.book.opening import open_book
from app.book.soundness import examine
from app.book.tables import Staff
from app.trade.sentence import Sentence

FULL, OFF = 2, 0  # sqlite.org/pragma.html#pragma_synchronous


@pytest.mark.parametrize(("draft", "waits"), [(True, OFF), (False, FULL)])
def test_only_a_draft_does_not_wait_for_the_disk(tmp_path: Path, draft: bool, waits: int) -> None:
    path = tmp_path / "book.sqlite"
    book = open_book(path, clock=lambda: datetime(2026, 3, 12, tzinfo=UTC), make=True, draft=draft)
    with book.change(None, Sentence("did something")) as change:
        connection = change.session.connection()
        assert connection.exec_driver_sql("PRAGMA synchronous").scalar_one() == waits
        change.add(Staff(name="Ine"))
    book.close()
    sound = examine(path)
    assert (sound.found, sound.rows["staff"], sound.chain_rows) == ((), 1, 1)
    again = open_book(path)
    with again.ask() as session:
        assert session.connection().exec_driver_sql("PRAGMA synchronous").scalar_one() == FULL
    again.close()
