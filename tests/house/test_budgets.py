"""How the benchmarks judge: by the ratio to a floor of the same run, never by the clock alone."""

from __future__ import annotations

import pytest

from tests.benchmarks.budgets import verdict
from tests.benchmarks.measure import Budget, Measured, table

TWICE = Budget(500, floor=250)


def measured(ours: float, floor: float, budget: Budget | None = TWICE, what: str = "a thing") -> Measured:
    """One line."""
    return Measured(what, ours, floor, "a bare thing", budget)


@pytest.mark.parametrize("slowness", [0.2, 1, 40])
def test_a_slow_machine_says_the_same_as_a_fast_one(slowness: float) -> None:
    assert measured(400 * slowness, 220 * slowness).holds
    assert not measured(400 * slowness, 190 * slowness).holds


@pytest.mark.parametrize(
    ("ours", "says"),
    [(100, "kept"), (450, "kept, narrowly"), (500, "kept, narrowly"), (750, "**over**, by 50 %")],
)
def test_the_verdict_stands_in_words(ours: float, says: str) -> None:
    assert measured(ours, 250).verdict == says


def test_a_line_without_a_budget_only_tells() -> None:
    line = measured(9000, 1, None)
    assert line.holds
    assert line.verdict == "told only"


def test_the_table_has_the_plain_time_its_floor_and_the_ratio() -> None:
    assert table([measured(512.3, 250)]).splitlines()[-1] == (
        "| a thing | 512 ms | 250 ms | a bare thing | 2.05 | 2 | **over**, by 2 % |"
    )


def test_the_end_names_what_is_over() -> None:
    over, kept, told = measured(750, 250, what="the slow one"), measured(1, 250), measured(1, 1, None)
    assert verdict([over, kept, told]).strip() == "1 of 2 budgets are over: the slow one."
    assert verdict([kept, told]).strip() == "Every budget is kept (1)."
