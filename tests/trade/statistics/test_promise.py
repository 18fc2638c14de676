"""What the time that jobs took says about the next one."""

from __future__ import annotations

from datetime import date, timedelta

from app.trade.calendar.promise import ShopCalendar
from app.trade.statistics.promise import Turn, promise_help

WEEKDAYS = ShopCalendar(frozenset({1, 2, 3, 4, 5}))
MONDAY = date(2026, 1, 26)


def turns(*days, ready=True):
    return [Turn(MONDAY, MONDAY + timedelta(day), ready) for day in days]


def test_eight_of_ten_by_open_days() -> None:
    found = promise_help(turns(1, 1, 2, 3, 4, 5, 6, 7, 14, 28), WEEKDAYS)
    # the eighth was ready seven days later: the fifth open day behind that Monday, counted by hand
    assert (found.n, found.of_ten, found.working_days) == (10, 8, 5)
    assert found.sentence.values == {"of_ten": 8, "days": 5}


def test_nine_that_were_ready_are_too_few() -> None:
    found = promise_help(turns(*range(1, 10)), WEEKDAYS)
    assert (found.n, found.working_days) == (9, None)
    assert found.sentence.key.startswith("Too few")
    assert promise_help([], WEEKDAYS).n == 0


def test_slow_jobs_still_on_the_bench_make_the_promise_later_or_impossible() -> None:
    ready = turns(*[1] * 10)
    assert promise_help([*ready, *turns(1, ready=False)], WEEKDAYS).working_days == 1
    # two of twelve wait since long: 10 of 12 were ready after a day, which is more than eight of ten
    assert promise_help([*ready, *turns(40, 41, ready=False)], WEEKDAYS).working_days == 1
    # three of thirteen: 77 % after a day, and nobody knows when the others will be
    assert promise_help([*ready, *turns(40, 41, 42, ready=False)], WEEKDAYS).working_days is None


def test_one_day_and_the_same_day_have_words_of_their_own() -> None:
    assert promise_help(turns(*[1] * 10), WEEKDAYS).sentence.key.endswith("within 1 working day")
    assert promise_help(turns(*[0] * 10), WEEKDAYS).sentence.key.endswith("on the day they came")
    # days that cannot be right count as none
    assert promise_help(turns(*[-3] * 10), WEEKDAYS).working_days == 0
