"""Connections to a book: pragmas, journal mode by SQLite version, and transactions that really roll back."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.pool import NullPool, QueuePool

BUSY_SECONDS = 10
DRAFT_CACHE = 64 * 1024  # KiB of pages that a draft keeps in memory, so that most are written once
WRITER = "spindlebook_writer"  # execution option: BEGIN IMMEDIATE instead of BEGIN


def wal_is_safe(version: tuple[int, int, int]) -> bool:
    """Whether this SQLite has the fix of the WAL-reset fault: 3.44.6, 3.50.7, and 3.51.3 on.

    Source: sqlite.org/wal.html, section on the WAL-reset bug; two writers could lose commits before.
    """
    if version >= (3, 51, 3):
        return True
    return any(version[:2] == fixed[:2] and version >= fixed for fixed in ((3, 44, 6), (3, 50, 7)))


def journal_mode() -> str:
    """``wal`` where this SQLite is fixed, else ``delete``."""
    return "wal" if wal_is_safe(sqlite3.sqlite_version_info) else "delete"


def prepare(connection: sqlite3.Connection, *, write: bool = True, foreign_keys: bool = True) -> None:
    """Set what every connection to a book must have. Only outside a transaction."""
    connection.isolation_level = None  # we say BEGIN ourselves; the driver's own way commits behind our back
    cursor = connection.cursor()
    cursor.execute(f"PRAGMA foreign_keys = {'ON' if foreign_keys else 'OFF'}")
    cursor.execute("PRAGMA trusted_schema = OFF")
    cursor.execute("PRAGMA cell_size_check = ON")
    cursor.execute("PRAGMA synchronous = FULL")
    cursor.execute(f"PRAGMA busy_timeout = {BUSY_SECONDS * 1000}")
    if write:
        cursor.execute(f"PRAGMA journal_mode = {journal_mode()}")
        cursor.execute("PRAGMA fullfsync = ON")
    cursor.close()


def sqlite_engine(path: Path, *, foreign_keys: bool = True, draft: bool = False) -> Engine:
    """An engine on the file at ``path``, which must exist: a missing one is an error, never a new book.

    Only an upgrade works without foreign keys, and checks them afterwards. A ``draft`` is a book that is being
    built and that nobody relies on yet: its commits do not wait for the disk.
    """

    def connect() -> sqlite3.Connection:
        uri = f"{path.absolute().as_uri()}?mode=rw"
        connection = sqlite3.connect(uri, uri=True, timeout=BUSY_SECONDS, check_same_thread=False)
        with _closed_on_failure(connection):
            prepare(connection, foreign_keys=foreign_keys)
            if draft:
                connection.execute("PRAGMA journal_mode = MEMORY")
                connection.execute("PRAGMA synchronous = OFF")
                connection.execute(f"PRAGMA cache_size = {-DRAFT_CACHE}")
        return connection

    engine = create_engine("sqlite://", creator=connect, poolclass=QueuePool, pool_size=4, max_overflow=8)
    event.listen(engine, "begin", _begin)
    return engine


def sealed_engine(path: Path) -> Engine:
    """An engine on a closed file that nobody writes: it takes no lock, heeds no journal, changes no byte."""

    def connect() -> sqlite3.Connection:
        uri = f"{path.absolute().as_uri()}?mode=ro&immutable=1"
        connection = sqlite3.connect(uri, uri=True, check_same_thread=False)
        with _closed_on_failure(connection):
            prepare(connection, write=False)
        return connection

    return create_engine("sqlite://", creator=connect, poolclass=NullPool)


@contextmanager
def _closed_on_failure(connection: sqlite3.Connection) -> Iterator[None]:
    """A damaged file refuses the first statement; its connection must not stay open behind the refusal."""
    try:
        yield
    except BaseException:
        connection.close()
        raise


def _begin(connection: Connection) -> None:
    options: Any = connection.get_execution_options()
    connection.exec_driver_sql("BEGIN IMMEDIATE" if options.get(WRITER) else "BEGIN")
