"""Copies: one step, fully checked, named last; a kill at any step leaves no half copy and a whole book."""

from __future__ import annotations

import json
import os
import shutil
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from types import SimpleNamespace

import pytest

from app.book import backup
from app.book.attachments import place_of
from app.book.backup import Why, back_up, make_copy
from app.book.chain import chain_end
from app.book.copies import list_copies, read_copy, sidecar_of
from app.book.copy_state import read_state, state_file
from app.book.disk import hash_of
from app.book.door import Book
from app.book.engine import WRITER
from app.book.lock import CopiesLock
from app.book.soundness import examine
from app.book.tables import Attachment, Customer
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from tests.book.children import ENDED
from tests.book.conftest import Children

NOW = datetime(2026, 3, 12, 9, 30, tzinfo=UTC)
STEPS = ("copied", "checked", "files", "sidecar", "named")
WHY = Sentence("tried")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "copies"


def test_a_copy_is_the_book_and_its_sidecar_says_what_is_inside(book: Book, folder: Path) -> None:
    copy = back_up(book.path, folder, NOW, Why.BY_HAND)
    assert copy.path.name == "book-20260312T093000Z.sqlite"
    told = json.loads(sidecar_of(copy.path).read_text())
    with book.ask() as session:
        rows, head = chain_end(session.connection())
    assert told["chain"]["rows"] == rows
    assert told["chain"]["head"] == head
    assert told["sha256"] == hash_of(copy.path)
    assert told["rows"]["jobs"] == 2
    assert (copy.jobs, copy.history_rows, copy.checked, copy.made_at) == (2, rows, True, NOW)
    sound = examine(copy.path)
    assert sound.found == ()
    assert sound.rows == copy.rows
    assert read_copy(copy.path) == copy
    assert sorted(p.name for p in folder.iterdir()) == [
        "book-20260312T093000Z.sqlite",
        "book-20260312T093000Z.sqlite.json",
        "copies.lock",
        "files",
    ]


def test_two_copies_of_one_second_have_two_names(book: Book, folder: Path) -> None:
    first, second = (back_up(book.path, folder, NOW, Why.BY_HAND) for _ in range(2))
    assert first.path != second.path
    assert [copy.path for copy in list_copies(folder)] == [second.path, first.path]


def test_files_are_copied_once_by_their_hash(book: Book, folder: Path) -> None:
    back_up(book.path, folder, NOW, Why.BY_HAND)
    files = {path: path.stat().st_mtime_ns for path in (folder / "files").glob("??/*")}
    assert len(files) == 4  # two photos, two papers
    assert all(hash_of(path) == path.name for path in files)
    back_up(book.path, folder, NOW, Why.BY_HAND)
    assert {path: path.stat().st_mtime_ns for path in (folder / "files").glob("??/*")} == files


def test_a_file_that_is_missing_is_counted_and_the_copy_is_made_all_the_same(
    book: Book, folder: Path
) -> None:
    with book.ask() as session:
        sha256 = session.get_one(Attachment, 1).sha256
    place_of(book.files, sha256).unlink()
    copy = back_up(book.path, folder, NOW, Why.BY_HAND)
    assert copy.files_lacking == 1
    assert read_state(book.path).lacking == 1


def test_a_file_damaged_beside_the_book_does_not_reach_the_copy(book: Book, folder: Path) -> None:
    with book.ask() as session:
        sha256 = session.get_one(Attachment, 1).sha256
    place_of(book.files, sha256).write_bytes(b"damaged")
    assert back_up(book.path, folder, NOW, Why.BY_HAND).files_lacking == 1
    assert not place_of(folder / "files", sha256).exists()
    assert not list((folder / "files").rglob("*.part"))


def test_a_copy_made_in_the_midst_of_a_change_holds_none_of_it(book: Book, folder: Path) -> None:
    with book.change(None, WHY) as change:
        change.add(Customer(name="not saved yet", created_at=change.now))
        copy = back_up(book.path, folder, NOW, Why.BY_HAND)
    assert copy.rows["customers"] == 2


