"""The large book: the same from the same seed, sound, and found in."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from sqlalchemy import func, select

from app.book.check import check
from app.book.door import Book
from app.book.tables import Base, Customer, Fitting, HandBack, Job, Reading, ReportedFault, Transport, Unit
from app.trade.bench.stages import Stage
from app.work.bench.sheet_of_job import job_sheet
from app.work.find.find import find, job_by_number
from app.work.office.repeat_faults import Question, repeat_faults
from app.work.shop_book import close_book, open_shop
from demo_db.many import FIRST_JOB, ON_THE_BENCH, READINGS_OF_NEWEST, build_many

UNTIL = datetime(2026, 11, 25, 12, tzinfo=UTC)
JOBS = 200
TABLES: tuple[type[Base], ...] = (
    Customer, Unit, Transport, Job, Fitting, ReportedFault, Reading, HandBack,
)  # fmt: skip


def _facts(book: Book) -> dict[str, list[Any]]:
    with book.ask() as session:
        return {
            table.__tablename__: [tuple(row) for row in session.execute(select(*table.__table__.columns))]
            for table in TABLES
        }


def _built(folder: Path, seed: int) -> tuple[Book, dict[str, list[Any]]]:
    book = open_shop(build_many(folder, UNTIL, JOBS, seed), clock=lambda: UNTIL)
    return book, _facts(book)


def test_a_large_book_is_sound_and_answers(tmp_path: Path) -> None:
    book, facts = _built(tmp_path, 7)
    try:
        assert {part.at.key: part.found for part in check(book).parts if part.found} == {}
        assert len(facts["jobs"]) == JOBS
        _find_one(book)
        with book.ask() as session:
            here = session.scalar(select(func.count()).where(Job.stage != Stage.HANDED_BACK))
        assert here == min(ON_THE_BENCH, JOBS // 10)
        newest = job_by_number(book, FIRST_JOB + JOBS - 1)
        assert newest is not None
        assert len(job_sheet(book, newest).readings) == READINGS_OF_NEWEST
        assert sum(rate.counted.could for rate in repeat_faults(book, Question()).rates) > 100
    finally:
        close_book(book)


def _find_one(book: Book) -> None:
    with book.ask() as session:
        number, serial = session.execute(
            select(Job.number, Unit.serial).join(Unit, Unit.id == Job.unit_id).where(Job.number == 1100)
        ).one()
    assert number in [job.number for job in find(book, serial).jobs]


def test_the_same_seed_gives_the_same_book_and_another_seed_another(tmp_path: Path) -> None:
    told = []
    for folder, seed in (("one", 7), ("two", 7), ("three", 8)):
        book, facts = _built(tmp_path / folder, seed)
        close_book(book)
        told.append(facts)
    assert told[0] == told[1]
    assert told[0]["jobs"] != told[2]["jobs"]
