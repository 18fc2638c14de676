"""Whether repairs come back more or less often as time goes on."""

from __future__ import annotations

from datetime import date

import pytest

from app.trade.statistics.growth import laplace, military_handbook
from app.work.statistics.over_time import over_time
from app.work.statistics.question import Question


def repairs(past, came):
    """One repair every 20 days up to 300 days ago; ``came`` says of each whether it came back after 10 days."""
    with past.at_once():
        for at, back in enumerate(came):
            ago = 300 + 20 * (len(came) - at)
            unit = past.unit()
            past.job(unit, ago + 5, ago)
            if back:
                past.job(unit, ago - 10)


@pytest.mark.parametrize(
    ("came", "key"),
    [
        ([False] * 20 + [True] * 10, "Repairs come back more often as time goes on (p {p})"),
        ([True] * 10 + [False] * 20, "Repairs come back less often as time goes on (p {p})"),
        ([True, False] * 12, "No trend shown"),
        ([False] * 12, "No repair came back"),
        ([True] * 12, "No trend shown"),
        ([True], "Too few repairs to show a trend"),
    ],
)
def test_the_headline_says_what_the_tests_show(past, came, key):
    repairs(past, came)
    found = over_time(past.shop.book, Question())
    assert found.headline.key == key
    places = [at + 0.5 for at, back in enumerate(came) if back]
    assert found.laplace == laplace(places, len(came))
    assert found.military_handbook == military_handbook(places, len(came))
    assert (found.power_law is not None) is (len(places) > 1)
    assert (sum(row.could for row in found.rows), sum(row.came_back for row in found.rows)) == (
        len(came),
        sum(came),
    )


def test_quarters_follow_each_other_also_where_nothing_was_handed_back(past):
    past.job(past.unit(), 1001, 1000)
    past.job(past.unit(), 601, 600)
    found = over_time(past.shop.book, Question())
    assert [row.could for row in found.rows] == [1, 0, 0, 0, 0, 1]
    assert (found.rows[0].first, found.rows[0].last) == (date(2023, 4, 1), date(2023, 6, 30))
    assert (found.rows[1].share, found.centre) == (None, 0.0)


@pytest.mark.parametrize(
    ("ups", "said"), [(1, "1 quarter lies outside"), (2, "{count} quarters lie outside"), (0, None)]
)
def test_quarters_outside_the_limits_are_said(past, ups, said):
    with past.at_once():
        for quarter in range(5 * ups + 1):
            for at in range(14):
                ago, unit = 300 + 91 * quarter, past.unit()
                past.job(unit, ago + 5, ago)
                if quarter < ups and at < 12:
                    past.job(unit, ago - 10)
    found = over_time(past.shop.book, Question())
    outside = [sentence.key for sentence in found.said if "outside" in sentence.key]
    assert [key.startswith(said) for key in outside] == ([True] if said else [])
    assert sum(row.outside for row in found.rows) == ups


def test_an_empty_book_is_a_sentence(past):
    found = over_time(past.shop.book, Question())
    assert (found.headline.key, found.rows, found.centre) == ("No repair has been handed back yet.", (), None)