def test_a_book_in_wal_mode_is_copied_whole_into_one_plain_file(closed: Path, folder: Path) -> None:
    with closing(sqlite3.connect(closed, isolation_level=None)) as connection:
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute("INSERT INTO number_series (name, next) VALUES ('in the log', 1)")
        assert closed.with_name("book.sqlite-wal").stat().st_size > 0
        copy = back_up(closed, folder, NOW, Why.BY_HAND)
    assert copy.rows["number_series"] == 2
    assert not list(folder.glob("*-wal"))
    with closing(sqlite3.connect(copy.path)) as connection:
        assert connection.execute("PRAGMA journal_mode").fetchone()[0] == "delete"
        assert connection.execute("PRAGMA integrity_check").fetchone()[0] == "ok"


@pytest.mark.parametrize("step", STEPS)
def test_a_kill_at_any_step_leaves_the_book_and_no_half_copy(
    closed: Path, folder: Path, children: Children, step: str
) -> None:
    before = closed.read_bytes()
    assert children.run("back_up_until", closed, folder, step) == ENDED
    assert closed.read_bytes() == before
    named = list_copies(folder)
    assert len(named) == (1 if step == "named" else 0)
    assert all(copy.checked and examine(copy.path).found == () for copy in named)
    # The next copy clears what was left and is whole.
    copy = back_up(closed, folder, NOW, Why.BY_HAND)
    assert examine(copy.path).found == ()
    left = {path.name for path in folder.iterdir()} - {"copies.lock", "files"}
    assert left == {c.path.name for c in list_copies(folder)} | {
        sidecar_of(c.path).name for c in list_copies(folder)
    }


def test_sweeping_leaves_other_peoples_files_alone(book: Book, folder: Path) -> None:
    folder.mkdir()
    theirs = [
        folder / name for name in ("film.sqlite.part", "list.sqlite.json", "notes.json.part", "a.sqlite")
    ]
    for path in theirs:
        path.write_text("mine")
    back_up(book.path, folder, NOW, Why.BY_HAND)
    assert all(path.read_text() == "mine" for path in theirs)
    assert len(list_copies(folder)) == 1


def test_writers_go_on_during_copies_and_each_copy_is_one_moment(
    tmp_path: Path, folder: Path, children: Children
) -> None:
    from app.book.opening import make_book

    path, acks = tmp_path / "book.sqlite", tmp_path / "acks"
    make_book(path)
    os.mkfifo(acks)
    pid = children.begin("write_jobs", path, acks)
    with acks.open("rb", buffering=0) as pipe:
        before = int(pipe.readline())
        for _ in range(4):
            copy = make_copy(path, folder, NOW, Why.BY_HAND)
            after = int(pipe.readline())
            # Whole jobs only, none that was acknowledged before is missing, and the writer went on.
            assert before <= copy.jobs
            assert copy.rows["customers"] == copy.rows["units"] == copy.rows["messages"] == copy.jobs
            assert copy.history_rows == 1 + 4 * copy.jobs
            assert after > before
            before = after
        os.kill(pid, 9)
        children.wait(pid)
        while pipe.read(4096):
            pass


