"""Where the open book lies and what it stands on, for people who look after it."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from app.book.chain import chain_end
from app.book.copies import copies_folder
from app.book.door import Book
from app.book.file_header import SCHEMA


@dataclass(frozen=True, slots=True)
class AboutBook:
    """Its file, the folders beside it, its size in bytes, and the database that keeps it.

    ``journal`` is how SQLite secures a change on this computer: ``wal`` or ``delete``.
    """

    path: Path
    files: Path
    copies: Path
    size: int
    schema: int
    history_rows: int
    sqlite: str
    journal: str


def about_book(book: Book) -> AboutBook:
    """Facts about the open book, as they are and not as they were meant to be."""
    with book.ask() as session:
        connection = session.connection()
        rows, _ = chain_end(connection)
        sqlite = connection.exec_driver_sql("SELECT sqlite_version()").scalar_one()
        journal = connection.exec_driver_sql("PRAGMA journal_mode").scalar_one()
    return AboutBook(
        path=book.path,
        files=book.files,
        copies=copies_folder(book.path),
        size=book.path.stat().st_size,
        schema=SCHEMA,
        history_rows=rows,
        sqlite=str(sqlite),
        journal=str(journal),
    )
