"""Players that nobody collects: the list, and dated notices that a person prints."""

from __future__ import annotations

from datetime import date

import pytest

from app.book.tables import Job, Paper
from app.trade.bench.kinds import Means
from app.trade.bench.stages import Stage, Way
from app.trade.counter.agreements import MessageEntry
from app.trade.money import MICRO, Money
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatRate
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.settings.owed import NOTICE_WORDS
from app.trade.settings.terms import STORAGE_DAYS
from app.work.counter.jobs_list import shop_counts
from app.work.counter.messages import add_message
from app.work.counter.uncollected import (
    issue_uncollected_notice,
    preview_uncollected_notice,
    uncollected_jobs,
)
from app.work.office.charges import ChargeEntry, add_charge
from app.work.office.invoices import issue_invoice
from app.work.office.payments import take_payment
from app.work.office.settings import change_settings
from app.work.papers.issuing import paper_pdf
from tests.papers.reading import whole
from tests.work.asked import papers_of_job


@pytest.fixture
def ready(shop, job):
    with shop.book.change(shop.tobbe, Sentence("ready")) as change:
        row = change.get(Job, job)
        row.stage, row.ready_at = Stage.READY, change.now
    return job


def tell(shop, job, *, to_customer=True):
    add_message(
        shop.book,
        shop.mirr,
        job,
        MessageEntry(text="It is ready.", way=Way.TELEPHONE, to_customer=to_customer),
    )


def test_the_time_to_collect_runs_from_the_message(shop, ready):
    shop.clock.advance(days=2)
    tell(shop, ready)
    assert uncollected_jobs(shop.book) == ()
    (row,) = uncollected_jobs(shop.book, all_ready=True)
    assert (row.ready, row.told, row.collect_by) == (date(2026, 3, 12), date(2026, 3, 14), date(2026, 4, 13))
    assert (row.customer, row.player, row.over) == ("Benedikt Arnsvik", "Quellmar Larch 2", 0)
    assert row.not_now is not None
    shop.clock.advance(days=31)
    (row,) = uncollected_jobs(shop.book)
    assert (row.over, row.notices, row.noticed_on, row.not_now) == (1, 0, None, None)


def test_what_was_said_before_it_was_ready_or_by_the_customer_starts_nothing(shop, job):
    tell(shop, job)
    shop.clock.advance(days=1)
    with shop.book.change(shop.tobbe, Sentence("ready")) as change:
        row = change.get(Job, job)
        row.stage, row.ready_at = Stage.READY, change.now
    shop.clock.advance(days=1)
    tell(shop, job, to_customer=False)
    (row,) = uncollected_jobs(shop.book, all_ready=True)
    assert (row.told, row.collect_by) == (None, date(2026, 4, 12))


def test_a_notice_is_filed_with_the_job_and_moves_nothing(shop, ready):
    shop.clock.advance(days=31)
    paper = issue_uncollected_notice(shop.book, shop.mirr, ready).value
    line = papers_of_job(shop.book, ready)[-1]
    assert (line.id, line.kind, line.issued_by) == (paper, "uncollected notice", "Mirr Quistan")
    text = whole(paper_pdf(shop.book, paper).pdf).replace("\n", " ")
    for words in (
        "Notice to collect 1001",
        "12 May 2026",
        "Terms of storage",
        "within 30 days",
        "Mirr Quistan",
    ):
        assert words in text
    (row,) = uncollected_jobs(shop.book)
    assert (row.notices, row.noticed_on) == (1, date(2026, 4, 12))
    with shop.book.ask() as session:
        assert session.get_one(Job, ready).stage is Stage.READY


def test_a_notice_is_looked_at_before_it_is_printed(shop, ready):
    shop.clock.advance(days=31)
    text = whole(preview_uncollected_notice(shop.book, shop.mirr, ready))
    assert "draft" in text
    assert "Mirr Quistan" in text
    assert [line.kind for line in papers_of_job(shop.book, ready)] == ["intake ticket"]


def test_there_is_one_notice_a_day_and_the_next_names_it(shop, ready):
    shop.clock.advance(days=31)
    issue_uncollected_notice(shop.book, shop.mirr, ready)
    with pytest.raises(Refusal, match="today already"):
        issue_uncollected_notice(shop.book, shop.mirr, ready)
    shop.clock.advance(days=30)
    paper = issue_uncollected_notice(shop.book, shop.mirr, ready).value
    with shop.book.ask() as session:
        assert session.get_one(Paper, paper).facts["earlier"] == [{"day": "2026-04-12"}]


def test_no_notice_while_there_is_time_or_the_player_is_not_ready(shop, job):
    with pytest.raises(Refusal, match="ready and still here"):
        issue_uncollected_notice(shop.book, shop.mirr, job)
    with shop.book.change(shop.tobbe, Sentence("ready")) as change:
        row = change.get(Job, job)
        row.stage, row.ready_at = Stage.READY, change.now
    with pytest.raises(Refusal, match="until"):
        issue_uncollected_notice(shop.book, shop.mirr, job)


def test_the_notice_says_what_waits_and_what_is_open_in_the_shops_words(shop, take_in):
    job = take_in(came_with=("remote control", "a box of records")).job_id
    add_charge(
        shop.book,
        shop.ine,
        job,
        ChargeEntry(kind=LineKind.FEE, words="Look inside", price=20 * MICRO, vat=VatRate(1900)),
    )
    with shop.book.change(shop.tobbe, Sentence("ready")) as change:
        row = change.get(Job, job)
        row.stage, row.ready_at = Stage.READY, change.now
    issue_invoice(shop.book, shop.ine, job)
    take_payment(shop.book, shop.ine, job, Money(1000, "EUR"), Means.CASH)
    change_settings(shop.book, shop.ine, {NOTICE_WORDS: "Fetch it by {collect_by}."})
    shop.clock.advance(days=40)
    text = whole(paper_pdf(shop.book, issue_uncollected_notice(shop.book, shop.mirr, job).value).pdf)
    for words in ("Fetch it by 21", "remote control; a box of records", "13.80"):
        assert words in text.replace("\n", " ")


def test_the_counter_is_told_how_many_were_not_collected(shop, ready):
    assert shop_counts(shop.book).uncollected == 0
    shop.clock.advance(days=31)
    assert shop_counts(shop.book).uncollected == 1


def test_a_player_is_kept_as_long_as_its_ticket_said(shop, ready):
    change_settings(shop.book, shop.ine, {STORAGE_DAYS: 7})
    (row,) = uncollected_jobs(shop.book, all_ready=True)
    assert row.collect_by == date(2026, 4, 11)  # 30 days, as they were when it was taken in
    with shop.book.change(shop.tobbe, Sentence("taken in by an older program")) as change:
        change.get(Job, ready).storage_days = None
    (row,) = uncollected_jobs(shop.book, all_ready=True)
    assert row.collect_by == date(2026, 3, 19)