def test_a_writer_in_the_way_is_waited_for_only_so_long(
    book: Book, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(backup, "BUSY_SECONDS", 0.05)
    with book.engine.execution_options(**{WRITER: True}).connect() as connection:
        connection.exec_driver_sql("PRAGMA locking_mode = EXCLUSIVE")
        connection.exec_driver_sql("CREATE TABLE passing (x INTEGER)")
        connection.commit()
        with pytest.raises(Refusal, match="cannot be copied"):
            back_up(book.path, folder, NOW, Why.BY_HAND)
        connection.exec_driver_sql("PRAGMA locking_mode = NORMAL")
        connection.exec_driver_sql("DROP TABLE passing")
        connection.commit()


def test_a_damaged_book_gets_no_copy_and_says_so_until_one_succeeds(closed: Path, folder: Path) -> None:
    good = closed.read_bytes()
    with closing(sqlite3.connect(closed)) as connection:
        page = connection.execute("SELECT rootpage FROM sqlite_master WHERE name = 'readings'").fetchone()[0]
    with closed.open("rb+") as file:
        file.seek((page - 1) * 4096)
        file.write(b"\xff" * 4096)
    with pytest.raises(Refusal) as told:
        back_up(closed, folder, NOW, Why.BY_HAND)
    assert list_copies(folder) == []
    state = read_state(closed)
    assert (state.failure, state.failed_at) == (told.value.sentence, NOW)
    assert state.next_step == told.value.next_step
    closed.write_bytes(good)
    back_up(closed, folder, NOW, Why.BY_HAND)
    assert read_state(closed).failure is None


def test_a_text_changed_past_the_chain_is_found_before_a_copy_gets_its_name(
    closed: Path, folder: Path
) -> None:
    with closing(sqlite3.connect(closed)) as connection:
        connection.execute("DROP TRIGGER tr_history_texts_blank_only")
        connection.execute("UPDATE history_texts SET text = 'x' WHERE id = 3")
        connection.commit()
    with pytest.raises(Refusal, match="not sound"):
        back_up(closed, folder, NOW, Why.BY_HAND)


def test_no_room_is_said_before_anything_is_written(
    book: Book, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder.mkdir()
    monkeypatch.setattr(shutil, "disk_usage", lambda place: SimpleNamespace(free=5))
    with pytest.raises(Refusal, match="no room"):
        back_up(book.path, folder, NOW, Why.BY_HAND)
    assert list(folder.glob("book-*")) == []


def test_a_folder_on_a_drive_that_is_gone_is_not_made(book: Book, tmp_path: Path) -> None:
    with pytest.raises(Refusal, match="no folder"):
        back_up(book.path, tmp_path / "stick" / "copies", NOW, Why.BY_HAND)
    assert not (tmp_path / "stick").exists()
    assert read_state(book.path).failure is not None


def test_a_disk_that_fails_while_writing_leaves_nothing_half(
    book: Book, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(path: Path) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(backup, "flush_file", broken)
    with pytest.raises(Refusal, match="No space left"):
        back_up(book.path, folder, NOW, Why.BY_HAND)
    assert list(folder.glob("book-*")) == []


def test_one_copy_at_a_time_in_one_folder(book: Book, folder: Path) -> None:
    folder.mkdir()
    with CopiesLock(folder), pytest.raises(Refusal, match="Another copy"):
        back_up(book.path, folder, NOW, Why.BY_HAND)


def test_a_sidecar_that_does_not_fit_promises_nothing(book: Book, folder: Path) -> None:
    copy = back_up(book.path, folder, NOW, Why.BY_HAND)
    for text in ("", "[]", "{}", "no json", json.dumps({"made_at": "2026-01-01T00:00:00"})):
        sidecar_of(copy.path).write_text(text)
        assert not read_copy(copy.path).checked
        assert read_copy(copy.path).made_at == NOW  # by its name
    sidecar_of(copy.path).unlink()
    assert [c.checked for c in list_copies(folder)] == [False]


def test_a_copy_under_another_name_is_dated_by_its_file(book: Book, folder: Path, tmp_path: Path) -> None:
    copy = back_up(book.path, folder, NOW, Why.BY_HAND)
    for name in ("given.sqlite", "book-20269999T999999Z.sqlite"):
        other = tmp_path / name
        other.write_bytes(copy.path.read_bytes())
        os.utime(other, (1_750_000_000, 1_750_000_000))
        assert read_copy(other).made_at == datetime.fromtimestamp(1_750_000_000, UTC)


def test_a_state_file_that_cannot_be_read_counts_as_none(book: Book) -> None:
    for text in ("", "{}", "[1]", json.dumps({"last_good_at": "2026-01-01T00:00:00", "last_good": ""})):
        state_file(book.path).write_text(text)
        assert read_state(book.path).last_good_at is None


def test_a_naive_instant_in_a_state_file_is_no_instant(book: Book, folder: Path) -> None:
    back_up(book.path, folder, NOW, Why.BY_HAND)
    told = json.loads(state_file(book.path).read_text())
    told["last_good_at"] = "2026-03-12T09:30:00"
    state_file(book.path).write_text(json.dumps(told))
    assert read_state(book.path).last_good_at is None


def test_a_folder_that_is_not_there_has_no_copies(tmp_path: Path) -> None:
    assert list_copies(tmp_path / "nowhere") == []
