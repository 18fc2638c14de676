"""Axes: their ends, their round numbers, and how these are written."""

from __future__ import annotations

import math
from datetime import UTC, date

import pytest

from app.screens import language
from app.screens.kit.plots.scales import place_words, ruler, value_words
from app.trade.sentence import Sentence
from app.trade.statistics.picture import Axis, Scale
from app.trade.wording import Wording

NAME = Sentence("x")


def words(axis: Axis, *values: float | None, pieces: float = 5) -> list[str]:
    return [word.replace("\u00a0", " ") for _, word in ruler(axis, values, pieces=pieces).ticks]


def test_shares_are_per_cent_from_nothing_to_a_round_one_that_holds_all() -> None:
    assert words(Axis(name=NAME, scale=Scale.SHARE), 0.27, None, 0.44) == [
        "0 %",
        "10 %",
        "20 %",
        "30 %",
        "40 %",
        "50 %",
    ]
    assert words(Axis(name=NAME, scale=Scale.SHARE), 0.97)[-1] == "100 %"
    assert words(Axis(name=NAME, scale=Scale.SHARE), 0.012) == ["0.0 %", "0.5 %", "1.0 %", "1.5 %"]


def test_counts_have_whole_steps() -> None:
    assert words(Axis(name=NAME, scale=Scale.COUNT), 1, 3) == ["0", "1", "2", "3"]
    assert words(Axis(name=NAME, scale=Scale.COUNT), 61) == ["0", "20", "40", "60", "80"]


def test_days_have_steps_of_months_and_years() -> None:
    assert words(Axis(name=NAME, scale=Scale.DAYS, least=0, most=540), pieces=6) == [
        "0",
        "90",
        "180",
        "270",
        "360",
        "450",
        "540",
    ]


def test_readings_that_lie_close_are_not_pressed_against_nothing() -> None:
    close = ruler(Axis(name=NAME, scale=Scale.NUMBER), (47.6, 56.0))
    assert close.least > 40
    same = ruler(Axis(name=NAME, scale=Scale.NUMBER), (52.0, 52.0))
    assert same.least < 52 < same.most
    assert ruler(Axis(name=NAME, scale=Scale.NUMBER), (1.0, 5.0)).least == 0


@pytest.mark.parametrize("scale", list(Scale))
def test_an_axis_over_nothing_still_has_two_ends(scale: Scale) -> None:
    found = ruler(Axis(name=NAME, scale=scale), (math.nan, None))
    assert found.least < found.most
    assert found.share(found.most + 5) == 1.0


def test_the_ends_that_an_axis_names_stay() -> None:
    found = ruler(Axis(name=NAME, scale=Scale.SHARE, least=0.0, most=0.43), (0.2,))
    assert (found.least, found.most) == (0.0, 0.43)


def test_one_day_alone_has_room_around_it() -> None:
    day = date(2026, 11, 26).toordinal()
    found = ruler(Axis(name=NAME, scale=Scale.DATE), (day, day))
    assert found.least < day < found.most


def test_values_are_worded_with_their_units() -> None:
    told = [
        value_words(0.273, Scale.SHARE),
        value_words(date(2026, 11, 26).toordinal(), Scale.DATE),
        value_words(1, Scale.DAYS),
        value_words(12, Scale.DAYS),
        value_words(12_345, Scale.COUNT),
        value_words(0.126, Scale.NUMBER),
        value_words(12.64, Scale.NUMBER),
        value_words(126.4, Scale.NUMBER),
        place_words(1, Scale.DAYS),
        place_words(180, Scale.DAYS),
        place_words(0.5, Scale.SHARE),
    ]
    assert [text.replace("\u00a0", " ").replace("\u202f", " ") for text in told] == [
        "27 %", "26 Nov 2026", "1 day", "12 days", "12 345", "0.13", "12.6", "126",
        "after 1 day", "after 180 days", "50 %",
    ]  # fmt: skip


def test_numbers_take_the_mark_of_the_language() -> None:
    language.use(Wording(lambda key: key, "de", UTC))
    assert words(Axis(name=NAME, scale=Scale.NUMBER), 0.4, 0.1) == ["0,0", "0,1", "0,2", "0,3", "0,4"]
