"""A process that is killed while it writes loses nothing that it had said was saved, and leaves nothing half."""

from __future__ import annotations

import os
import random
import select
import shutil
import signal
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from sqlalchemy import func
from sqlalchemy import select as choose

from app.book.chain import walk
from app.book.door import Book
from app.book.opening import make_book, open_book
from app.book.soundness import foreign_key_findings, page_findings
from app.book.tables import Customer, Job, Message, NumberSeries, Unit
from tests.book.conftest import Children


def test_a_killed_writer_loses_nothing_it_had_acknowledged(
    tmp_path: Path, children: Children, often: Callable[[int, int], int], clock: Any
) -> None:
    runs = often(20, 100)
    saved = 0
    make_book(tmp_path / "new.sqlite")
    for run in range(runs):
        folder = tmp_path / str(run)
        folder.mkdir()
        shutil.copyfile(tmp_path / "new.sqlite", folder / "book.sqlite")
        acked = run_and_kill(folder, children)
        book = open_book(folder / "book.sqlite", clock=clock)  # not closed in order: it is checked in full
        try:
            assert_whole(book, acked)
        finally:
            book.close()
        saved += len(acked)
    assert saved >= runs  # the children did write


def run_and_kill(folder: Path, children: Children) -> list[int]:
    """Have a child write into the book, kill it at a random moment, and give the numbers it acknowledged."""
    book, acks = folder / "book.sqlite", folder / "acks"
    os.mkfifo(acks)
    pid = children.begin("write_jobs", book, acks)
    heard = b""
    with acks.open("rb", buffering=0) as pipe:
        heard += pipe.read(1)  # the first is saved
        end = time.monotonic() + random.uniform(0, 0.1)
        while (left := end - time.monotonic()) > 0:
            if select.select([pipe], [], [], left)[0]:
                heard += pipe.read(4096)
        os.kill(pid, signal.SIGKILL)
        assert children.wait(pid) == -signal.SIGKILL
        while piece := pipe.read(4096):
            heard += piece
    return [int(line) for line in heard.split(b"\n")[:-1]]


def assert_whole(book: Book, acked: list[int]) -> None:
    """Everything acknowledged is there, every job has all its parts, numbers have no gap, the chain holds."""
    with book.ask() as session:
        connection = session.connection()
        assert page_findings(connection) == []
        assert foreign_key_findings(connection) == []
        numbers = list(session.scalars(choose(Job.number).order_by(Job.number)))
        assert acked == list(range(1, len(acked) + 1))
        assert numbers == list(range(1, len(numbers) + 1))
        assert len(acked) <= len(numbers) <= len(acked) + 1  # one may be saved and not yet acknowledged
        for table in (Customer, Unit, Message):
            assert session.scalar(choose(func.count()).select_from(table)) == len(numbers)
        assert session.scalar(choose(NumberSeries.next)) == len(numbers) + 1
        report = walk(connection)
        assert report.first_bad == 0
        assert report.rows == 1 + 4 * len(numbers)  # the person, then four rows for each job
