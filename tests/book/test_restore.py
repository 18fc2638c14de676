"""Restoring: the copy is verified before and after, the present book is kept, and a kill leaves one or the other."""

from __future__ import annotations

import json
import shutil
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from app.book.backup import Why, back_up
from app.book.copies import Copy, copies_folder, list_copies, sidecar_of
from app.book.disk import JOURNALS, hash_of
from app.book.lock import PlaceLock
from app.book.opening import open_book, read_book
from app.book.restore import restore
from app.book.soundness import examine
from app.book.swap import is_pending, staged_file
from app.book.tables import Customer
from app.trade.refusal import BookRefused, Refusal
from app.trade.sentence import Sentence
from tests.book.conftest import snapshot_of

THEN = datetime(2026, 3, 10, 18, 0, tzinfo=UTC)
NOW = datetime(2026, 3, 12, 12, 0, tzinfo=UTC)
STEPS = (
    "verified",
    "staged",
    "files",
    "saved",
    "marked",
    "aside book",
    "aside -journal",
    "swapped",
    "unmarked",
)
SWAPPED = STEPS[STEPS.index("marked") :]
NOT_THERE = ("good", "aside -journal")  # a good book has no journal left when its place is taken


@pytest.fixture
def copy(closed: Path) -> Copy:
    """A copy of the book as it was two days ago; since then a customer came."""
    made = back_up(closed, copies_folder(closed), THEN, Why.CLOSING)
    book = open_book(closed)
    with book.change(None, Sentence("wrote")) as change:
        change.add(Customer(name="Came later", created_at=change.now))
    book.close()
    return made


def customers(path: Path) -> int:
    with closing(sqlite3.connect(path)) as connection:
        return int(connection.execute("SELECT count(*) FROM customers").fetchone()[0])


def damage(path: Path) -> bytes:
    """Damage the file so that it cannot be copied; gives its bytes."""
    with closing(sqlite3.connect(path)) as connection:
        page = connection.execute("SELECT rootpage FROM sqlite_master WHERE name = 'history'").fetchone()[0]
    with path.open("rb+") as file:
        file.seek((page - 1) * 4096)
        file.write(b"\xff" * 4096)
    return path.read_bytes()


def test_a_restore_puts_the_copy_in_place_and_keeps_the_present_book(closed: Path, copy: Copy) -> None:
    former = closed.read_bytes()
    done = restore(closed, copy.path, NOW)
    assert customers(closed) == 2
    assert hash_of(closed) == copy.sha256
    assert (done.jobs, done.copy, done.files_lacking) == (2, copy, 0)
    assert done.aside is not None
    assert (done.aside / "book.sqlite").read_bytes() == former
    # And a checked copy of the present book was made before.
    assert done.saved is not None
    assert done.saved.why is Why.RESTORE
    assert customers(done.saved.path) == 3
    assert not is_pending(closed)
    assert not staged_file(closed).exists()
    open_book(closed).close()


def test_a_restore_can_be_taken_back_by_restoring_what_was_saved(closed: Path, copy: Copy) -> None:
    saved = restore(closed, copy.path, NOW).saved
    assert saved is not None
    restore(closed, saved.path, NOW)
    assert customers(closed) == 3


def test_any_date_can_be_picked(closed: Path, copy: Copy) -> None:
    dates = [THEN.replace(day=day) for day in (1, 4, 7)]
    for number, day in enumerate(dates):
        with closing(sqlite3.connect(closed)) as connection:
            connection.execute("INSERT INTO number_series (name, next) VALUES (?, 1)", (f"n{number}",))
            connection.commit()
        back_up(closed, copies_folder(closed), day, Why.CLOSING)
    found = list_copies(copies_folder(closed))
    assert [c.made_at for c in found] == sorted([THEN, *dates], reverse=True)
    assert all(c.checked and c.jobs == 2 and c.last_at is not None for c in found)
    restore(closed, next(c.path for c in found if c.made_at == dates[1]), NOW)
    with closing(sqlite3.connect(closed)) as connection:
        assert (
            connection.execute("SELECT count(*) FROM number_series WHERE name LIKE 'n%'").fetchone()[0] == 2
        )


