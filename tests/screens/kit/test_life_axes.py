"""Axes: round steps that hold everything, years or months below."""

from __future__ import annotations

import itertools
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.screens.kit.life import LifeFacts, LifeLimit, LifeReading
from app.screens.kit.life_axes import Axes, nice_step, spans


@pytest.mark.parametrize(("span", "step"), [(20, 5), (10, 5), (1, 0.5), (0.3, 0.1), (400, 100), (7, 2)])
def test_steps_are_round(span: float, step: float) -> None:
    assert nice_step(span) == pytest.approx(step)


VALUES = st.lists(st.floats(-1e4, 1e4, allow_nan=False), min_size=1, max_size=8)


@given(VALUES, st.none() | st.floats(-1e4, 1e4, allow_nan=False))
def test_the_axes_hold_every_value(values: list[float], limit: float | None) -> None:
    facts = LifeFacts(
        date(2019, 1, 1),
        date(2027, 1, 1),
        date(2026, 1, 1),
        readings=tuple(LifeReading(date(2020, 1, 1), v, 0.5) for v in values),
        limits=(LifeLimit(limit, ("limit",)),) if limit is not None else (),
    )
    axes = Axes.over(facts, 60, 1000, 100, 400)
    for value in [*values, *([limit] if limit is not None else [])]:
        assert 100 <= axes.y(value) <= 400
    assert axes.x(facts.start) == 60
    assert axes.x(facts.end) == 1000


def test_what_is_never_below_0_is_not_drawn_as_if_it_could_be() -> None:
    def low(*values: float) -> float:
        readings = tuple(LifeReading(date(2020, 1, 1), v, 0.5) for v in values)
        facts = LifeFacts(date(2019, 1, 1), date(2027, 1, 1), date(2026, 1, 1), readings=readings)
        return Axes.over(facts, 60, 1000, 100, 400).low

    assert low(18, 240) == 0
    assert low(-38, 12) < -38
    assert 0 < low(96, 103) < 96


def test_years_stand_below_a_long_life_and_months_below_a_short_one() -> None:
    years = spans(date(2019, 3, 4), date(2026, 11, 25), 20)
    assert [word for _, _, word in years] == [str(y) for y in range(2019, 2027)]
    months = spans(date(2026, 1, 10), date(2026, 6, 2), 12)
    assert [word.replace("\u00a0", " ") for _, _, word in months] == [
        "Jan 2026",
        "Feb",
        "Mar",
        "Apr",
        "May",
        "Jun",
    ]


@given(st.dates(date(2000, 1, 1), date(2030, 1, 1)), st.integers(1, 9000), st.floats(2, 30))
def test_spans_cover_the_whole_life_without_gaps(start: date, days: int, most: float) -> None:
    from datetime import timedelta

    end = start + timedelta(days=days)
    made = spans(start, end, most)
    assert made[0][0] <= start
    assert made[-1][1] > end
    for (_, a, _), (b, _, _) in itertools.pairwise(made):
        assert a == b
