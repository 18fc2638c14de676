"""Copies nobody asks for: when history went on, at most hourly, thinned; a failure stays shown and blocks nothing."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from app.book import automatic_copies, copy_state
from app.book.automatic_copies import copy_if_due
from app.book.backup import Why, make_copy
from app.book.copies import copies_folder, list_copies, sidecar_of
from app.book.copy_state import CopyState, read_state
from app.book.disk import hash_of
from app.book.door import Book
from app.book.erase import erase_person
from app.book.tables import Customer
from app.book.thinning import thin
from app.trade.refusal import Fault, Refusal
from app.trade.sentence import Sentence

WHY = Sentence("tried")


def write(book: Book) -> None:
    with book.change(None, WHY) as change:
        change.add(Customer(name="A", created_at=change.now))


def copies(book: Book) -> int:
    return len(list_copies(copies_folder(book.path)))


def test_an_empty_book_needs_no_copy(empty: Book, clock: Any) -> None:
    assert copy_if_due(empty, clock()) == CopyState()
    assert not copies_folder(empty.path).exists()


def test_a_copy_is_made_when_history_went_on_and_at_most_hourly(book: Book, clock: Any) -> None:
    copy_if_due(book, clock())
    assert copies(book) == 1
    copy_if_due(book, clock.advance(hours=5))
    assert copies(book) == 1  # nothing changed
    write(book)
    state = copy_if_due(book, clock())
    assert copies(book) == 2
    assert state == read_state(book.path)
    write(book)
    copy_if_due(book, clock.advance(minutes=59))
    assert copies(book) == 2
    copy_if_due(book, clock.advance(minutes=1))
    assert copies(book) == 3


def test_a_clock_put_back_makes_one_copy_too_many_never_one_too_few(book: Book, clock: Any) -> None:
    copy_if_due(book, clock())
    write(book)
    copy_if_due(book, clock.advance(days=-3))
    assert copies(book) == 2
    write(book)
    copy_if_due(book, clock.advance(minutes=5))  # counted from the one just made: no storm
    assert copies(book) == 2


def test_a_last_copy_that_somebody_deleted_is_made_anew(book: Book, clock: Any) -> None:
    state = copy_if_due(book, clock())
    assert state.last_good is not None
    state.last_good.unlink()
    copy_if_due(book, clock())
    assert copies(book) == 1


def test_another_history_of_the_same_length_is_due() -> None:
    now = datetime(2026, 3, 12, tzinfo=UTC)
    here = Path(__file__)
    state = CopyState(now, here, 10, "aa")
    assert state.is_due(10, "bb", now + timedelta(hours=2))
    assert not state.is_due(10, "aa", now + timedelta(hours=2))


def test_a_copy_that_fails_is_shown_until_one_succeeds_and_stops_nobody(
    book: Book, clock: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = copy_if_due(book, clock())
    write(book)
    clock.advance(hours=2)
    why = Sentence("The stick is full.")

    def full(*_: object) -> Any:
        raise Refusal(why, Sentence("Use another."))

    with monkeypatch.context() as patch:
        patch.setattr(automatic_copies, "make_copy", full)
        state = copy_if_due(book, clock())
    assert (state.failure, state.next_step, state.failed_at) == (why, Sentence("Use another."), clock())
    assert state.last_good == first.last_good
    assert read_state(book.path) == state
    write(book)  # work goes on
    assert copy_if_due(book, clock()).failure is None  # tried again at once, not in an hour
    assert read_state(book.path).failure is None


def test_our_own_mistake_in_a_copy_stops_nobody_either(
    book: Book, clock: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    def wrong(*_: object) -> Any:
        raise Fault("the copy ends elsewhere")

    monkeypatch.setattr(automatic_copies, "make_copy", wrong)
    state = copy_if_due(book, clock())
    assert state.failure is not None
    assert state.failure.values["why"] == "the copy ends elsewhere"


def test_a_disk_that_refuses_even_the_word_of_it_still_stops_nobody(
    book: Book, clock: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> Any:
        raise OSError(28, "No space left on device")

    def refuse(*_: object) -> Any:
        raise Refusal(Sentence("The disk is full."))

    monkeypatch.setattr(copy_state, "write_whole", full)
    monkeypatch.setattr(automatic_copies, "make_copy", refuse)
    assert copy_if_due(book, clock()).failure == Sentence("The disk is full.")
    assert read_state(book.path) == CopyState()  # the next closing tries again


def test_copies_are_thinned_by_the_keep_rule(book: Book, clock: Any) -> None:
    for _ in range(30):  # two a day for fifteen days
        write(book)
        copy_if_due(book, clock())
        clock.advance(hours=12)
    left = list_copies(copies_folder(book.path))
    days = [copy.made_at.date() for copy in left]
    assert len(left) < 30
    today = days[0]  # when it was thinned last
    recent = [day for day in days if today - day <= timedelta(days=1)]
    older = [day for day in days if today - day > timedelta(days=1)]
    assert len(recent) >= 2  # everything of today and yesterday
    assert len(older) == len(set(older))  # of an older day the newest only
    assert len(older) >= 12
    assert all(sidecar_of(copy.path).exists() for copy in left)


def test_copies_of_another_book_in_the_same_folder_are_left_alone(
    book: Book, empty: Book, clock: Any
) -> None:
    write(empty)
    folder = copies_folder(book.path)
    old = clock.advance(days=-400)
    for hours in range(3):
        make_copy(empty.path, folder, old + timedelta(hours=hours), Why.CLOSING)
        make_copy(book.path, folder, old + timedelta(hours=hours), Why.CLOSING)
    unknown = folder / "book-20200101T000000Z.sqlite"
    unknown.write_bytes(b"who knows")
    clock.advance(days=400)
    first = next(c.first for c in list_copies(folder) if c.jobs)
    gone = thin(folder, first, clock(), UTC)
    assert len(gone) == 2  # of three copies of one old day one stays
    assert unknown.exists()
    assert len([c for c in list_copies(folder) if c.checked and not c.jobs]) == 3


def test_files_that_no_copy_names_any_more_go_with_the_last_one(book: Book, clock: Any) -> None:
    folder = copies_folder(book.path)
    copy_if_due(book, clock())
    before = {path.name for path in (folder / "files").glob("??/*")}
    with book.change(None, WHY) as change:
        who = change.add(Customer(name="B", created_at=change.now)).id
    erase_person(book, who, 1)
    for _ in range(40):
        clock.advance(days=31)
        write(book)
        copy_if_due(book, clock())
    after = {path.name for path in (folder / "files").glob("??/*")}
    assert len(before - after) == 1  # the paper of the one who was erased
    assert all(hash_of(path) == path.name for path in (folder / "files").glob("??/*"))


def test_while_one_copy_cannot_be_read_no_file_goes(book: Book, clock: Any) -> None:
    folder = copies_folder(book.path)
    copy_if_due(book, clock())
    stray = folder / "files" / "ab" / ("ab" * 32)
    stray.parent.mkdir(exist_ok=True)
    stray.write_bytes(b"x")
    bad = folder / "book-20200101T000000Z.sqlite"
    bad.write_bytes(b"unreadable")
    for _ in range(3):
        write(book)
        copy_if_due(book, clock.advance(hours=2))
    clock.advance(days=30)
    write(book)
    copy_if_due(book, clock())
    assert stray.exists()
    bad.unlink()
    for _ in range(3):
        write(book)
        copy_if_due(book, clock.advance(hours=2))
    clock.advance(days=30)
    write(book)
    copy_if_due(book, clock())
    assert not stray.exists()


@pytest.mark.parametrize(
    "error", [OSError(5, "Input/output error"), Refusal(Sentence("Another copy is made."))]
)
def test_thinning_that_fails_is_shown_and_the_copy_counts(
    book: Book, clock: Any, monkeypatch: pytest.MonkeyPatch, error: Exception
) -> None:
    def fail(*_: object) -> Any:
        raise error

    monkeypatch.setattr(automatic_copies, "thin", fail)
    state = copy_if_due(book, clock())
    assert state.last_good_at == clock()
    assert state.failure is not None
