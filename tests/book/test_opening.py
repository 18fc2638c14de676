"""Opening: each thing that can be wrong gets one sentence with the next step, and the file stays as it was."""

from __future__ import annotations

import os
import random
import shutil
import sqlite3
import struct
import sys
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from app.book import places
from app.book.engine import wal_is_safe
from app.book.file_header import APPLICATION_ID, SCHEMA, read_header
from app.book.lock import OpenElsewhere, WindowLock
from app.book.opening import check_file, make_book, open_book, read_book
from app.book.places import is_address, mount_type
from app.book.swap import marker_file
from app.trade.refusal import BookRefused
from app.trade.sentence import Sentence
from tests.book.conftest import Children, snapshot_of


def refused(path: Path, **options: Any) -> BookRefused:
    """Opening is refused, with a next step, and no byte of the folder changes but that of a lock."""
    before = snapshot_of(path.parent) if path.parent.is_dir() else {}
    with pytest.raises(BookRefused) as told:
        open_book(path, **options)
    after = snapshot_of(path.parent) if path.parent.is_dir() else {}
    after.pop(f"{path.name}.open", None)
    before.pop(f"{path.name}.open", None)
    assert after == before
    assert told.value.next_step is not None
    return told.value


def test_a_new_book_is_made_only_where_it_was_asked_for(tmp_path: Path) -> None:
    path = tmp_path / "book.sqlite"
    assert "no book" in refused(path).sentence.key
    assert not path.exists()
    book = open_book(path, make=True)
    book.close()
    header = read_header(path)
    assert (header.ours, header.schema, header.whole) == (True, SCHEMA, True)
    open_book(path).close()


@pytest.mark.parametrize("make", [False, True])
def test_a_missing_folder_is_never_made(tmp_path: Path, make: bool) -> None:
    path = tmp_path / "unplugged" / "book.sqlite"
    assert refused(path, make=make).sentence == Sentence(
        "There is no folder {folder}.", {"folder": str(path.parent)}
    )
    assert not path.parent.exists()


def test_a_new_book_never_replaces_anything(closed: Path) -> None:
    before = closed.read_bytes()
    with pytest.raises(BookRefused, match="exists already"):
        make_book(closed)
    assert closed.read_bytes() == before


def test_a_book_that_is_gone_is_not_replaced_by_an_empty_one_beside_its_copies(
    closed: Path, children: Children
) -> None:
    folder = closed.with_name("book.copies")
    assert children.run("back_up_until", closed, folder, "never") == 0
    closed.unlink()
    assert "copies of it" in refused(closed, make=True).sentence.key
    assert not closed.exists()


def test_what_a_making_that_was_cut_off_left_is_cleared(tmp_path: Path) -> None:
    (tmp_path / "book.sqlite.new").write_bytes(b"half")
    (tmp_path / "book.sqlite.new-journal").write_bytes(b"half a journal")
    open_book(tmp_path / "book.sqlite", make=True).close()
    assert not list(tmp_path.glob("*.new*"))


