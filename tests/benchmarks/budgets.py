"""Measures the budgets on a large book, each as a ratio to its floor in the same run; started by `run.py bench`."""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

from app.book.check import check
from app.work.shop_book import close_book, open_shop
from demo_db.many import JOBS, build_many
from tests.benchmarks.copies import copies
from tests.benchmarks.figures import figures
from tests.benchmarks.libraries import libraries
from tests.benchmarks.measure import Measured, table
from tests.benchmarks.papers import papers
from tests.benchmarks.questions import questions
from tests.benchmarks.windows import windows

UNTIL = datetime(2026, 11, 25, 12, tzinfo=UTC)
FEWEST = 20


def main(words: list[str]) -> int:
    """Build the book, measure, print one table; 0 when every budget is kept."""
    parser = argparse.ArgumentParser(
        prog="run.py bench",
        description="Measures Spindlebook on a large book. Each operation is set against a bare one, its floor, "
        "measured in the same run: a budget allows so many times its floor. Ends with 1 when one is over.",
    )
    parser.add_argument("--jobs", type=int, default=JOBS, help=f"how many jobs the book has ({JOBS:,})")
    parser.add_argument("--check", action="store_true", help="check the book first, as Book, Check does")
    parser.add_argument(
        "--book",
        type=Path,
        metavar="FOLDER",
        help="keep the book in FOLDER, and take the one that is there already",
    )
    asked = parser.parse_args(words)
    if asked.jobs < FEWEST:
        parser.error(f"at least {FEWEST} jobs are needed to measure anything")
    with tempfile.TemporaryDirectory(prefix="spindlebook-bench-") as folder:
        path = _book(asked.book or Path(folder) / "shop", asked.jobs)
        sound = not asked.check or _is_sound(path)
        own = Path(folder) / "own"
        own.mkdir()
        parts: tuple[tuple[str, Callable[[], list[Measured]]], ...] = (
            ("questions", lambda: questions(path)),
            ("the eight questions", lambda: figures(path)),
            ("statistics beside other libraries", libraries),
            ("papers", papers),
            ("windows", lambda: windows(path, own)),
            ("copies", lambda: copies(path, own)),
        )
        lines = []
        for name, part in parts:
            _say(f"Measuring {name} ...", to=sys.stderr)
            lines += part()
    _say(table(lines))
    _say(verdict(lines))
    if asked.jobs < JOBS and asked.book is None:
        _say("The budgets are meant for the whole book: on a small one, what never grows weighs more.")
    if hasattr(os, "getloadavg"):
        _say(f"Load of the machine at the end: {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores.")
    return 0 if sound and all(line.holds for line in lines) else 1


def verdict(lines: list[Measured]) -> str:
    """How many budgets are kept, in words."""
    judged = [line for line in lines if line.budget is not None]
    over = [line.what for line in judged if not line.holds]
    if not over:
        return f"\nEvery budget is kept ({len(judged)})."
    return f"\n{len(over)} of {len(judged)} budgets are over: {'; '.join(over)}."


def _book(folder: Path, jobs: int) -> Path:
    path = folder / "book.sqlite"
    if path.exists():
        _say(f"The book in {folder}, {path.stat().st_size / 1e6:.0f} MB.\n")
        return path
    begun, worked = time.perf_counter(), time.process_time()
    build_many(folder, UNTIL, jobs)
    taken, worked = time.perf_counter() - begun, time.process_time() - worked
    _say(
        f"A book of {jobs:,} jobs, {path.stat().st_size / 1e6:.0f} MB, was built in {taken:.0f} s, "
        f"{worked:.0f} s of them the processor's.\n"
    )
    return path


def _say(text: str, to: object = None) -> None:
    stream = sys.stderr if to is sys.stderr else sys.stdout
    stream.write(f"{text}\n")
    stream.flush()


def _is_sound(path: Path) -> bool:
    book = open_shop(path, clock=lambda: UNTIL)
    try:
        begun = time.perf_counter()
        found = [str(sentence) for part in check(book).parts for sentence in part.found]
        _say(f"The check took {time.perf_counter() - begun:.0f} s and found {len(found)} faults.\n")
    finally:
        close_book(book)
    return not found


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