def test_a_damaged_present_book_is_replaced_and_kept(closed: Path, copy: Copy) -> None:
    broken = damage(closed)
    done = restore(closed, copy.path, NOW)
    assert done.saved is None
    assert done.not_saved is not None
    assert done.aside is not None
    assert (done.aside / "book.sqlite").read_bytes() == broken
    assert customers(closed) == 2


def test_a_missing_present_book_is_simply_put_back(closed: Path, copy: Copy) -> None:
    closed.unlink()
    done = restore(closed, copy.path, NOW)
    assert (done.aside, done.saved, done.not_saved) == (None, None, None)
    assert customers(closed) == 2


def test_a_file_that_is_no_book_is_kept_aside_too(closed: Path, copy: Copy) -> None:
    closed.write_bytes(b"overwritten by something")
    done = restore(closed, copy.path, NOW)
    assert done.aside is not None
    assert (done.aside / "book.sqlite").read_bytes() == b"overwritten by something"


@pytest.mark.parametrize("end", JOURNALS)
def test_a_journal_of_the_former_book_is_moved_along_and_never_replayed(
    closed: Path, copy: Copy, end: str
) -> None:
    damage(closed)
    journal = closed.with_name(f"book.sqlite{end}")
    journal.write_bytes(b"stale journal of the former book")
    done = restore(closed, copy.path, NOW)
    assert done.aside is not None
    assert (done.aside / journal.name).read_bytes() == b"stale journal of the former book"
    assert not journal.exists()
    open_book(closed).close()
    assert hash_of(closed) == copy.sha256


def test_a_hot_journal_belongs_to_the_book_it_lies_beside(closed: Path, copy: Copy) -> None:
    """A writer was killed in the midst of a big change: the copy made before the restore has it rolled back."""
    with closing(sqlite3.connect(closed, isolation_level=None)) as writer:
        writer.execute("PRAGMA cache_size = 1")  # pages reach the file before the commit
        writer.execute("BEGIN IMMEDIATE")
        for number in range(300):
            writer.execute(
                "INSERT INTO customers (name, phone, phone_digits, email, street, postcode, city, country, vat_id,"
                " ring_when, language, note, created_at, version) VALUES (?, '', '', '', '', '', '', '', '', '',"
                " '', ?, 0, 1)",
                (str(number), "x" * 3000),
            )
        for file in (closed, closed.with_name("book.sqlite-journal")):
            shutil.copyfile(file, file.with_name(f"killed-{file.name}"))
        writer.execute("ROLLBACK")
    for name in ("book.sqlite", "book.sqlite-journal"):
        closed.with_name(f"killed-{name}").replace(closed.with_name(name))
    assert b"x" * 3000 in closed.read_bytes()
    done = restore(closed, copy.path, NOW)
    assert done.saved is not None
    assert customers(done.saved.path) == 3
    assert customers(closed) == 2


def test_files_that_the_copy_names_come_with_it(closed: Path, copy: Copy) -> None:
    files = closed.with_name("book.files")
    kept = sorted(path.name for path in files.glob("??/*"))
    shutil.rmtree(files)
    assert restore(closed, copy.path, NOW).files_lacking == 0
    assert sorted(path.name for path in files.glob("??/*")) == kept


def test_a_file_damaged_beside_the_book_is_put_right_by_the_copys(closed: Path, copy: Copy) -> None:
    files = closed.with_name("book.files")
    victim = next(iter(files.glob("??/*")))
    size = victim.stat().st_size
    victim.write_bytes(b"x" * size)  # of the same length
    assert restore(closed, copy.path, NOW).files_lacking == 0
    assert hash_of(victim) == victim.name


def test_files_that_nobody_has_are_counted(closed: Path, copy: Copy) -> None:
    shutil.rmtree(closed.with_name("book.files"))
    shutil.rmtree(copy.path.parent / "files")
    assert restore(closed, copy.path, NOW).files_lacking == 4


