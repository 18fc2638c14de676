"""The large book: the same from the same seed, sound, and found in."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import func, select

from app.book.bench.flag_rows import ask_rules
from app.book.bench.job_facts import facts_of
from app.book.bench.job_rows import JobRows
from app.book.check import check
from app.book.door import Book
from app.book.office.job_lines import draft_of
from app.book.tables import (
    Agreement,
    Base,
    CaseEvent,
    Charge,
    Customer,
    Fitting,
    Flag,
    HandBack,
    Invoice,
    InvoiceLine,
    Job,
    JobNote,
    Labour,
    Message,
    Modification,
    Paper,
    PartChange,
    PartMove,
    Payment,
    Reading,
    ReportedFault,
    SafetyStep,
    SafetyTest,
    StartUpResult,
    ThingLeft,
    Transport,
    Trial,
    Unit,
)
from app.trade.bench.gates import Asks
from app.trade.bench.holds import held_by
from app.trade.bench.stages import Stage
from app.trade.office.invoice import work_out
from app.trade.sentence import Sentence
from app.trade.settings.thresholds import thresholds_of
from app.work.bench.sheet_of_job import job_sheet
from app.work.find.find import find, job_by_number
from app.work.shop_book import close_book, open_shop
from app.work.statistics.comeback_rate import comeback_rates
from app.work.statistics.question import Question
from demo_db.many import FIRST_JOB, ON_THE_BENCH, READINGS_OF_NEWEST, build_many

UNTIL = datetime(2026, 11, 25, 12, tzinfo=UTC)
JOBS, FEW = 300, 60
TABLES: tuple[type[Base], ...] = (
    Agreement, CaseEvent, Charge, Customer, Fitting, Flag, HandBack, Invoice, InvoiceLine, Job, JobNote, Labour,
    Message, Modification, Paper, PartChange, PartMove, Payment, Reading, ReportedFault, SafetyStep, SafetyTest,
    StartUpResult, ThingLeft, Transport, Trial, Unit,
)  # fmt: skip


def _facts(book: Book) -> dict[str, list[Any]]:
    with book.ask() as session:
        return {
            table.__tablename__: [tuple(row) for row in session.execute(select(*table.__table__.columns))]
            for table in TABLES
        }


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A large book, a small one of its kind, built once."""
    return build_many(tmp_path_factory.mktemp("many"), UNTIL, JOBS, 7)


@pytest.fixture
def book(built: Path) -> Iterator[Book]:
    """The same, open. No test changes it."""
    opened = open_shop(built, clock=lambda: UNTIL)
    yield opened
    close_book(opened)


def _built(folder: Path, seed: int) -> dict[str, list[Any]]:
    book = open_shop(build_many(folder, UNTIL, FEW, seed), clock=lambda: UNTIL)
    try:
        return _facts(book)
    finally:
        close_book(book)


def test_a_large_book_is_sound_and_answers(book: Book) -> None:
    assert {part.at.key: part.found for part in check(book).parts if part.found} == {}
    facts = _facts(book)
    assert len(facts["jobs"]) == JOBS
    assert [name for name, rows in facts.items() if not rows] == []
    _find_one(book)
    with book.ask() as session:
        here = session.scalar(select(func.count()).where(Job.stage != Stage.HANDED_BACK))
    assert here == min(ON_THE_BENCH, JOBS // 10)
    newest = job_by_number(book, FIRST_JOB + JOBS - 1)
    assert newest is not None
    assert len(job_sheet(book, newest).readings) == READINGS_OF_NEWEST
    assert sum(row.could for row in comeback_rates(book, Question()).rows) > 100


def _find_one(book: Book) -> None:
    with book.ask() as session:
        number, serial = session.execute(
            select(Job.number, Unit.serial).join(Unit, Unit.id == Job.unit_id).where(Job.number == 1100)
        ).one()
    assert number in [job.number for job in find(book, serial).jobs]


def test_the_rules_of_the_book_say_what_was_laid_down(book: Book) -> None:
    before = _facts(book)["flags"]
    with book.change(None, Sentence("asked the rules anew")) as change:
        ask_rules(change, change.session.scalars(select(Job.id)))
    assert _facts(book)["flags"] == before


def test_each_invoice_is_what_its_job_comes_to_and_nothing_held_it(book: Book) -> None:
    with book.ask() as session:
        for job in session.scalars(select(Job).where(Job.stage == Stage.HANDED_BACK)):
            rows = JobRows(session, job)
            totals = work_out(draft_of(rows))
            (invoice,) = rows.invoices
            assert (invoice.net, invoice.gross) == (totals.net.minor, totals.gross.minor)
            if rows.latest_job_id == job.id:  # an earlier one was judged before what came later
                facts = facts_of(session, job, book.today(), rows)
                for asks in (Asks.INVOICE, Asks.HAND_BACK):
                    assert held_by(facts, asks, thresholds_of(rows.settings)) == ()


def test_the_same_seed_gives_the_same_book_and_another_seed_another(tmp_path: Path) -> None:
    one, again, other = (_built(tmp_path / at, seed) for at, seed in (("1", 7), ("2", 7), ("3", 8)))
    assert one == again
    assert one["jobs"] != other["jobs"]
