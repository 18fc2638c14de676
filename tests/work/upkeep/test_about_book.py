"""What the book says of itself."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from typing import Any

from app.work.upkeep.about_book import about_book


def test_it_tells_where_it_lies_and_what_keeps_it(shop: Any) -> None:
    told = about_book(shop.book)
    assert told.path == shop.path
    assert (told.files.name, told.copies.name) == ("book.files", "book.copies")
    assert told.size == shop.path.stat().st_size
    assert told.sqlite == sqlite3.sqlite_version
    with closing(sqlite3.connect(shop.path)) as beside:
        assert told.journal == beside.execute("PRAGMA journal_mode").fetchone()[0]
    assert told.history_rows > 0
    assert told.schema >= 1
