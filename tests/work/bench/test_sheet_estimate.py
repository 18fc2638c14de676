"""The sheet of a job says where its estimate stands: written, waiting, agreed to, declined, never answered."""

from __future__ import annotations

import pytest

from app.trade.bench.stages import Outcome
from app.trade.money import MICRO, Money
from app.trade.office.estimate import OptionEntry
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatRate
from app.work.bench.sheet_estimate import SheetEstimate, Standing
from app.work.office.estimate_answers import AnswerEntry, record_answer
from app.work.office.estimate_view import estimate_view
from app.work.office.estimates import (
    EstimatedLine,
    add_line,
    add_option,
    begin_estimate,
    give_up,
    issue_estimate,
)

FIFTY = EstimatedLine(kind=LineKind.FIXED_CHARGE, words="Cleaning", price=50 * MICRO, vat=VatRate(1900))


@pytest.fixture
def written(bench):
    """An estimate of 50.00 without VAT that is being written."""
    key = begin_estimate(bench.book, bench.tobbe, bench.job).value
    add_line(bench.book, bench.tobbe, options(bench)[0].kept.id, FIFTY)
    return key


def options(bench):
    return estimate_view(bench.book, bench.job).now.options


def answer(bench, estimate, option_id):
    record_answer(
        bench.book, bench.tobbe, estimate, AnswerEntry(option_id=option_id, said_by="Benedikt Arnsvik")
    )


def test_a_job_without_one_says_nothing_and_one_that_was_given_up_is_none(bench):
    assert bench.sheet.estimate is None
    give_up(bench.book, bench.tobbe, begin_estimate(bench.book, bench.tobbe, bench.job).value)
    assert bench.sheet.estimate is None


def test_it_waits_until_it_is_time_to_ring(bench, written):
    assert bench.sheet.estimate == SheetEstimate(Standing.WRITTEN)
    issue_estimate(bench.book, bench.tobbe, written)
    assert bench.sheet.estimate == SheetEstimate(Standing.WAITS, "0001")
    bench.later(days=9)
    assert bench.sheet.estimate == SheetEstimate(Standing.WAITS, "0001", unanswered=9)


def test_a_yes_to_the_only_way_says_up_to_how_much(bench, written):
    issue_estimate(bench.book, bench.tobbe, written)
    answer(bench, written, options(bench)[0].kept.id)
    agreed = bench.sheet.estimate
    assert (agreed.standing, agreed.letter, agreed.up_to) == (Standing.AGREED, "", Money(5950, "EUR"))


def test_the_option_that_was_chosen_is_named_and_the_last_word_counts(bench, written):
    more = OptionEntry(title="with a new belt", never_above=9_000)
    add_option(bench.book, bench.tobbe, written, more, like=options(bench)[0].kept.id)
    issue_estimate(bench.book, bench.tobbe, written)
    first, second = options(bench)
    answer(bench, written, first.kept.id)
    assert bench.sheet.estimate.letter == "A"
    answer(bench, written, second.kept.id)
    assert bench.sheet.estimate == SheetEstimate(
        Standing.AGREED, "0001", letter="B", title="with a new belt", up_to=Money(9000, "EUR")
    )
    answer(bench, written, None)
    assert bench.sheet.estimate == SheetEstimate(Standing.DECLINED, "0001")


def test_the_last_that_went_out_counts_while_a_new_one_is_written(bench, written):
    issue_estimate(bench.book, bench.tobbe, written)
    answer(bench, written, None)
    begin_estimate(bench.book, bench.tobbe, bench.job)
    assert bench.sheet.estimate.standing is Standing.DECLINED


def test_of_a_job_that_went_nobody_is_rung(bench, written):
    issue_estimate(bench.book, bench.tobbe, written)
    bench.close(Outcome.NO_FAULT_SHOWN)
    bench.later(days=30)
    assert bench.sheet.estimate == SheetEstimate(Standing.LEFT, "0001")
