"""What people ask of the book, against the same asked of the file by bare sqlite3."""

from __future__ import annotations

import random
import sqlite3
from collections.abc import Sequence
from contextlib import closing
from datetime import UTC, datetime
from functools import partial
from pathlib import Path

from sqlalchemy import func, select

from app.book.door import Book
from app.book.tables import Customer, Job, Reading, Unit
from app.trade.bench.kinds import FaultGroup
from app.trade.find.fold import match_words
from app.work.bench.ranking import ranking_of
from app.work.bench.sheet_of_job import job_sheet
from app.work.bench.transport_life import transport_life
from app.work.bench.unit_life import unit_life
from app.work.bench.what_helped import WhatHelped, what_helped
from app.work.counter.job_rows import job_rows
from app.work.counter.jobs_list import Show, job_ids, shop_counts
from app.work.find.find import find
from app.work.shop_book import close_book, open_shop
from tests.benchmarks.measure import Budget, Measured, best, by_turns, p95

UNTIL = datetime(2026, 11, 25, 12, tzinfo=UTC)
ASKED, SHEETS = 60, 100
A_LOOK = 50.0  # ms that an answer beside the job may take

FIND = "SELECT rowid FROM find_fts WHERE find_fts MATCH ? ORDER BY rowid DESC LIMIT 20"
READINGS = "SELECT * FROM readings WHERE job_id = ?"
BOARD = "SELECT * FROM jobs WHERE stage IN ('taken in', 'on the bench', 'running in', 'ready')"

TRIALS = (
    "SELECT x.* FROM trials AS x JOIN transports AS t ON t.id = x.transport_id"
    " WHERE t.type_id = ? AND x.rung_before = ? AND x.outcome IS NOT NULL"
)
CURVES = "SELECT * FROM readings WHERE transport_id = ?"
VISITS = "SELECT * FROM jobs WHERE unit_id = ?"


def questions(path: Path) -> list[Measured]:
    """All of them."""
    book = open_shop(path, clock=lambda: UNTIL)
    try:
        with closing(sqlite3.connect(f"{path.as_uri()}?mode=ro", uri=True)) as bare:
            return [
                _find(book, bare),
                _sheet(book, bare),
                _board(book, bare),
                _helped(book, bare, None),
                _helped(book, bare, FaultGroup.RADIAL),
                _ranking(book, bare),
                _transport(book, bare),
                _unit(book, bare),
            ]
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


def _helped(book: Book, bare: sqlite3.Connection, group: FaultGroup | None) -> Measured:
    key = max(job_ids(book, Show.EVERY).ids)
    ours, floor = by_turns(
        partial(what_helped, book, key, group), partial(_fetched, bare, TRIALS, _like(book, key))
    )
    named = "what helped before" if group is None else "the same of one fault group"
    return Measured(named, ours, floor, "its trials, bare", Budget(A_LOOK, floor=19.9))


def _like(book: Book, key: int) -> tuple[int, int]:
    """Transport type and rung of the players that are compared."""
    found = what_helped(book, key)
    assert isinstance(found, WhatHelped)
    return found.question.type_id, found.question.rung


def _ranking(book: Book, bare: sqlite3.Connection) -> Measured:
    key = max(job_ids(book, Show.EVERY).ids)
    ours, floor = by_turns(partial(ranking_of, book, key), partial(_fetched, bare, TRIALS, _like(book, key)))
    return Measured("the suspects of a job, ranked", ours, floor, "the trials it counts, bare", None)


def _transport(book: Book, bare: sqlite3.Connection) -> Measured:
    with book.ask() as session:
        key = session.scalars(
            select(Reading.transport_id).group_by(Reading.transport_id).order_by(func.count().desc()).limit(1)
        ).one()
    assert key is not None
    ours, floor = by_turns(partial(transport_life, book, key), partial(_fetched, bare, CURVES, (key,)))
    return Measured(
        "the life of the most read transport", ours, floor, "its readings, bare", Budget(A_LOOK, floor=0.23)
    )


def _unit(book: Book, bare: sqlite3.Connection) -> Measured:
    with book.ask() as session:
        key = session.scalars(
            select(Job.unit_id).group_by(Job.unit_id).order_by(func.count().desc()).limit(1)
        ).one()
    ours, floor = by_turns(partial(unit_life, book, key), partial(_fetched, bare, VISITS, (key,)))
    return Measured(
        "the life of the player seen most", ours, floor, "its jobs, bare", Budget(A_LOOK, floor=0.08)
    )


def _fetched(bare: sqlite3.Connection, statement: str, values: Sequence[object] = ()) -> None:
    bare.execute(statement, values).fetchall()
