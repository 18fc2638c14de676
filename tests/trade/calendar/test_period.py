"""Months, quarters and years by the calendar, and periods between any two days."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.calendar.period import Period, month_of, period_of, quarter_of, year_of
from app.trade.refusal import FieldRefusal

DAYS = st.dates(date(1990, 1, 1), date(2090, 12, 31))


@pytest.mark.parametrize(
    ("found", "first", "last"),
    [
        (month_of(date(2024, 2, 29)), date(2024, 2, 1), date(2024, 2, 29)),
        (month_of(date(2026, 1, 15), 1), date(2025, 12, 1), date(2025, 12, 31)),
        (quarter_of(date(2026, 11, 25)), date(2026, 10, 1), date(2026, 12, 31)),
        (quarter_of(date(2026, 2, 1), 1), date(2025, 10, 1), date(2025, 12, 31)),
        (year_of(date(2026, 11, 25)), date(2026, 1, 1), date(2026, 12, 31)),
        (year_of(date(2026, 11, 25), 1), date(2025, 1, 1), date(2025, 12, 31)),
    ],
)
def test_periods_of_the_calendar(found, first, last):
    assert found == Period(first, last)


@given(DAYS, st.sampled_from([month_of, quarter_of, year_of]), st.integers(0, 12))
def test_each_day_is_in_its_period_and_periods_follow_without_a_gap(day, of, back):
    assert day in of(day)
    assert of(day, back + 1).last + timedelta(days=1) == of(day, back).first
    assert of(of(day, back).last) == of(day, back)


def test_a_period_has_both_its_ends():
    period = period_of(date(2026, 3, 1), date(2026, 3, 1))
    assert date(2026, 3, 1) in period
    assert date(2026, 3, 2) not in period
    assert "2026-03-01" not in period


@pytest.mark.parametrize(
    ("first", "last", "fields"),
    [
        (None, date(2026, 3, 1), {"first"}),
        (None, None, {"first", "last"}),
        (date(2026, 3, 2), date(2026, 3, 1), {"last"}),
    ],
)
def test_no_period_without_two_days_in_order(first, last, fields):
    with pytest.raises(FieldRefusal) as refusal:
        period_of(first, last)
    assert set(refusal.value.fields) == fields
