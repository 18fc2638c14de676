"""The small line beside a value puts its limits at the same places on screen and paper."""

from __future__ import annotations

import pytest

from app.trade.bench.scale import HIGH_AT, LOW_AT, on_scale


def test_both_limits_stand_at_their_places_and_what_lies_between_them_between() -> None:
    assert on_scale(0.8, 0.8, 1.4) == pytest.approx(LOW_AT)
    assert on_scale(1.4, 0.8, 1.4) == pytest.approx(HIGH_AT)
    assert on_scale(1.1, 0.8, 1.4) == pytest.approx(0.5)


def test_with_one_limit_zero_stands_at_the_end_of_the_line() -> None:
    assert on_scale(0, None, 300) == pytest.approx(0)
    assert on_scale(300, None, 300) == pytest.approx(HIGH_AT)
    assert on_scale(2, 2, None) == pytest.approx(LOW_AT)
    assert on_scale(4, 2, None) == pytest.approx(1)


def test_a_value_beyond_the_line_is_told_from_one_at_its_end() -> None:
    assert on_scale(4.8, None, 1.5) > 1
    assert on_scale(-80, -50, 50) > 0 > on_scale(-150, -50, 50)


def test_limits_of_zero_or_of_one_point_divide_by_nothing() -> None:
    assert on_scale(0, None, 0) == pytest.approx(HIGH_AT)
    assert on_scale(5, 5, 5) == pytest.approx(HIGH_AT)


def test_without_limits_there_is_no_scale() -> None:
    assert on_scale(17, None, None) == 0.5
