"""Measures the budgets on a large book, each beside its floor in the same run; started by `run.py bench`."""

from __future__ import annotations

import argparse
import io
import os
import random
import shutil
import sqlite3
import statistics
import subprocess
import sys
import tempfile
import time
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

from sqlalchemy import select

from app.book.backup import back_up
from app.book.check import check
from app.book.copies import Why
from app.book.door import Book
from app.book.tables import Customer, Job, Unit
from app.papers.press import printed
from app.trade.find.fold import match_words
from app.work.bench.sheet_of_job import job_sheet
from app.work.counter.job_rows import job_rows
from app.work.counter.jobs_list import Show, job_ids, shop_counts
from app.work.find.find import find
from app.work.office.repeat_faults import Question, repeat_faults
from app.work.shop_book import close_book, open_shop
from demo_db.many import JOBS, build_many
from tests.benchmarks.measure import Measured, middle, p95, table, times

ROOT = Path(__file__).resolve().parents[2]
UNTIL = datetime(2026, 11, 25, 12, tzinfo=UTC)
ASKED, SHEETS, ON_A_PAGE = 60, 200, 60
MEGABYTE = 1_000_000


def main(words: list[str]) -> int:
    """Build the book, measure, print one table; 0 when every budget is kept."""
    parser = argparse.ArgumentParser(prog="run.py bench", description="Measures Spindlebook on a large book.")
    parser.add_argument("--jobs", type=int, default=JOBS, help=f"how many jobs the book has ({JOBS:,})")
    parser.add_argument("--check", action="store_true", help="check the book first, as Book, Check does")
    asked = parser.parse_args(words)
    if asked.jobs < 20:
        parser.error("at least 20 jobs are needed to measure anything")
    with tempfile.TemporaryDirectory(prefix="spindlebook-bench-") as folder:
        begun = time.perf_counter()
        path = build_many(Path(folder) / "shop", UNTIL, asked.jobs)
        _say(
            f"A book of {asked.jobs:,} jobs, {path.stat().st_size / MEGABYTE:.0f} MB, was built in "
            f"{time.perf_counter() - begun:.0f} s.\n"
        )
        sound = not asked.check or _is_sound(path)
        lines = [
            *_asked_of_the_book(path),
            _invoice(),
            _copy(path, Path(folder)),
            *_window(path, Path(folder)),
        ]
    _say(table(lines))
    if hasattr(os, "getloadavg"):
        _say(f"\nLoad of the machine at the end: {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores.")
    return 0 if sound and all(line.holds for line in lines) else 1


def _say(text: str) -> None:
    sys.stdout.write(f"{text}\n")
    sys.stdout.flush()


def _is_sound(path: Path) -> bool:
    book = open_shop(path, clock=lambda: UNTIL)
    try:
        begun = time.perf_counter()
        found = [str(sentence) for part in check(book).parts for sentence in part.found]
        _say(f"The check took {time.perf_counter() - begun:.0f} s and found {len(found)} faults.\n")
    finally:
        close_book(book)
    return not found


def _asked_of_the_book(path: Path) -> list[Measured]:
    book = open_shop(path, clock=lambda: UNTIL)
    try:
        with closing(sqlite3.connect(f"{path.as_uri()}?mode=ro", uri=True)) as bare:
            return [
                _find(book, bare),
                _sheet(book, bare),
                _list(book, bare),
                _board(book, bare),
                _repeats(book, bare),
            ]
    finally:
        close_book(book)


def _typed(book: Book) -> list[str]:
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
    typed = _typed(book)
    expressions = [found for one in typed if (found := match_words(one))]
    match = "SELECT rowid FROM find_fts WHERE find_fts MATCH ? ORDER BY rowid DESC LIMIT 20"
    find(book, typed[0])
    return Measured(
        "find while typing, p95",
        p95(times(lambda one=one: find(book, one) for one in typed)),  # type: ignore[misc]
        p95(times(lambda one=one: bare.execute(match, (one,)).fetchall() for one in expressions)),  # type: ignore[misc]
        budget=20,
    )


