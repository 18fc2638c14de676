"""The eight questions about all jobs, against bare SQL that finds each job the next one of its player."""

from __future__ import annotations

import sqlite3
import statistics
import time
from collections.abc import Sequence
from contextlib import closing
from datetime import UTC, date, datetime
from functools import partial
from itertools import pairwise
from pathlib import Path

from app.book.door import Book
from app.book.kept import Keeper
from app.trade.calendar.period import Period, year_of
from app.trade.sentence import Sentence
from app.trade.statistics.comebacks import By
from app.work.office.journal import journal
from app.work.office.reorder_list import reorder_list
from app.work.shop_book import close_book, open_shop
from app.work.statistics.question import Question
from app.work.statistics.questions import ANSWERS
from tests.benchmarks.measure import Budget, Measured, by_turns

UNTIL = datetime(2026, 11, 25, 12, tzinfo=UTC)
FOLLOWING = "SELECT j.id, j.fault_group, lead(taken_in_at) OVER (PARTITION BY unit_id ORDER BY taken_in_at) FROM jobs AS j"
AGAINST = "each job with the next of its player, bare"
# DESIGN: half a second for a page over all jobs, or progress with cancel; a window that is never silent for 0.1 s.
ANSWERED, STOPPED = Budget(500, floor=203), Budget(100, floor=203)
MOVES = "SELECT part_id, sum(quantity), min(at) FROM part_moves GROUP BY part_id"
ISSUED = "SELECT * FROM invoices WHERE issued_on BETWEEN ? AND ?"
REPEATS = 5
# The period goes with the others: each asks for another part of the ground that is kept.
OTHERS = (Question(by=By.MAKER), Question(since=date(2021, 1, 1)), Question(by=By.CHANGE, same_group=False))


def figures(path: Path) -> list[Measured]:
    """Each question as the first one of the day, then with other filters, and how soon it can be stopped."""
    book = open_shop(path, clock=lambda: UNTIL)
    try:
        with closing(sqlite3.connect(f"{path.as_uri()}?mode=ro", uri=True)) as bare:
            return [
                *(line for name in ANSWERS for line in _answer(book, bare, name)),
                _reorder(book, bare),
                _journal(book, bare),
            ]
    finally:
        close_book(book)


def _answer(book: Book, bare: sqlite3.Connection, name: str) -> list[Measured]:
    def first() -> None:
        book._keeper = Keeper()  # as if nothing had been asked since the last change
        ANSWERS[name](book, Question())

    def again() -> None:
        for question in OTHERS:
            ANSWERS[name](book, question)

    floor = partial(_fetched, bare, FOLLOWING)
    ours, bare_first = by_turns(first, floor, REPEATS)
    others, bare_again = by_turns(again, floor, REPEATS)
    stretch = statistics.median(_longest_stretch(book, name) for _ in range(REPEATS))
    return [
        Measured(f"{name}, the first question of the day", ours, bare_first, AGAINST, ANSWERED),
        Measured(f"{name} with other filters", others / len(OTHERS), bare_again, AGAINST, ANSWERED),
        Measured(f"{name}, until it can be stopped", stretch, bare_first, AGAINST, STOPPED),
    ]


def _longest_stretch(book: Book, name: str) -> float:
    """Milliseconds of the longest stretch without a step, of an answer that has to gather everything."""
    book._keeper = Keeper()
    moments = [time.perf_counter()]

    def step(done: int, of: int, part: Sentence | None) -> None:
        moments.append(time.perf_counter())

    ANSWERS[name](book, Question(by=By.CHANGE), step)
    moments.append(time.perf_counter())
    return max(after - before for before, after in pairwise(moments)) * 1000


def _reorder(book: Book, bare: sqlite3.Connection) -> Measured:
    ours, floor = by_turns(partial(reorder_list, book, every=True), partial(_fetched, bare, MOVES), REPEATS)
    return Measured("the reorder list", ours, floor, "the moves of stock summed, bare", Budget(500, floor=20))


def _journal(book: Book, bare: sqlite3.Connection) -> Measured:
    year: Period = year_of(UNTIL.date(), 1)
    days = (year.first.isoformat(), year.last.isoformat())
    ours, floor = by_turns(partial(journal, book, year), partial(_fetched, bare, ISSUED, days), REPEATS)
    return Measured("the journal of a year", ours, floor, "its invoices, bare", Budget(500, floor=26))


def _fetched(bare: sqlite3.Connection, statement: str, values: Sequence[object] = ()) -> None:
    bare.execute(statement, values).fetchall()
