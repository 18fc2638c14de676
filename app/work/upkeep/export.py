"""Taking everything out in open formats."""

from __future__ import annotations

from pathlib import Path

from app.book.door import Book
from app.book.export import Watch, export_book

__all__ = ["export_everything"]


def export_everything(book: Book, folder: Path, *, watch: Watch = lambda table: None) -> tuple[Path, ...]:
    """One CSV per table and one JSON, into ``folder``. Gives the files. Raises Refusal."""
    return export_book(book, folder, watch)
