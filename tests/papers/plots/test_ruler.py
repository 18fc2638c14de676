"""Axes: round marks that hold every value, also where all values are the same or there is none."""

from __future__ import annotations

from datetime import UTC, date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.papers.plots.ruler import ruler
from app.trade.sentence import Sentence
from app.trade.statistics.picture import Axis, Scale
from app.trade.wording import Wording, plain

WORDS = plain(UTC)
GERMAN = Wording(lambda key: key, "de", UTC)


def axis(scale, least=None, most=None):
    return Axis(name=Sentence("jobs"), scale=scale, least=least, most=most)


def said(found):
    return [words.replace("\u00a0", " ").replace("\u202f", " ") for _, words in found.marks]


def day(year, month=1, of=1):
    return float(date(year, month, of).toordinal())


def test_shares_are_per_cent_and_never_above_all():
    assert said(ruler(axis(Scale.SHARE, 0.0), [0.02, 0.41], WORDS)) == [
        "0 %", "10 %", "20 %", "30 %", "40 %", "50 %",
    ]  # fmt: skip
    assert ruler(axis(Scale.SHARE, 0.0), [0.97], WORDS).most == 1.0
    assert said(ruler(axis(Scale.SHARE, 0.0), [0.011], GERMAN))[1] == "0,5 %"


def test_counts_have_whole_marks():
    assert said(ruler(axis(Scale.COUNT, 0.0), [1, 2], WORDS)) == ["0", "1", "2"]
    assert said(ruler(axis(Scale.COUNT, 0.0), [99_960], WORDS))[-1] == "100 000"


def test_numbers_begin_below_the_least_and_may_be_below_zero():
    found = ruler(axis(Scale.NUMBER), [-3.2, 12.1], WORDS)
    assert (found.least, found.most) == (-5.0, 15.0)
    assert said(found) == ["\u22125", "0", "5", "10", "15"]


def test_values_that_are_all_the_same_or_none_at_all_still_have_an_axis():
    found = ruler(axis(Scale.NUMBER), [52.0, 52.0], WORDS)
    assert found.least < 52.0 < found.most
    assert ruler(axis(Scale.NUMBER), [0.0], WORDS).most > 0.0
    assert said(ruler(axis(Scale.COUNT, 0.0), [], WORDS)) == ["0", "1"]
    one = ruler(axis(Scale.DATE), [day(2025, 6)], WORDS)
    assert one.least < day(2025, 6) < one.most


def test_days_have_the_marks_that_numbers_at_risk_stand_under():
    marks = (0.0, 90.0, 180.0, 270.0, 360.0)
    assert said(ruler(axis(Scale.DAYS, 0.0, 360.0), [], WORDS, marks=marks)) == [
        "0",
        "90",
        "180",
        "270",
        "360",
    ]
    assert said(ruler(axis(Scale.DAYS, 0.0), [12.0, 6.2], WORDS)) == ["0", "3", "6", "9", "12"]
    assert said(ruler(axis(Scale.DAYS, 0.0), [0.4], WORDS))[0] == "0.0"


@pytest.mark.parametrize(
    ("first", "last", "words"),
    [
        (day(2007), day(2026, 11), ["2010", "2015", "2020", "2025"]),
        (day(2023, 11, 15), day(2026, 5, 15), ["Jan 2024", "Jul 2024", "Jan 2025", "Jul 2025", "Jan 2026"]),
        (day(2025, 1, 1), day(2025, 4, 20), ["Jan 2025", "Feb 2025", "Mar 2025", "Apr 2025"]),
        (
            day(2025, 12, 28),
            day(2026, 1, 3),
            ["28 Dec", "29 Dec", "30 Dec", "31 Dec", "1 Jan", "2 Jan", "3 Jan"],
        ),
        (day(2025, 12, 1), day(2026, 1, 10), ["1 Dec", "8 Dec", "15 Dec", "22 Dec", "29 Dec", "5 Jan"]),
    ],
)
def test_time_is_marked_where_years_months_or_weeks_begin(first, last, words):
    assert said(ruler(axis(Scale.DATE), [first, last], WORDS, 7)) == words


@given(
    st.sampled_from([Scale.NUMBER, Scale.COUNT, Scale.SHARE, Scale.DAYS]),
    st.lists(st.floats(0, 1e6).map(lambda n: round(n, 4)), max_size=5),
    st.booleans(),
)
def test_every_value_has_its_place_between_the_ends(scale, values, from_zero):
    values = [value / 1e6 for value in values] if scale is Scale.SHARE else values
    found = ruler(axis(scale, 0.0 if from_zero else None), values, WORDS)
    assert found.least < found.most
    assert all(found.least - 1e-6 <= value <= found.most * (1 + 1e-9) + 1e-9 for value in values)
    places = [place for place, _ in found.marks]
    assert places == sorted(places)
    assert 1 <= len(places) <= 12
    assert all(0.0 <= found.share(place) <= 1.0 for place in places)
