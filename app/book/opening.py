"""Opens books: looks before it touches, refuses in one sentence, upgrades what is older."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from pathlib import Path

from sqlalchemy.exc import DatabaseError

from app.book.door import Book, Clock, Settle, system_clock
from app.book.engine import WRITER, sqlite_engine
from app.book.file_header import SCHEMA, read_header
from app.book.lock import WindowLock
from app.book.office.shop_settings import settings_of
from app.book.places import check_place
from app.book.schema import make_schema
from app.trade.refusal import BookRefused
from app.trade.sentence import Sentence
from app.trade.settings.papers_and_days import TIME_ZONE


def check_file(path: Path) -> int:
    """The schema ordinal of the book at ``path``, from its bytes alone. Raises BookRefused; opens nothing."""
    if "://" in str(path):
        raise BookRefused(
            Sentence("A book on a database server cannot be opened yet."),
            Sentence("Give the path of a book file instead."),
        )
    if not path.exists():
        raise BookRefused(
            Sentence("There is no book at {path}.", {"path": str(path)}),
            Sentence("Look whether the drive is plugged in, or restore a copy."),
        )
    header = read_header(path)
    if header.size == 0 or not header.is_sqlite:
        raise BookRefused(
            Sentence("{path} is not a Spindlebook book.", {"path": str(path)}),
            Sentence("Choose another file with --book, or restore a copy."),
        )
    if not header.ours:
        raise BookRefused(
            Sentence("{path} belongs to another program.", {"path": str(path)}),
            Sentence("Choose another file with --book."),
        )
    if header.schema > SCHEMA:
        raise BookRefused(
            Sentence("{path} was written by a newer Spindlebook.", {"path": str(path)}),
            Sentence("Install the newer program on this computer. The book was not touched."),
        )
    if not header.whole:
        raise damaged(path)
    return header.schema


def damaged(path: Path) -> BookRefused:
    """The refusal of a damaged book."""
    return BookRefused(
        Sentence("{path} is damaged and was not opened.", {"path": str(path)}),
        Sentence("Restore the newest copy: spindlebook restore FILE. The damaged file is kept."),
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
    fresh.unlink(missing_ok=True)
    sqlite3.connect(fresh).close()
    engine = sqlite_engine(fresh)
    try:
        with engine.execution_options(**{WRITER: True}).begin() as connection:
            make_schema(connection)
    finally:
        engine.dispose()
    fresh.replace(path)


def open_book(
    path: Path, *, clock: Clock = system_clock, settle: Sequence[Settle] = (), make: bool = False
) -> Book:
    """Open the book for work, holding its window lock.

    ``make`` makes an empty one when the file is not there and its folder is; ``settle`` are the steps the
    door takes at the end of every action (flags, search index). Raises BookRefused.
    """
    if make and "://" not in str(path) and not path.exists():
        make_book(path)
    schema = check_file(path)
    check_place(path)
    lock = WindowLock(path)
    lock.take()
    try:
        if schema < SCHEMA:
            from app.book.upgrade import upgrade

            upgrade(path, clock)
        if not lock.clean:
            _check_whole(path)
        book = Book(sqlite_engine(path), path, clock, settle, lock.release)
        _use_zone(book)
    except DatabaseError as error:
        lock.release()
        raise damaged(path) from error
    except BaseException:
        lock.release()
        raise
    return book


def read_book(path: Path, *, clock: Clock = system_clock) -> Book:
    """Open the book beside a window, for asking only (backup, check, export, paper)."""
    if check_file(path) < SCHEMA:
        raise BookRefused(
            Sentence("{path} is from an older Spindlebook.", {"path": str(path)}),
            Sentence("Open it once in the program, which makes a copy and upgrades it."),
        )
    book = Book(sqlite_engine(path), path, clock)
    try:
        _use_zone(book)
    except DatabaseError as error:
        book.close()
        raise damaged(path) from error
    return book


def _check_whole(path: Path) -> None:
    """After a run that ended without closing: the full check, before anything is shown."""
    connection = sqlite3.connect(path.absolute().as_uri() + "?mode=rw", uri=True)
    try:
        found = connection.execute("PRAGMA integrity_check(1)").fetchone()[0]
    finally:
        connection.close()
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
