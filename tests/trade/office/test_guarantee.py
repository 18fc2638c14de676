"""The guarantee on a repair."""

from __future__ import annotations

from datetime import date

from app.trade.office.guarantee import days_left, guarantee_until, running

BACK = date(2026, 11, 27)


def test_the_last_day_counts_in_full() -> None:
    until = guarantee_until(BACK, 181)
    assert until == date(2027, 5, 27)
    assert days_left(until, date(2027, 1, 13)) == 134  # counted by hand: 18 + 28 + 31 + 30 + 27
    assert days_left(until, date(2027, 5, 27)) == 0
    assert days_left(until, date(2027, 5, 28)) is None


def test_a_shop_may_give_none() -> None:
    assert guarantee_until(BACK, 0) is None
    assert days_left(None, BACK) is None
    assert running(2131, None, BACK) is None


def test_the_counter_reads_what_is_left() -> None:
    until = guarantee_until(BACK, 181)
    many = running(2131, until, date(2027, 1, 13))
    assert many is not None
    assert many.values == {"job": "2131", "until": until, "days": 134}
    one = running(2131, until, date(2027, 5, 26))
    assert one is not None
    assert "one day" in one.key
    last = running(2131, until, date(2027, 5, 27))
    assert last is not None
    assert "last day" in last.key
    assert running(2131, until, date(2027, 5, 28)) is None


def test_a_leap_day_is_a_day() -> None:
    assert guarantee_until(date(2028, 2, 28), 2) == date(2028, 3, 1)
