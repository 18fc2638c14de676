"""Days as people write them."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from babel.dates import format_date
from hypothesis import given
from hypothesis import strategies as st

from app.trade.calendar.day_words import read_day

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
        ("Day after  tomorrow", date(2026, 11, 27)),
        ("yesterday", date(2026, 11, 24)),
        ("day before yesterday", date(2026, 11, 23)),
        ("+3 days", date(2026, 11, 28)),
        ("-3", date(2026, 11, 22)),
        ("\N{MINUS SIGN}1 week", date(2026, 11, 18)),
        ("in 3 days", date(2026, 11, 28)),
        ("in 1 month", date(2026, 12, 25)),
        ("3 days ago", date(2026, 11, 22)),
        ("Fri 27 Nov 2026", date(2026, 11, 27)),
        ("fri, 27.11.", date(2026, 11, 27)),
        ("3 Jan", date(2027, 1, 3)),
        ("1 Oct", date(2026, 10, 1)),
    ],
)
def test_it_is_read(text: str, day: date | None) -> None:
    assert read_day(text, TODAY) == day


@pytest.mark.parametrize(
    "text",
    [
        "",
        "x",
        "soon",
        "32 Nov",
        "27 Nox",
        "2026-13-01",
        "+",
        "+9999",
        "27",
        "1 2 3 4",
        "Nov",
        "m",
        "+3 moons",
        "3 days",
        "in 3 days ago",
        "in 3 moons",
        "vor 3",
        "29 Feb 2027",
        "Nox 27",
        "in 1200 months",
    ],
)
def test_it_is_not_read(text: str) -> None:
    assert read_day(text, TODAY) is None


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("27. Dezember", date(2026, 12, 27)),
        ("Fr", date(2026, 11, 27)),
        ("donnerstag", date(2026, 11, 26)),
        ("So., 29.11.", date(2026, 11, 29)),
        ("heute", TODAY),
        ("morgen", date(2026, 11, 26)),
        ("Übermorgen", date(2026, 11, 27)),
        ("gestern", date(2026, 11, 24)),
        ("vorgestern", date(2026, 11, 23)),
        ("+3 Tage", date(2026, 11, 28)),
        ("in 2 Wochen", date(2026, 12, 9)),
        ("vor 3 Tagen", date(2026, 11, 22)),
    ],
)
def test_german_words_are_read_too(text: str, day: date) -> None:
    assert read_day(text, TODAY) == day


def test_days_at_the_ends_of_the_calendar_are_no_days() -> None:
    assert read_day("tomorrow", date.max) is None
    assert read_day("yesterday", date.min) is None
    assert read_day("Fri", date.max) is None
    assert read_day("+1", date.max) is None


DAYS = st.dates(date(2000, 1, 1), date(2099, 12, 31))


@given(DAYS, DAYS, st.sampled_from(["d MMM y", "EEE d MMM y", "d.M.y", "d/M/y", "y-MM-dd", "d MMMM y"]))
def test_what_is_written_in_full_is_read_back_whatever_today_is(day: date, today: date, style: str) -> None:
    # Oracle: babel writes the day.
    for locale in ("en_GB", "de"):
        assert read_day(str(format_date(day, style, locale=locale)), today) == day


@given(DAYS, st.integers(0, 400))
def test_a_plus_counts_days(today: date, days: int) -> None:
    assert read_day(f"+{days}", today) == today + timedelta(days=days)


@given(st.text(max_size=20), DAYS)
def test_nothing_that_is_typed_breaks_it(text: str, today: date) -> None:
    found = read_day(text, today)
    assert found is None or isinstance(found, date)


# Oracle: babel names the days of the week, in full and in short.
@given(DAYS, st.integers(1, 7), st.sampled_from(["EEEE", "EEE"]), st.sampled_from(["en_GB", "de"]))
def test_the_name_of_a_day_is_the_next_such_day(today: date, away: int, style: str, locale: str) -> None:
    day = today + timedelta(days=away)
    assert read_day(str(format_date(day, style, locale=locale)), today) == day


@given(
    DAYS,
    st.integers(1, 999),
    st.sampled_from(
        [("+{}", "-{}"), ("in {} days", "{} days ago"), ("in {} Tagen", "vor {} Tagen"), ("+{} d", "-{}t")]
    ),
)
def test_a_count_forth_and_the_same_count_back_are_told_apart(
    today: date, count: int, words: tuple[str, str]
) -> None:
    forth, back = words
    assert read_day(forth.format(count), today) == today + timedelta(days=count)
    assert read_day(back.format(count), today) == today - timedelta(days=count)


@given(st.text(max_size=20), st.sampled_from([date.min, date.max, date(1, 1, 30), date(9999, 12, 1)]))
def test_nothing_breaks_it_at_the_ends_of_the_calendar_either(text: str, today: date) -> None:
    read_day(text, today)
