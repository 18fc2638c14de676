"""A verified copy of the book while people write in it, against a bare copy that is checked as plainly."""

from __future__ import annotations

import hashlib
import shutil
import sqlite3
import threading
import time
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

from app.book.backup import make_copy
from app.book.copies import Why
from app.book.door import Book
from app.book.engine import journal_mode
from app.book.tables import Customer
from app.trade.sentence import Sentence
from app.work.shop_book import close_book, open_shop
from tests.benchmarks.measure import Budget, Measured

UNTIL = datetime(2026, 11, 25, 12, tzinfo=UTC)
PAUSE = 0.02  # seconds between two changes
BESIDE = 1.1  # a change that waits for the whole copy still has to be made

# DESIGN: a copy of 250 MB takes 0.7 s and its checks 4.6 s; all of it at most 8 s. A writer waits for the copy in
# DELETE mode, and 50 ms in WAL.
WHOLE = Budget(8, floor=5.3)
WAITS = {"delete": Budget(BESIDE, floor=1), "wal": Budget(0.05, floor=0.7)}


def copies(path: Path, folder: Path) -> list[Measured]:
    """How long a copy takes while somebody writes, and how long that one waits."""
    bare, floor = folder / "bare.sqlite", 0.0
    try:
        begun = time.perf_counter()
        _bare_copy(path, bare)
        floor = time.perf_counter() - begun
    finally:
        bare.unlink(missing_ok=True)
    book = open_shop(path, clock=lambda: UNTIL)
    ours = folder / "copies"
    try:
        with Writer(book) as writer:
            begun = time.perf_counter()
            parts: list[
                float
            ] = []  # when each began: the first copies, the second is the first of the checks

            def watch(part: Sentence) -> None:
                parts.append(time.perf_counter() - begun)

            make_copy(path, ours, UNTIL, Why.BY_HAND, watch=watch)
            whole = time.perf_counter() - begun
    finally:
        close_book(book)
        shutil.rmtree(ours, ignore_errors=True)
    return [
        Measured(
            f"verified copy of {path.stat().st_size / 1e6:.0f} MB while somebody writes",
            whole,
            floor,
            "SQLite's copy, its checks and a pass of SHA-256, bare",
            WHOLE,
            unit="s",
        ),
        Measured(
            f"longest wait of {len(writer.waits)} changes meanwhile ({journal_mode().upper()} journal)",
            max(writer.waits),
            parts[1],
            "copying the pages and flushing them, as it was",
            WAITS[journal_mode()],
            unit="s",
        ),
    ]


def _bare_copy(path: Path, to: Path) -> None:
    with closing(sqlite3.connect(path)) as source, closing(sqlite3.connect(to)) as target:
        target.execute("PRAGMA synchronous = OFF")
        source.backup(target)
        target.execute("PRAGMA integrity_check").fetchall()
        target.execute("PRAGMA foreign_key_check").fetchall()
        for row in target.execute("SELECT fields, hash FROM history ORDER BY seq"):
            hashlib.sha256(f"{row[1]}{row[0]}".encode()).hexdigest()
    with to.open("rb") as file:
        hashlib.file_digest(file, "sha256")


class Writer:
    """Somebody who changes the note of a customer again and again. ``waits`` are the seconds of each change."""

    def __init__(self, book: Book) -> None:
        self._book = book
        self._enough = threading.Event()
        self._thread = threading.Thread(target=self._write, name="somebody who writes")
        self.waits: list[float] = []

    def __enter__(self) -> Writer:
        self._thread.start()
        while not self.waits:  # the first is made before the copy begins
            time.sleep(PAUSE)
        return self

    def __exit__(self, *_: object) -> None:
        self._enough.set()
        self._thread.join()

    def _write(self) -> None:
        while not self._enough.wait(PAUSE):
            begun = time.perf_counter()
            with self._book.change(None, Sentence("did something")) as change:
                customer = change.get(Customer, 1)
                customer.note = f"rang for the {len(self.waits) + 1}th time"
            self.waits.append(time.perf_counter() - begun)
