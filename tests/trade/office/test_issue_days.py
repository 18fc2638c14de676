"""The date of the next number: never before the number before it, never ahead of time."""

from __future__ import annotations

from datetime import date

import pytest

from app.trade.office.issue_days import IssueDays

TODAY = date(2026, 11, 26)
TAKEN_IN = date(2026, 11, 3)


@pytest.mark.parametrize(
    ("day", "previous", "right"),
    [
        (date(2026, 11, 26), None, True),
        (date(2026, 11, 20), None, True),
        (date(2026, 11, 26), date(2026, 11, 26), True),
        (date(2026, 11, 26), date(2026, 11, 20), True),
        (date(2026, 11, 25), date(2026, 11, 26), False),
        (date(2026, 11, 27), date(2026, 11, 26), False),
        (date(2026, 11, 27), None, False),
        (date(2026, 11, 3), date(2026, 10, 30), True),
        (date(2026, 11, 2), date(2026, 10, 30), False),  # the player was not here yet
        # The clock was put back: the last invoice carries a day that has not come yet.
        (date(2026, 11, 26), date(2026, 12, 1), False),
        (date(2026, 12, 1), date(2026, 12, 1), True),
        (date(2026, 12, 2), date(2026, 12, 1), False),
    ],
)
def test_an_issue_date_never_goes_back_and_never_ahead(day: date, previous: date | None, right: bool) -> None:
    assert (IssueDays(TODAY, previous, TAKEN_IN).check(day) is None) is right


def test_what_is_proposed_is_today_and_can_always_be_issued() -> None:
    assert IssueDays(TODAY, None, TAKEN_IN).proposed == TODAY
    for previous in (None, date(2026, 11, 20), date(2026, 12, 1)):
        for begun in (TAKEN_IN, date(2026, 12, 5)):  # taken in while a clock was ahead
            days = IssueDays(TODAY, previous, begun)
            assert days.check(days.proposed) is None


def test_the_sentence_says_which_day_is_in_the_way() -> None:
    early = date(2026, 11, 1)
    for days, said in (
        (IssueDays(TODAY, TODAY, TAKEN_IN), "The number before this one"),
        (IssueDays(TODAY, None, TAKEN_IN), "The player was taken in"),
        (IssueDays(TODAY, None, TAKEN_IN, of_credit=True), "The invoice was issued"),
    ):
        wrong = days.check(early)
        assert wrong is not None
        assert wrong.key.startswith(said)
