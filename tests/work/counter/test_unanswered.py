"""A customer who was asked and does not answer shows at the counter after the days of the settings."""

from __future__ import annotations

from app.trade.bench.stages import Waiting
from app.trade.counter.agreements import MessageEntry
from app.trade.settings import NO_ANSWER_DAYS
from app.work.counter.job_rows import job_rows
from app.work.counter.jobs_list import shop_counts
from app.work.counter.messages import add_message
from app.work.counter.stages import set_waiting
from app.work.office.settings import change_settings
from tests.work.office.conftest import bench  # noqa: F401  # fixture
from tests.work.office.test_estimates import out


def at_the_counter(bench) -> tuple[int | None, int]:  # noqa: F811
    """Days without an answer on the row of the job, and how many jobs wait too long."""
    return job_rows(bench.book, [bench.job])[0].unanswered, shop_counts(bench.book).unanswered


def test_an_estimate_without_an_answer_shows_after_five_days(bench):  # noqa: F811
    out(bench)
    assert at_the_counter(bench) == (None, 0)
    bench.shop.clock.advance(days=4)
    assert at_the_counter(bench) == (None, 0)
    assert job_rows(bench.book, [bench.job])[0].waiting_since is not None
    bench.shop.clock.advance(days=1)
    assert at_the_counter(bench) == (5, 1)


def test_the_shop_sets_after_how_many_days(bench):  # noqa: F811
    out(bench)
    change_settings(bench.book, bench.who, {NO_ANSWER_DAYS: 2})
    bench.shop.clock.advance(days=2)
    assert at_the_counter(bench) == (2, 1)


def test_ringing_again_begins_the_days_anew(bench):  # noqa: F811
    out(bench)
    bench.shop.clock.advance(days=6)
    add_message(bench.book, bench.who, bench.job, MessageEntry(text="Did it reach you?", awaits_answer=True))
    assert at_the_counter(bench) == (None, 0)
    bench.shop.clock.advance(days=5)
    assert at_the_counter(bench) == (5, 1)


def test_who_was_never_asked_is_not_reminded_of(bench):  # noqa: F811
    set_waiting(bench.book, bench.who, bench.job, Waiting.ANSWER)
    bench.shop.clock.advance(days=50)
    assert at_the_counter(bench) == (None, 0)


def test_a_job_that_waits_for_no_answer_is_left_alone(bench):  # noqa: F811
    out(bench)
    set_waiting(bench.book, bench.who, bench.job, Waiting.PART)
    bench.shop.clock.advance(days=50)
    assert at_the_counter(bench) == (None, 0)