def _sheet(book: Book, bare: sqlite3.Connection) -> Measured:
    key = max(job_ids(book, Show.EVERY).ids)  # the one that has them
    rows = "SELECT * FROM readings WHERE job_id = ?"
    job_sheet(book, key)
    return Measured(
        "job sheet with 50 readings, p95",
        p95(times([lambda: job_sheet(book, key)] * SHEETS)),
        p95(times([lambda: bare.execute(rows, (key,)).fetchall()] * SHEETS)),
        budget=5,
    )


def _list(book: Book, bare: sqlite3.Connection) -> Measured:
    def page() -> None:
        job_rows(book, job_ids(book, Show.EVERY).ids[:ON_A_PAGE])

    keys = "SELECT id FROM jobs ORDER BY promised_on IS NULL, promised_on, promised_time, number"
    return Measured(
        "list of every job, asked, unpainted",
        middle(page),
        middle(lambda: bare.execute(keys).fetchall()),
        budget=60,
    )


def _board(book: Book, bare: sqlite3.Connection) -> Measured:
    def board() -> None:
        job_rows(book, job_ids(book, Show.IN_THE_SHOP).ids)
        shop_counts(book)

    here = "SELECT * FROM jobs WHERE stage IN ('taken in', 'on the bench', 'running in', 'ready')"
    return Measured(
        "board: what is in the shop, with counts",
        middle(board),
        middle(lambda: bare.execute(here).fetchall()),
        budget=None,
    )


def _repeats(book: Book, bare: sqlite3.Connection) -> Measured:
    following = "SELECT j.id, j.fault_group, lead(taken_in_at) OVER (PARTITION BY unit_id ORDER BY taken_in_at) FROM jobs AS j"
    return Measured(
        "repeat faults",
        middle(lambda: repeat_faults(book, Question())),
        middle(lambda: bare.execute(following).fetchall()),
        budget=500,
    )


def _invoice() -> Measured:
    from tests.papers.story import ENGLISH, INVOICE

    return Measured(
        "one invoice PDF, warm",
        middle(lambda: printed(INVOICE, ENGLISH), 20),
        middle(_plain_page, 20),
        budget=60,
    )


def _plain_page() -> None:
    """A page of sixty lines in a built-in font."""
    from reportlab.pdfgen.canvas import Canvas

    canvas = Canvas(io.BytesIO())
    for line in range(60):
        canvas.drawString(60, 780 - 12 * line, f"line {line} of a page without anything else")
    canvas.save()


def _copy(path: Path, folder: Path) -> Measured:
    size = path.stat().st_size / (250 * MEGABYTE)  # the budget is for 250 MB; copying goes by size
    ours, bare = folder / "copies", folder / "bare.sqlite"

    def plainly() -> None:
        with closing(sqlite3.connect(path)) as source, closing(sqlite3.connect(bare)) as target:
            source.backup(target)
            target.execute("PRAGMA integrity_check").fetchall()
            target.execute("PRAGMA foreign_key_check").fetchall()

    made = Measured(
        "verified copy of the book, nobody writing",
        times([lambda: back_up(path, ours, UNTIL, Why.BY_HAND)])[0] / 1000,
        times([plainly])[0] / 1000,
        budget=8 * size,
        unit="s",
    )
    shutil.rmtree(ours, ignore_errors=True)
    bare.unlink()
    return made


def _window(path: Path, folder: Path) -> list[Measured]:
    ours, floor = _started(str(path), str(folder)), _started("bare")
    start = Measured("start to first painted window, offscreen", ours[0], floor[0], budget=1.5 * floor[0])
    memory = Measured("memory with the window", ours[1], floor[1], budget=160, unit="MB")
    return [start, memory]


def _started(*words: str, repeats: int = 5) -> tuple[float, float]:
    """Median milliseconds until the process said that its window is painted, and the MB that it told."""
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen", "PYTHONPATH": str(ROOT)}
    waited, memory = [], 0.0
    for _ in range(repeats + 1):
        begun = time.perf_counter()
        command = [sys.executable, "-m", "tests.benchmarks.started", *words]
        with subprocess.Popen(command, cwd=ROOT, env=environment, stdout=subprocess.PIPE, text=True) as child:
            assert child.stdout is not None
            memory = float(child.stdout.readline())
            waited.append((time.perf_counter() - begun) * 1000)
            child.stdout.read()
        if child.returncode:
            raise RuntimeError(f"the window ended with {child.returncode}")
    return statistics.median(waited[1:]), memory


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
