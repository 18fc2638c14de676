"""Counts sorted, with the share they reach together."""

from __future__ import annotations

import pytest

from app.trade.statistics.pareto import Bar, pareto


def test_the_largest_come_first_and_the_last_reaches_the_whole():
    # counted by hand
    assert pareto({"radial": 5, "light": 12, "focus": 3, "disc": 0}) == (
        Bar("light", 12, 0.6, 0.6),
        Bar("radial", 5, 0.25, 0.85),
        Bar("focus", 3, 0.15, 1.0),
    )


def test_equal_counts_stand_by_their_labels():
    assert [bar.label for bar in pareto({"b": 2, "a": 2})] == ["a", "b"]


def test_nothing_counted_is_no_bar():
    assert pareto({}) == pareto({"a": 0}) == ()


def test_what_is_no_count_is_refused():
    with pytest.raises(ValueError):
        pareto({"a": -1})
