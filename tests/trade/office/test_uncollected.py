"""A player that waits to be collected: from when a notice may be written."""

from __future__ import annotations

from datetime import date, timedelta

from app.trade.office.uncollected import Waits, collect_by, notice_refused, uncollected

READY, TOLD = date(2026, 9, 1), date(2026, 9, 4)


def test_the_time_to_collect_runs_from_the_message() -> None:
    assert collect_by(Waits(READY, TOLD), 30) == date(2026, 10, 4)


def test_a_message_from_before_it_was_ready_starts_nothing() -> None:
    assert Waits(READY, READY - timedelta(days=5)).since == READY
    assert Waits(READY, None).since == READY


def test_the_last_day_is_still_the_customers() -> None:
    waits = Waits(READY, TOLD)
    assert not uncollected(waits, 30, date(2026, 10, 4))
    assert uncollected(waits, 30, date(2026, 10, 5))


def test_a_notice_waits_for_that_day_and_is_written_once_a_day() -> None:
    refused = notice_refused(Waits(READY, TOLD), 30, date(2026, 10, 4))
    assert refused is not None
    assert refused.values == {"day": date(2026, 10, 4)}
    day = date(2026, 10, 5)
    assert notice_refused(Waits(READY, TOLD), 30, day) is None
    assert notice_refused(Waits(READY, TOLD, noticed=day), 30, day) is not None
    assert notice_refused(Waits(READY, TOLD, noticed=day), 30, day + timedelta(days=1)) is None
