"""Trend tests and the power law against the handbook's case and shops whose law is known."""

from __future__ import annotations

import math

import numpy as np
import pytest

from app.trade.statistics.growth import laplace, military_handbook, power_law

# NIST/SEMATECH e-Handbook of Statistical Methods, case of 8.1.7.2 and 8.4.5.2: ten failures in 1500 hours.
TIMES, END = (5, 40, 43, 175, 389, 712, 747, 795, 1299, 1478), 1500.0


def test_laplace_sees_no_trend_in_the_handbooks_case():
    # the handbook's data; -1.326949 is also what reliability.ROCOF gives with test_end=1500
    found = laplace(TIMES, END)
    assert found.statistic == pytest.approx(-1.326949, abs=5e-7)
    assert found.p == pytest.approx(0.1845, abs=5e-5)
    assert not found.rising


def test_the_military_handbook_sees_an_improvement_there():
    # 37.2281 on 20 degrees; its upper tail 0.01099, here with both tails
    found = military_handbook(TIMES, END)
    assert found.statistic == pytest.approx(37.2281, abs=5e-5)
    assert found.p == pytest.approx(2 * 0.01099, abs=2e-5)
    assert not found.rising


def test_the_power_law_is_the_handbooks():
    found = power_law(TIMES, END)
    # text of the handbook: b, a, mean time at the end and its 80 % limits
    assert found.unbiased == pytest.approx(0.483506, abs=5e-7)
    assert found.unbiased_scale == pytest.approx(0.2913003, abs=5e-7)
    assert found.mean_time_at_end == pytest.approx(310.234, abs=5e-4)
    assert found.mean_time_limits() == pytest.approx((157.7138, 548.5566), abs=5e-3)
    # plain greatest likelihood, computed apart
    assert (found.shape, found.scale) == pytest.approx((0.537229, 0.196658), abs=5e-7)
    assert found.expected(END) == pytest.approx(10)
    assert found.low < found.shape < found.high


def test_a_shape_below_one_within_its_limits_is_what_the_test_says():
    found = power_law(TIMES, END)
    assert found.high < 1
    turned = power_law([END - t for t in TIMES], END)
    assert turned.shape > 1
    assert military_handbook([END - t for t in TIMES], END).rising
    assert laplace([END - t for t in TIMES], END).statistic == pytest.approx(1.326949, abs=5e-7)


def test_few_events_say_little_and_none_say_nothing():
    assert laplace([], 10) is None
    assert military_handbook([], 10) is None
    assert power_law([], 10) is None
    assert power_law([3], 10) is None
    assert power_law([10, 10], 10) is None  # all at the end: no shape is finite
    assert power_law([3, 4], 10).mean_time_limits(0.99)[1] is None
    assert laplace([5], 10).statistic == 0
    assert laplace([5], 10).p == 1.0
    assert military_handbook([10], 10).p == 0.0


@pytest.mark.parametrize(
    ("times", "end"), [([0], 10), ([11], 10), ([-1], 10), ([1], 0), ([1], math.inf), ([math.nan], 9)]
)
def test_what_was_not_watched_is_refused(times, end):
    for ask in (laplace, military_handbook, power_law):
        with pytest.raises(ValueError):
            ask(times, end)


def test_the_tests_err_as_often_as_they_say_and_the_shape_is_covered():
    """2,000 shops in which events come as t^0.7: the limits hold the shape; with t^1 the tests cry wolf at 5 %."""
    rng = np.random.default_rng(1500)
    counts = np.maximum(rng.poisson(30, 2000), 2)
    held = alarms = alarms_too = 0
    for count in counts:
        uniform = 1 - rng.random(count)
        found = power_law(100 * uniform ** (1 / 0.7), 100)
        held += found.low <= 0.7 <= found.high
        alarms += laplace(100 * uniform, 100).p < 0.05
        alarms_too += military_handbook(100 * uniform, 100).p < 0.05
    assert 0.93 <= held / 2000 <= 0.97
    assert 0.03 <= alarms / 2000 <= 0.07
    assert 0.03 <= alarms_too / 2000 <= 0.07