@pytest.mark.parametrize(
    "content", [b"", b"SQLite", b"not a database at all" * 20, bytes(4096), b"SQLite format 3\x00" + bytes(4)]
)
def test_a_file_that_is_no_database_is_refused(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "book.sqlite"
    path.write_bytes(content)
    assert "not a Spindlebook book" in refused(path, make=True).sentence.key


def test_another_programs_database_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "book.sqlite"
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE recipes (name TEXT)")
        connection.commit()
    assert "another program" in refused(path).sentence.key


def test_a_book_of_a_newer_program_is_refused(closed: Path) -> None:
    with closing(sqlite3.connect(closed)) as connection:
        connection.execute(f"PRAGMA user_version = {SCHEMA + 1}")
    assert "newer Spindlebook" in refused(closed).sentence.key
    with pytest.raises(BookRefused, match="newer"):
        read_book(closed)


@pytest.mark.parametrize("cut", [1, 4096, 100_000])
def test_a_book_whose_end_is_missing_is_refused(closed: Path, cut: int) -> None:
    with closed.open("rb+") as file:
        file.truncate(closed.stat().st_size - cut)
    assert "damaged" in refused(closed).sentence.key


def test_a_folder_or_a_file_that_cannot_be_read_is_refused(tmp_path: Path) -> None:
    (tmp_path / "book.sqlite").mkdir()
    assert "cannot be read" in refused(tmp_path / "book.sqlite").sentence.key


def test_a_damaged_beginning_is_refused_before_anything_is_shown(closed: Path) -> None:
    with closed.open("rb+") as file:
        file.seek(100)
        file.write(os.urandom(4000))  # the first page holds the list of tables
    assert "damaged" in refused(closed).sentence.key
    with pytest.raises(BookRefused, match="damaged"):
        read_book(closed)
    if sys.platform == "linux":
        held = [link.readlink() for link in Path("/proc/self/fd").iterdir() if link.is_symlink()]
        assert closed not in held  # Windows could not put a copy in its place


def test_after_a_crash_the_whole_file_is_checked_before_it_is_shown(closed: Path) -> None:
    with closing(sqlite3.connect(closed)) as connection:
        page = connection.execute("SELECT rootpage FROM sqlite_master WHERE name = 'readings'").fetchone()[0]
    with closed.open("rb+") as file:
        file.seek((page - 1) * 4096)
        file.write(b"\xff" * 4096)
    open_book(closed).close()  # closed in order, so nothing is looked through: a backup would find it
    closed.with_name("book.sqlite.open").write_text("open 12345", encoding="ascii")
    assert "damaged" in refused(closed).sentence.key
    assert "damaged" in refused(closed).sentence.key  # and again: it is not forgotten


def test_a_whole_book_opens_after_a_crash(closed: Path) -> None:
    closed.with_name("book.sqlite.open").write_text("open 12345", encoding="ascii")
    open_book(closed).close()
    assert closed.with_name("book.sqlite.open").read_text() == "closed"


class Disk(NamedTuple):
    total: int
    used: int
    free: int


def test_a_full_disk_is_refused_at_opening(closed: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shutil, "disk_usage", lambda folder: Disk(10**9, 10**9 - 5, 5))
    refusal = refused(closed)
    assert "nearly full" in refusal.sentence.key


def test_a_file_that_may_only_be_read_is_refused(closed: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "access", lambda path, mode: not (mode == os.W_OK and path == closed))
    assert "may only be read" in refused(closed).sentence.key


def test_a_folder_that_may_only_be_read_is_refused(closed: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "access", lambda path, mode: not (mode == os.W_OK and path == closed.parent))
    assert "may only be read" in refused(closed).sentence.key


@pytest.mark.skipif(os.name != "posix" or os.geteuid() != 0, reason="needs another person's account")
def test_somebody_who_may_not_write_is_refused_by_the_system_itself(closed: Path, children: Children) -> None:
    folder = closed.parent
    closed.chmod(0o644)
    folder.chmod(0o555)
    for above in (folder.parent, *folder.parent.parents):
        if above.stat().st_uid == 0 and above != Path("/"):
            above.chmod(above.stat().st_mode | 0o111)
    before = snapshot_of(folder)
    assert children.run("try_to_open_as_nobody", closed) == 3
    assert snapshot_of(folder) == before


MOUNTS = """\
/dev/vda / ext4 rw 0 0
proc /proc proc rw 0 0
//nas/shop /mnt/shop cifs rw 0 0
nas:/export /mnt/with\\040blank nfs4 rw 0 0
/dev/sdb1 /mnt/shop/stick vfat rw 0 0
"""


@pytest.mark.parametrize(
    ("folder", "kind"),
    [
        ("/", "ext4"),
        ("/home/ine", "ext4"),
        ("/mnt/shop", "cifs"),
        ("/mnt/shop/books", "cifs"),
        ("/mnt/shopping", "ext4"),
        ("/mnt/shop/stick/x", "vfat"),
        ("/mnt/with blank/x", "nfs4"),
    ],
)
def test_the_kind_of_a_folders_disk_is_that_of_its_nearest_mount(folder: str, kind: str) -> None:
    assert mount_type(Path(folder), MOUNTS) == kind


def test_a_broken_list_of_mounts_names_nothing() -> None:
    assert mount_type(Path("/home"), "garbage\n\nx y\n") == ""


@pytest.mark.parametrize("kind", ["nfs4", "cifs", "9p", "fuse.sshfs"])
def test_a_network_folder_is_refused_with_the_server_hint(
    closed: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, kind: str
) -> None:
    mounts = tmp_path / "mounts"
    mounts.write_text(f"/dev/vda / ext4 rw 0 0\nnas:/x {closed.parent.resolve()} {kind} rw 0 0\n")
    monkeypatch.setattr(places, "MOUNTS", mounts)
    refusal = refused(closed)
    assert "network drive" in refusal.sentence.key
    assert refusal.next_step is not None
    assert "PostgreSQL" in refusal.next_step.key


def test_a_server_address_gets_not_yet() -> None:
    with pytest.raises(BookRefused, match="cannot be opened yet"):
        check_file(Path("postgresql+psycopg://shop/book"))
    with pytest.raises(BookRefused, match="cannot be opened yet"):
        open_book(Path("postgresql+psycopg://shop/book"), make=True)
    assert not is_address(Path("C:/books/book.sqlite"))
    assert not is_address(Path("books/shop: one/book.sqlite"))


@pytest.fixture
def other_window(closed: Path, tmp_path: Path, children: Children) -> Iterator[Callable[[], None]]:
    """A real second process that holds the book; call it to let it close."""
    told, until = tmp_path / "told", tmp_path / "until"
    os.mkfifo(told)
    os.mkfifo(until)
    pid = children.begin("open_and_hold", closed, told, until)
    assert told.read_text() == "open"  # blocks until it is
    gone: list[int] = []

    def close() -> None:
        if not gone:
            until.open("wb").close()
            gone.append(children.wait(pid))

    yield close
    close()
    assert gone == [0]


def test_a_second_window_is_refused_until_the_first_has_closed(
    closed: Path, other_window: Callable[[], None]
) -> None:
    with pytest.raises(OpenElsewhere, match="another window"):
        open_book(closed)
    peek = read_book(closed)  # reading beside it is welcome
    peek.close()
    other_window()
    open_book(closed).close()


def test_a_second_window_of_this_process_is_refused_before_the_file_is_touched(book: Any) -> None:
    assert WindowLock.held_here(book.path)
    with pytest.raises(OpenElsewhere):
        open_book(book.path)
    read_book(book.path).close()


def test_a_killed_window_leaves_no_lock(closed: Path, tmp_path: Path, children: Children) -> None:
    import signal

    told, until = tmp_path / "told", tmp_path / "until"
    os.mkfifo(told)
    os.mkfifo(until)
    pid = children.begin("open_and_hold", closed, told, until)
    assert told.read_text() == "open"
    os.kill(pid, signal.SIGKILL)
    assert children.wait(pid) == -signal.SIGKILL
    open_book(closed).close()


def test_a_link_to_the_book_is_the_book(closed: Path, tmp_path: Path) -> None:
    link = tmp_path / "link.sqlite"
    link.symlink_to(closed)
    book = open_book(link)
    try:
        assert book.path == closed.resolve()
        with pytest.raises(OpenElsewhere):
            open_book(closed.resolve())
    finally:
        book.close()
    assert not list(tmp_path.glob("link.sqlite.*"))


def test_a_book_left_amid_a_restore_is_not_read_beside(closed: Path) -> None:
    marker_file(closed).write_text("{}")
    with pytest.raises(BookRefused, match="cut off"):
        read_book(closed)


def test_an_unknown_time_zone_is_said(closed: Path) -> None:
    from app.book.tables import SettingKept

    book = open_book(closed)
    with book.change(None, Sentence("set")) as change:
        change.add(SettingKept(key="time_zone", value="Mars/Olympus"))
    book.close()
    assert "time zone" in refused(closed).sentence.key
    open_later = WindowLock(closed)
    open_later.take()  # a refused book is let go
    open_later.release()


def test_the_journal_fits_the_version_of_the_engine() -> None:
    # sqlite.org/wal.html, "The WAL-reset bug": fixed in 3.51.3, and in 3.44.6 and 3.50.7 for those lines.
    fixed = [(3, 44, 6), (3, 44, 7), (3, 50, 7), (3, 51, 3), (3, 52, 0), (4, 0, 0)]
    faulty = [(3, 40, 1), (3, 44, 5), (3, 45, 9), (3, 50, 6), (3, 51, 2)]
    assert all(wal_is_safe(version) for version in fixed)
    assert not any(wal_is_safe(version) for version in faulty)


def test_the_header_is_read_as_the_format_says(tmp_path: Path) -> None:
    # sqlite.org/fileformat.html, section 1.3: big-endian fields at 16, 28, 60, 68; page size 1 means 65,536.
    path = tmp_path / "x"
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA page_size = 65536")
        connection.execute("CREATE TABLE t (x)")
        connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        connection.execute("PRAGMA user_version = 7")
    assert struct.unpack(">H", path.read_bytes()[16:18])[0] == 1
    header = read_header(path)
    assert (header.is_sqlite, header.ours, header.schema, header.whole) == (True, True, 7, True)
    assert header.size == path.stat().st_size


@pytest.mark.timeout(900)
def test_random_damage_is_refused_or_met_later_but_never_written_over(
    closed: Path, often: Callable[[int, int], int]
) -> None:
    whole = closed.read_bytes()
    refusals = 0
    for seed in range(often(40, 1000)):
        chance = random.Random(seed)
        broken = bytearray(whole)
        at = chance.randrange(200) if seed % 2 else chance.randrange(len(broken))
        broken[at : at + 8] = chance.randbytes(8)
        closed.write_bytes(broken)
        closed.with_name("book.sqlite.open").write_text("open 1", encoding="ascii")  # checked in full
        try:
            open_book(closed).close()
        except BookRefused:
            refusals += 1
        assert closed.read_bytes() == broken
    assert refusals > 10
