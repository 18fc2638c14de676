"""What people ask of the book, against the same asked of the file by bare sqlite3."""

from __future__ import annotations

import random
import sqlite3
from collections.abc import Sequence
from contextlib import closing
from datetime import UTC, datetime
from functools import partial
from pathlib import Path

from sqlalchemy import select

from app.book.door import Book
from app.book.tables import Customer, Job, Unit
from app.trade.find.fold import match_words
from app.work.bench.sheet_of_job import job_sheet
from app.work.counter.job_rows import job_rows
from app.work.counter.jobs_list import Show, job_ids, shop_counts
from app.work.find.find import find
from app.work.office.repeat_faults import Question, repeat_faults
from app.work.shop_book import close_book, open_shop
from tests.benchmarks.measure import Budget, Measured, best, by_turns, p95

UNTIL = datetime(2026, 11, 25, 12, tzinfo=UTC)
ASKED, SHEETS = 60, 100

FIND = "SELECT rowid FROM find_fts WHERE find_fts MATCH ? ORDER BY rowid DESC LIMIT 20"
READINGS = "SELECT * FROM readings WHERE job_id = ?"
BOARD = "SELECT * FROM jobs WHERE stage IN ('taken in', 'on the bench', 'running in', 'ready')"
FOLLOWING = "SELECT j.id, j.fault_group, lead(taken_in_at) OVER (PARTITION BY unit_id ORDER BY taken_in_at) FROM jobs AS j"


def questions(path: Path) -> list[Measured]:
    """All of them."""
    book = open_shop(path, clock=lambda: UNTIL)
    try:
        with closing(sqlite3.connect(f"{path.as_uri()}?mode=ro", uri=True)) as bare:
            return [_find(book, bare), _sheet(book, bare), _board(book, bare), _repeats(book, bare)]
    finally:
        close_book(book)


def typed(book: Book) -> list[str]:
    """What is typed letter by letter: names, serial numbers and job numbers that are in the book."""
    rng = random.Random(1)
    with book.ask() as session:
        rows = session.execute(
            select(Customer.name, Unit.serial, Job.number)
            .join(Customer, Customer.id == Job.customer_id)
            .join(Unit, Unit.id == Job.unit_id)
        ).all()
    wanted = [str(rng.choice(row)) for row in rng.sample(rows, min(ASKED, len(rows)))]
    return [word[:end] for word in wanted for end in range(1, len(word) + 1)]


def _find(book: Book, bare: sqlite3.Connection) -> Measured:
    words = typed(book)
    find(book, words[0])
    ours: list[float] = []
    floor: list[float] = []
    for word in words:
        ours.append(best(partial(find, book, word)))
        if expression := match_words(word):
            floor.append(best(partial(_fetched, bare, FIND, (expression,))))
    return Measured(
        "find while typing, p95", p95(ours), p95(floor), "the bare FTS5 query", Budget(20, floor=0.3)
    )


def _sheet(book: Book, bare: sqlite3.Connection) -> Measured:
    key = max(job_ids(book, Show.EVERY).ids)  # the one that has them
    job_sheet(book, key)
    pairs = [
        (best(partial(job_sheet, book, key)), best(partial(_fetched, bare, READINGS, (key,))))
        for _ in range(SHEETS)
    ]
    return Measured(
        "job sheet with 50 readings as frozen facts, p95",
        p95([pair[0] for pair in pairs]),
        p95([pair[1] for pair in pairs]),
        "its readings, bare",
        Budget(5, floor=0.1),
    )


def _board(book: Book, bare: sqlite3.Connection) -> Measured:
    def board() -> None:
        job_rows(book, job_ids(book, Show.IN_THE_SHOP).ids)
        shop_counts(book)

    ours, floor = by_turns(board, partial(_fetched, bare, BOARD))
    return Measured("what is in the shop, with counts", ours, floor, "its jobs, bare", None)


def _repeats(book: Book, bare: sqlite3.Connection) -> Measured:
    ours, floor = by_turns(lambda: repeat_faults(book, Question()), partial(_fetched, bare, FOLLOWING))
    return Measured(
        "repeat faults", ours, floor, "each job with the next of its player, bare", Budget(500, floor=203)
    )


def _fetched(bare: sqlite3.Connection, statement: str, values: Sequence[object] = ()) -> None:
    bare.execute(statement, values).fetchall()