def refused(closed: Path, copy_path: Path) -> Refusal:
    """The restore is refused with a next step, and the shop's folder is as it was."""
    before = snapshot_of(closed.parent)
    with pytest.raises(Refusal) as told:
        restore(closed, copy_path, NOW)
    after = snapshot_of(closed.parent)
    assert {name: data for name, data in after.items() if not name.endswith(".open")} == {
        name: data for name, data in before.items() if not name.endswith(".open")
    }
    assert told.value.next_step is not None
    return told.value


def test_a_copy_with_one_changed_text_byte_is_found_by_its_sum(closed: Path, copy: Copy) -> None:
    data = copy.path.read_bytes()
    at = data.index(b"look 1") if b"look 1" in data else data.index(b"maker 1")
    copy.path.write_bytes(data[:at] + b"M" + data[at + 1 :])
    # SQLite's own check sees nothing wrong with it.
    with closing(sqlite3.connect(copy.path)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
    assert examine(copy.path).found == ()
    assert "not sound" in refused(closed, copy.path).sentence.key


@pytest.mark.parametrize(
    ("key", "value"),
    [("sha256", "0" * 64), ("rows", {"jobs": 5}), ("chain", {"rows": 1, "head": "x", "first": "y"})],
)
def test_a_copy_unlike_what_its_sidecar_said_is_refused(
    closed: Path, copy: Copy, key: str, value: object
) -> None:
    told = json.loads(sidecar_of(copy.path).read_text())
    sidecar_of(copy.path).write_text(json.dumps({**told, key: value}))
    refused(closed, copy.path)


def test_a_copy_without_a_sidecar_is_checked_as_far_as_it_tells_of_itself(closed: Path, copy: Copy) -> None:
    sidecar_of(copy.path).unlink()
    done = restore(closed, copy.path, NOW)
    assert not done.copy.checked
    assert customers(closed) == 2


@pytest.mark.parametrize("content", [b"", b"not a book", bytes(10_000)])
def test_a_copy_that_is_no_book_is_refused(closed: Path, tmp_path: Path, content: bytes) -> None:
    stranger = tmp_path / "stranger.sqlite"
    stranger.write_bytes(content)
    refused(closed, stranger)


def test_a_copy_that_is_not_there_is_refused(closed: Path, tmp_path: Path) -> None:
    assert "cannot be read" in refused(closed, tmp_path / "gone.sqlite").sentence.key


def test_a_cut_or_damaged_copy_is_refused(closed: Path, copy: Copy) -> None:
    whole = copy.path.read_bytes()
    copy.path.write_bytes(whole[:-4096])
    refused(closed, copy.path)
    copy.path.write_bytes(whole)
    damage(copy.path)
    refused(closed, copy.path)


def test_the_book_itself_is_no_copy(closed: Path) -> None:
    assert "the book itself" in refused(closed, closed).sentence.key


def test_a_book_open_in_a_window_is_not_replaced(closed: Path, copy: Copy) -> None:
    book = open_book(closed)
    try:
        with pytest.raises(BookRefused, match="another window"):
            restore(closed, copy.path, NOW)
    finally:
        book.close()


def test_a_book_that_a_command_reads_is_not_replaced_meanwhile(closed: Path, copy: Copy) -> None:
    peek = read_book(closed)
    try:
        refused(closed, copy.path)
    finally:
        peek.close()
    alone = PlaceLock(closed, alone=True)
    alone.take()
    try:
        with pytest.raises(BookRefused, match="Another command"):
            read_book(closed)
    finally:
        alone.release()


def test_no_room_for_the_copy_is_said_first(
    closed: Path, copy: Copy, monkeypatch: pytest.MonkeyPatch
) -> None:
    from types import SimpleNamespace

    free = iter([10**9, 5])
    monkeypatch.setattr(shutil, "disk_usage", lambda place: SimpleNamespace(free=next(free)))
    assert "no room" in refused(closed, copy.path).sentence.key


def test_two_restores_of_one_second_put_two_books_aside(closed: Path, copy: Copy) -> None:
    first, second = (restore(closed, copy.path, NOW).aside for _ in range(2))
    assert first != second
    assert first is not None
    assert customers(first / "book.sqlite") == 3
