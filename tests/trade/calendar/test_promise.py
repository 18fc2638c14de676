"""The shop's calendar and its promises."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.calendar.promise import Closed, ShopCalendar, check_promise, days_late, local_day
from app.trade.refusal import Refusal

WEEKDAYS = frozenset({1, 2, 3, 4, 5})
CHRISTMAS = Closed(date(2026, 12, 24), date(2027, 1, 1), "Christmas")
SHOP = ShopCalendar(WEEKDAYS, (CHRISTMAS, Closed(date(2027, 5, 6), date(2027, 5, 6))))
FRIDAY = date(2026, 11, 27)


def test_working_days_skip_weekends_and_closed_days() -> None:
    assert SHOP.after(FRIDAY, 0) == FRIDAY
    assert SHOP.after(FRIDAY, 1) == date(2026, 11, 30)
    assert SHOP.after(FRIDAY, 5) == date(2026, 12, 4)
    assert SHOP.after(date(2026, 11, 28), 0) == date(2026, 11, 30)
    assert SHOP.after(date(2026, 11, 28), 1) == date(2026, 11, 30)
    assert SHOP.after(date(2026, 12, 23), 1) == date(2027, 1, 4)
    assert SHOP.next_open(date(2026, 12, 24)) == date(2027, 1, 4)


@pytest.mark.parametrize(
    ("day", "says"),
    [
        (date(2026, 11, 26), "past"),
        (date(2026, 12, 24), "{words}"),
        (date(2027, 1, 1), "{words}"),
        (date(2027, 5, 6), "closed on {day}."),
        (date(2026, 11, 28), "day of the week"),
    ],
)
def test_nothing_is_promised_for_a_day_without_business(day: date, says: str) -> None:
    wrong = check_promise(day, FRIDAY, SHOP)
    assert wrong is not None
    assert says in wrong.key
    assert wrong.values["day"] == day


def test_today_and_any_open_day_can_be_promised() -> None:
    assert check_promise(FRIDAY, FRIDAY, SHOP) is None
    assert check_promise(date(2027, 1, 4), FRIDAY, SHOP) is None


def test_a_shop_that_never_opens_is_told_so_and_does_not_hang() -> None:
    with pytest.raises(Refusal) as refused:
        ShopCalendar(frozenset()).after(FRIDAY, 3)
    assert refused.value.sentence.values == {"day": FRIDAY}
    with pytest.raises(Refusal):
        ShopCalendar(WEEKDAYS, (Closed(FRIDAY, date(2099, 1, 1)),)).next_open(FRIDAY)
    with pytest.raises(Refusal):
        SHOP.after(date.max, 1)


def test_lateness_counts_from_the_promised_day() -> None:
    assert days_late(date(2026, 11, 25), FRIDAY) == 2
    assert days_late(FRIDAY, FRIDAY) == 0
    assert days_late(date(2026, 12, 1), FRIDAY) == 0
    assert days_late(None, FRIDAY) == 0


def test_the_day_of_an_instant_is_the_shops_own() -> None:
    late = datetime(2026, 11, 26, 23, 30, tzinfo=UTC)
    assert local_day(late, ZoneInfo("Europe/Berlin")) == FRIDAY
    assert local_day(late, ZoneInfo("Pacific/Kiritimati")) == FRIDAY  # UTC+14
    assert local_day(late, ZoneInfo("America/New_York")) == date(2026, 11, 26)
    with pytest.raises(ValueError):
        local_day(datetime(2026, 11, 26, 23, 30), UTC)  # noqa: DTZ001  # naive on purpose


def test_only_days_are_in_a_closure() -> None:
    assert "Christmas" not in CHRISTMAS
    assert date(2026, 12, 25) in CHRISTMAS


@given(
    st.dates(date(2000, 1, 1), date(2099, 1, 1)),
    st.integers(0, 60),
    st.frozensets(st.integers(1, 7), min_size=1),
    st.lists(st.tuples(st.dates(date(2000, 1, 1), date(2099, 1, 1)), st.integers(0, 40)), max_size=4),
)
def test_the_promised_day_is_open_and_the_right_number_of_open_days_away(
    day: date, working: int, open_days: frozenset[int], closures: list[tuple[date, int]]
) -> None:
    calendar = ShopCalendar(open_days, tuple(Closed(a, a + timedelta(days=n)) for a, n in closures))
    promised = calendar.after(day, working)
    assert calendar.is_open(promised)
    assert check_promise(promised, day, calendar) is None
    passed = sum(calendar.is_open(day + timedelta(days=n)) for n in range(1, (promised - day).days + 1))
    assert passed == working or (working == 0 and passed <= 1)
