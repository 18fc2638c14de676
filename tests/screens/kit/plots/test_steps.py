"""Step functions as lines of pixels."""

from __future__ import annotations

import math
from dataclasses import replace

from app.screens.kit.plots.steps import band_of, step_at, stepped, thinned
from tests.screens.kit.plots.conftest import curve

CURVE = curve("a", 0.9, 0.7)  # steps at 100 and 200, until 300


def test_a_step_is_a_corner_and_the_last_value_stays_to_the_end() -> None:
    xs, ys = stepped(CURVE.x, CURVE.y, CURVE.until)
    assert list(zip(xs, ys, strict=True)) == [
        (0, 1.0),
        (100, 1.0),
        (100, 0.9),
        (200, 0.9),
        (200, 0.7),
        (300, 0.7),
    ]


def test_a_value_holds_until_the_next_step() -> None:
    assert [step_at(CURVE, x) for x in (0, 99, 100, 250, 300)] == [0, 0, 1, 2, 2]
    assert step_at(CURVE, -1) == -1
    assert step_at(CURVE, 301) == -1


def test_thinning_keeps_the_ends_and_every_peak() -> None:
    xs = [float(x) for x in range(10_000)]
    ys = [0.0] * 10_000
    ys[4321] = 7.0  # narrower than a pixel
    thin_x, thin_y = thinned(xs, ys, least=0, most=10_000, columns=100)
    assert len(thin_x) == 300
    assert thin_x[0] == 0.0
    assert thin_x[-1] == 9999.0
    assert thin_y.max() == 7.0


def test_what_is_short_is_not_thinned() -> None:
    xs, ys = thinned(CURVE.x, CURVE.y, least=0, most=300, columns=100)
    assert tuple(xs) == CURVE.x
    assert tuple(ys) == CURVE.y


def test_an_end_of_a_band_that_is_not_known_closes_on_the_curve() -> None:
    low, high = band_of(replace(CURVE, low=(0.9, math.nan, 0.6))) or ((), ())
    assert list(low) == [0.9, 0.9, 0.6]
    assert list(high) == list(CURVE.high)
    assert band_of(replace(CURVE, low=())) is None
