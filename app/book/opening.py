"""Opens books: looks before it touches, refuses in one sentence, upgrades what is older."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from contextlib import closing
from functools import partial
from pathlib import Path

from app.book.copies import copies_folder, list_copies
from app.book.disk import flush_file, flush_folder, journals_of, remove_with_journals
from app.book.door import Book, Clock, Settle, system_clock
from app.book.engine import BUSY_SECONDS, WRITER, sqlite_engine
from app.book.file_header import SCHEMA, read_header
from app.book.lock import PlaceLock, WindowLock, open_elsewhere
from app.book.office.shop_settings import settings_of
from app.book.places import check_folder, check_place, is_address
from app.book.schema import make_schema
from app.book.swap import finish, is_pending
from app.trade.refusal import BookRefused, Fault, Refusal, Way
from app.trade.sentence import Sentence
from app.trade.settings.papers_and_days import TIME_ZONE


def check_file(path: Path) -> int:
    """The schema ordinal of the book at ``path``, from its bytes alone. Raises BookRefused; opens nothing."""
    if is_address(path):
        raise BookRefused(
            Sentence("A book on a database server cannot be opened yet."),
            Sentence("Give the path of a book file instead."),
        )
    check_folder(path)
    if not path.exists():
        raise BookRefused(
            Sentence("There is no book at {path}.", {"path": str(path)}),
            Sentence("Look whether the drive is plugged in, or restore a copy."),
            ways=(Way.RESTORE,),
        )
    try:
        header = read_header(path)
    except OSError as error:
        raise BookRefused(
            Sentence(
                "{path} cannot be read: {why}.", {"path": str(path), "why": error.strerror or str(error)}
            ),
            Sentence("Choose another book, or ask who may read this one."),
            ways=(Way.ANOTHER_BOOK,),
        ) from error
    if header.size == 0 or not header.is_sqlite:
        raise BookRefused(
            Sentence("{path} is not a Spindlebook book.", {"path": str(path)}),
            Sentence("Choose another book, or restore a copy."),
            ways=(Way.ANOTHER_BOOK, Way.RESTORE),
        )
    if not header.ours:
        raise BookRefused(
            Sentence("{path} belongs to another program.", {"path": str(path)}),
            Sentence("Choose another book."),
            ways=(Way.ANOTHER_BOOK,),
        )
    if header.schema > SCHEMA:
        raise BookRefused(
            Sentence("{path} was written by a newer Spindlebook.", {"path": str(path)}),
            Sentence("Install the newer program on this computer. The book was not touched."),
        )
    # A journal left by a kill may be about to put the file's length right.
    if not header.whole and not journals_of(path):
        raise damaged(path)
    return header.schema


def damaged(path: Path) -> BookRefused:
    """The refusal of a damaged book."""
    return BookRefused(
        Sentence("{path} is damaged and was not opened.", {"path": str(path)}),
        Sentence("Restore the newest copy. The damaged file is kept."),
        ways=(Way.RESTORE,),
    )


def make_book(path: Path) -> None:
    """Make a new, empty book. Raises BookRefused where it cannot live or something lies there already."""
    check_place(path)
    if path.exists():
        raise BookRefused(
            Sentence("{path} exists already.", {"path": str(path)}),
            Sentence("Open it, or choose another name."),
        )
    fresh = path.with_name(f"{path.name}.new")
    remove_with_journals(fresh)  # of a making that was cut off
    sqlite3.connect(fresh).close()
    engine = sqlite_engine(fresh)
    try:
        with engine.execution_options(**{WRITER: True}).begin() as connection:
            make_schema(connection)
    finally:
        engine.dispose()
    fresh.replace(path)
    flush_folder(path.parent)


def open_book(
    path: Path,
    *,
    clock: Clock = system_clock,
    settle: Sequence[Settle] = (),
    make: bool = False,
    draft: bool = False,
) -> Book:
    """Open the book for work, holding its window lock.

    ``make`` makes an empty one when the file is not there and its folder is; ``settle`` are the steps the
    door takes at the end of every action (flags, search index). A ``draft`` is on the disk only once it is
    closed: for a book that a program builds, never for one that people write in. Raises BookRefused.
    """
    path = _real(path)
    if WindowLock.held_here(path):
        raise open_elsewhere()
    if not is_pending(path):  # else the file may be anywhere; `finish` puts it right, under the lock
        if make and not is_address(path) and not path.exists():
            _no_copies_beside(path)
            make_book(path)
        check_file(path)
    check_place(path)
    lock = WindowLock(path)
    lock.take()
    try:
        finish(path)
        if check_file(path) < SCHEMA:
            from app.book.upgrade import upgrade

            upgrade(path, clock())
        if not lock.clean:
            _check_whole(path)
        if draft:
            from app.book.draft import DraftBook

            book: Book = DraftBook(
                sqlite_engine(path, draft=True), path, clock, settle, partial(_finish_draft, path, lock)
            )
        else:
            book = Book(sqlite_engine(path), path, clock, settle, lock.release)
    except BaseException:
        lock.release(in_order=False)
        raise
    return _take_up(book)


def _finish_draft(path: Path, lock: WindowLock) -> None:
    flush_file(path)
    flush_folder(path.parent)
    lock.release()


def read_book(path: Path, *, clock: Clock = system_clock) -> Book:
    """Open the book beside a window, for asking only (backup, check, export, paper). Raises BookRefused."""
    path = _real(path)
    if is_pending(path):
        raise BookRefused(
            Sentence("A restore of {path} was cut off.", {"path": str(path)}),
            Sentence("Open the book once in the program, which finishes it."),
        )
    if not WindowLock.held_here(path) and check_file(path) < SCHEMA:
        raise BookRefused(
            Sentence("{path} is from an older Spindlebook.", {"path": str(path)}),
            Sentence("Open it once in the program, which makes a copy and upgrades it."),
        )
    lock = PlaceLock(path, alone=False)
    lock.take()
    return _take_up(Book(sqlite_engine(path), path, clock, (), lock.release))


def _real(path: Path) -> Path:
    """The file itself where ``path`` is a link: lock, journals and copies belong beside the file."""
    return path.resolve() if path.is_symlink() else path


def _no_copies_beside(path: Path) -> None:
    """A book that is gone while its copies are there is not replaced by an empty one."""
    if copies := list_copies(copies_folder(path)):
        raise BookRefused(
            Sentence(
                "There is no book at {path}, but copies of it are in {folder}.",
                {"path": str(path), "folder": str(copies_folder(path))},
            ),
            Sentence("Restore the newest copy, {copy}.", {"copy": str(copies[0].path)}),
            ways=(Way.RESTORE,),
        )


def _take_up(book: Book) -> Book:
    """Read what the book itself says of how it is to be read. Raises BookRefused; then the book is closed."""
    try:
        _use_zone(book)
    except BaseException as error:
        book.close()
        if isinstance(error, BookRefused):
            raise
        if isinstance(error, Refusal):
            raise BookRefused(error.sentence, error.next_step) from error
        if isinstance(error, Fault | ValueError):  # what comes out of a damaged file may be no text
            raise damaged(book.path) from error
        raise
    return book


def _check_whole(path: Path) -> None:
    """After a run that ended without closing: the full check, before anything is shown."""
    uri = f"{path.absolute().as_uri()}?mode=rw"
    try:
        with closing(sqlite3.connect(uri, uri=True, timeout=BUSY_SECONDS)) as connection:
            connection.execute("PRAGMA trusted_schema = OFF")
            found = connection.execute("PRAGMA integrity_check(1)").fetchone()[0]
    except (sqlite3.DatabaseError, UnicodeDecodeError) as error:
        raise damaged(path) from error
    if found != "ok":
        raise damaged(path)


def _use_zone(book: Book) -> None:
    from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

    with book.ask() as session:
        name = settings_of(session)[TIME_ZONE]
    try:
        book.use_zone(ZoneInfo(name))
    except ZoneInfoNotFoundError as error:
        raise BookRefused(
            Sentence("The time zone {zone} of the settings is not known on this computer.", {"zone": name}),
            Sentence("Update Spindlebook, which brings the list of time zones with it."),
        ) from error
