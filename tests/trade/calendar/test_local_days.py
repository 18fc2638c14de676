"""The day of an instant by a table of days is the day that the clock on the wall shows."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.calendar.local_days import day_numbers, local_days

EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
# Apia left out 30 December 2011; Sao Paulo jumped at midnight until 2018; Lord Howe moves by half an hour;
# Kathmandu stands at 5:45. Source: the IANA time zone data, through zoneinfo, which is the oracle as well.
ZONES = ["Europe/Berlin", "Pacific/Apia", "America/Sao_Paulo", "Australia/Lord_Howe", "Asia/Kathmandu", "UTC"]


def micros(instant: datetime) -> int:
    return (instant - EPOCH) // timedelta(microseconds=1)


@pytest.mark.parametrize("name", ZONES)
@given(
    st.lists(
        st.integers(micros(datetime(2009, 1, 1, tzinfo=UTC)), micros(datetime(2020, 1, 1, tzinfo=UTC))),
        min_size=1,
    )
)
def test_the_day_is_that_of_the_clock_on_the_wall(name: str, instants: list[int]) -> None:
    zone = ZoneInfo(name)
    day = local_days(min(instants), max(instants), zone)
    assert [day(instant) for instant in instants] == [
        (EPOCH + timedelta(microseconds=instant)).astimezone(zone).date() for instant in instants
    ]
    numbers = day_numbers(np.array(instants, dtype=np.int64), zone)
    assert numbers.tolist() == [day(instant).toordinal() for instant in instants]


@pytest.mark.parametrize("name", ZONES)
def test_every_quarter_of_an_hour_of_two_years_is_of_its_day(name: str) -> None:
    zone = ZoneInfo(name)
    first, last = datetime(2011, 1, 1, tzinfo=UTC), datetime(2013, 1, 1, tzinfo=UTC)
    day = local_days(micros(first), micros(last), zone)
    instant = first
    while instant <= last:
        assert day(micros(instant)) == instant.astimezone(zone).date()
        assert day(micros(instant) + 899_999_999) == instant.astimezone(zone).date()
        instant += timedelta(minutes=15)


def test_midnight_begins_the_day_and_the_microsecond_before_ends_the_last() -> None:
    midnight = datetime(2026, 3, 11, 23, tzinfo=UTC)  # 0:00 in Berlin
    day = local_days(micros(midnight) - 1, micros(midnight), ZoneInfo("Europe/Berlin"))
    assert day(micros(midnight)) == date(2026, 3, 12)
    assert day(micros(midnight) - 1) == date(2026, 3, 11)


def test_a_column_without_instants_has_no_days() -> None:
    assert day_numbers(np.zeros(0, dtype=np.int64), ZoneInfo("Europe/Berlin")).tolist() == []
