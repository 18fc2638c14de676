"""Days as people write them."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from babel.dates import format_date
from hypothesis import given
from hypothesis import strategies as st

from app.screens.kit.day_words import read_day

TODAY = date(2026, 11, 25)  # a Wednesday


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("27 Nov", date(2026, 11, 27)),
        ("27 november 2026", date(2026, 11, 27)),
        ("27. Nov.", date(2026, 11, 27)),
        ("Nov 27", date(2026, 11, 27)),
        ("Nov 27th, 2027", date(2027, 11, 27)),
        ("27.11.", date(2026, 11, 27)),
        ("27.11.2026", date(2026, 11, 27)),
        ("27.11.26", date(2026, 11, 27)),
        ("27/11", date(2026, 11, 27)),
        ("27 11", date(2026, 11, 27)),
        ("2026-11-27", date(2026, 11, 27)),
        ("+8", date(2026, 12, 3)),
        ("+ 2w", date(2026, 12, 9)),
        ("+1m", date(2026, 12, 25)),
        ("Fri", date(2026, 11, 27)),
        ("friday", date(2026, 11, 27)),
        ("Wed", date(2026, 12, 2)),
        ("today", TODAY),
        ("tomorrow", date(2026, 11, 26)),
        ("Fri 27 Nov 2026", date(2026, 11, 27)),
        ("fri, 27.11.", date(2026, 11, 27)),
        ("3 Jan", date(2027, 1, 3)),
        ("1 Oct", date(2026, 10, 1)),
    ],
)
def test_it_is_read(text: str, day: date | None) -> None:
    assert read_day(text, TODAY) == day


@pytest.mark.parametrize(
    "text", ["", "x", "soon", "32 Nov", "27 Nox", "2026-13-01", "+", "+9999", "27", "1 2 3 4", "Nov", "m"]
)
def test_it_is_not_read(text: str) -> None:
    assert read_day(text, TODAY) is None


@pytest.mark.parametrize(
    ("text", "day"),
    [("27. Dezember", date(2026, 12, 27)), ("Fr", date(2026, 11, 27)), ("morgen", date(2026, 11, 26))],
)
def test_german_words_are_read_in_german(text: str, day: date) -> None:
    assert read_day(text, TODAY, "de") == day


DAYS = st.dates(date(2000, 1, 1), date(2099, 12, 31))


@given(DAYS, DAYS, st.sampled_from(["d MMM y", "EEE d MMM y", "d.M.y", "d/M/y", "y-MM-dd", "d MMMM y"]))
def test_what_is_written_in_full_is_read_back_whatever_today_is(day: date, today: date, style: str) -> None:
    # Oracle: babel writes the day.
    for locale in ("en_GB", "de"):
        assert read_day(str(format_date(day, style, locale=locale)), today, locale) == day


@given(DAYS, st.integers(0, 400))
def test_a_plus_counts_days(today: date, days: int) -> None:
    assert read_day(f"+{days}", today) == today + timedelta(days=days)


@given(st.text(max_size=20), DAYS)
def test_nothing_that_is_typed_breaks_it(text: str, today: date) -> None:
    found = read_day(text, today)
    assert found is None or isinstance(found, date)
