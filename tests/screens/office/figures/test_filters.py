"""What is asked for on the pages of figures."""

from __future__ import annotations

from datetime import date

import pytest

from app.screens.office.figures.figure_kinds import KINDS
from app.screens.office.figures.filters import CHOSEN, THREE, WHOLE, YEAR, Filters, years_back
from app.trade.statistics.comebacks import By
from app.trade.statistics.definition import Followed
from app.trade.statistics.questions import QUESTIONS

TODAY = date(2026, 3, 12)


@pytest.mark.parametrize(
    ("period", "days"),
    [
        (WHOLE, (None, None)),
        (YEAR, (date(2025, 3, 12), None)),
        (THREE, (date(2023, 3, 12), None)),
        (2024, (date(2024, 1, 1), date(2024, 12, 31))),
        (CHOSEN, (date(2026, 1, 1), None)),
    ],
)
def test_a_period_is_two_days_or_an_open_end(period, days):
    assert Filters(period=period, since=date(2026, 1, 1)).days(TODAY) == days


def test_a_year_before_29_february_is_the_28th():
    assert years_back(date(2024, 2, 29), 1) == date(2023, 2, 28)


def test_every_question_has_its_page():
    assert list(KINDS) == list(QUESTIONS)


def test_a_page_asks_only_for_what_says_something_on_it():
    filters = Filters(by=By.MAKER, window=30, modified=True, maker="Quellmar", period=YEAR)
    rate = filters.asked(KINDS["comeback-rate"], TODAY)
    assert (rate["by"], rate["window"], rate["modified"], rate["maker"]) == (By.MAKER, 30, True, "Quellmar")
    assert rate["since"] == date(2025, 3, 12)
    changed = filters.asked(KINDS["after-modification"], TODAY)
    assert "by" not in changed
    assert "modified" not in changed
    assert "window" not in Filters().asked(KINDS["comeback-rate"], TODAY)  # the shop's own


def test_the_transport_is_followed_where_returns_are_counted():
    filters = Filters(followed=Followed.TRANSPORT)
    asked = {name: filters.asked(kind, TODAY).get("followed") for name, kind in KINDS.items()}
    assert {name for name, followed in asked.items() if followed is Followed.TRANSPORT} == {
        "comeback-rate",
        "how-long",
        "keep-coming",
        "over-time",
        "after-modification",
    }
    assert all("followed" not in Filters().asked(kind, TODAY) for kind in KINDS.values())  # the shop's own
    assert filters.cleared() == filters


def test_clearing_takes_what_keeps_jobs_out_and_leaves_the_rest():
    filters = Filters(by=By.MAKER, window=30, modified=True)
    assert filters.narrowed(KINDS["comeback-rate"])
    assert not filters.narrowed(KINDS["after-modification"])
    assert filters.cleared() == Filters(by=By.MAKER, window=30)
    assert not filters.cleared().narrowed(KINDS["comeback-rate"])
