"""A draft keeps every rule of the door while the disk waits; an action that fails takes all of it with it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest
from sqlalchemy import func, select

from app.book import draft
from app.book.door import Book
from app.book.history_rows import HistoryRow
from app.book.opening import open_book
from app.book.soundness import examine
from app.book.tables import Staff
from app.trade.refusal import Fault, Refusal
from app.trade.sentence import Sentence

JOINED = Sentence("joined")


def draft_at(folder: Path, clock: Callable[[], datetime]) -> Book:
    return open_book(folder / "book.sqlite", clock=clock, make=True, draft=True)


def people_in(book: Book) -> int:
    with book.ask() as session:
        return session.scalar(select(func.count()).select_from(Staff)) or 0


def join(book: Book, name: str) -> int:
    with book.change(None, JOINED) as change:
        key = change.add(Staff(name=name)).id
    assert change.changes.kinds == {"staff"}
    return key


def refused(book: Book, name: str) -> None:
    with book.change(None, JOINED) as change:
        change.add(Staff(name=name))
        raise Refusal(Sentence("No."))


def test_each_action_of_a_draft_has_its_own_history_and_questions_see_it_at_once(
    tmp_path: Path, clock: Callable[[], datetime], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(draft, "AT_ONCE", 3)
    book = draft_at(tmp_path, clock)
    keys = [join(book, f"Person {n}") for n in range(7)]
    assert people_in(book) == 7
    with book.change(keys[0], Sentence("renamed")) as change:
        change.get(Staff, keys[0], version=1).name = "Ine"
    with book.ask() as session:
        assert session.get_one(Staff, keys[0]).name == "Ine"
        assert session.scalars(select(HistoryRow.action).order_by(HistoryRow.seq)).all() == (
            ["joined"] * 7 + ["renamed"]
        )
    assert book.changed_since_backup
    book.close()
    sound = examine(book.path)
    assert (sound.found, sound.rows["staff"], sound.chain_rows) == ((), 7, 8)


def test_a_question_about_a_draft_cannot_change_it(tmp_path: Path, clock: Callable[[], datetime]) -> None:
    book = draft_at(tmp_path, clock)
    key = join(book, "Ine")
    with book.ask() as session:
        session.get_one(Staff, key).name = "Somebody else"
        with pytest.raises(Fault, match="must not change"):
            session.flush()
    join(book, "Mirr")
    book.close()
    assert examine(book.path).rows["staff"] == 2


def test_an_action_that_fails_takes_the_draft_with_it(tmp_path: Path, clock: Callable[[], datetime]) -> None:
    book = draft_at(tmp_path, clock)
    join(book, "Ine")
    with pytest.raises(Refusal):
        refused(book, "Mirr")
    with pytest.raises(Fault, match="given up"):
        people_in(book)
    with pytest.raises(Fault, match="given up"):
        join(book, "Tobbe")
    book.close()
    sound = examine(book.path)
    assert (sound.found, sound.rows["staff"], sound.chain_rows) == ((), 0, 0)


def test_a_draft_that_nobody_wrote_in_closes_as_a_book(tmp_path: Path, clock: Callable[[], datetime]) -> None:
    book = draft_at(tmp_path, clock)
    book.close()
    assert examine(book.path).found == ()
