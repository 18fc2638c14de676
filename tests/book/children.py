"""What runs in a process of its own: writers that are killed, and steps at which the process ends.

``python -m tests.book.children`` reads one question a line and forks for each, so that a child costs
milliseconds and holds no connection of the tests.
"""

from __future__ import annotations

import json
import os
import sys
import traceback
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import NoReturn

from app.book.backup import Why, back_up
from app.book.door import Book
from app.book.opening import open_book
from app.book.restore import restore
from app.book.tables import Customer, Job, Message, Staff, Unit
from app.book.upgrade import upgrade
from app.trade.refusal import BookRefused
from app.trade.sentence import Sentence
from tests.book.filled import SETTLE

NOW = datetime(2026, 3, 12, 12, 0, tzinfo=UTC)
ENDED = 77  # exit code of a process that ended at its step


def end_at(wanted: str) -> Callable[[str], None]:
    """A step hook that ends the process without any tidying up when ``wanted`` was done."""

    def step(name: str) -> None:
        if name == wanted:
            os._exit(ENDED)

    return step


def back_up_until(book: str, folder: str, step: str) -> None:
    """Back up and end at a step."""
    back_up(Path(book), Path(folder), NOW, Why.BY_HAND, end_at(step))


def restore_until(book: str, copy: str, step: str) -> None:
    """Restore and end at a step."""
    restore(Path(book), Path(copy), NOW, step=end_at(step))


def upgrade_until(book: str, scripts: str, target: str, step: str) -> None:
    """Upgrade and end at a step."""
    upgrade(Path(book), NOW, scripts=Path(scripts), target=int(target), step=end_at(step))


def open_and_hold(path: str, told: str, until: str) -> None:
    """Open a book as a window does, say so, and hold it until told to go."""
    book = open_book(Path(path))
    Path(told).write_text("open", encoding="ascii")
    with Path(until).open("rb") as pipe:  # blocks until the test opens the other end
        pipe.read()
    book.close()


def try_to_open(path: str) -> None:
    """Exit with 3 when the book is refused."""
    try:
        open_book(Path(path)).close()
    except BookRefused:
        os._exit(3)


def try_to_open_as_nobody(path: str) -> None:
    """The same without root's rights."""
    os.setgid(65534)
    os.setuid(65534)
    try_to_open(path)


def write_jobs(path: str, acks: str) -> None:
    """Take in one job after the other and say each number once it is saved, until the end comes."""
    book = open_book(Path(path), settle=SETTLE)
    with book.change(None, Sentence("began")) as change:
        staff = change.add(Staff(name="Ine")).id
    with Path(acks).open("wb", buffering=0) as pipe:
        while True:
            pipe.write(b"%d\n" % take_in(book, staff))


def take_numbers(path: str, count: str, out: str) -> None:
    """Take in jobs beside another process that does the same, through the door, without the window's lock."""
    from app.book.engine import sqlite_engine

    book = Book(sqlite_engine(Path(path)), Path(path), settle=SETTLE)
    with book.change(None, Sentence("began")) as change:
        staff = change.add(Staff(name="Ine")).id
    numbers = [take_in(book, staff) for _ in range(int(count))]
    book.close()
    Path(out).write_text(json.dumps(numbers), encoding="ascii")


def take_in(book: Book, staff: int) -> int:
    """Customer, unit, job and message in one action, as at the counter."""
    with book.change(staff, Sentence("took in")) as change:
        number = change.next_number("job")
        customer = change.add(Customer(name=f"Customer {number}", created_at=change.now))
        unit = change.add(
            Unit(
                maker="Vannoy",
                model="CD 12",
                serial=str(number),
                mains_class="class II",
                customer_id=customer.id,
                created_at=change.now,
            )
        )
        job = change.add(
            Job(
                number=number,
                unit_id=unit.id,
                customer_id=customer.id,
                stage="taken in",
                waiting="nothing",
                taken_in_at=change.now,
                taken_in_by=staff,
                fault="reads no disc",
                transit_lock="not looked yet",
            )
        )
        change.add(
            Message(
                job_id=job.id,
                to_customer=True,
                way="telephone",
                text=f"number {number}",
                at=change.now,
                by=staff,
            )
        )
    return number


def serve() -> None:
    """Answer questions until there are no more."""
    for line in sys.stdin:
        question = json.loads(line)
        if "begin" in question:
            pid = os.fork()
            if pid == 0:
                _child(question["begin"], question["words"])
            answer = pid
        else:
            _, status = os.waitpid(question["wait"], 0)
            answer = os.waitstatus_to_exitcode(status)
        sys.stdout.write(f"{answer}\n")
        sys.stdout.flush()


def _child(name: str, words: list[str]) -> NoReturn:
    os.dup2(2, 1)  # the pipe to the tests is not the child's
    code = 1
    try:
        globals()[name](*words)
        code = 0
    finally:
        if code:
            traceback.print_exc()
        os._exit(code)


if __name__ == "__main__":
    serve()
