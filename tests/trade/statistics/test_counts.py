"""Limits of counts against the published table and statsmodels."""

from __future__ import annotations

import numpy as np
import pytest
from statsmodels.stats.rates import confint_poisson

from app.trade.statistics.counts import garwood, mean_time_limits

# Exact 95 % limits of a Poisson count, as tables after Garwood (1936) list them.
TABLE = [
    (0, 0, 3.6889),
    (1, 0.0253, 5.5716),
    (2, 0.2422, 7.2247),
    (3, 0.6187, 8.7673),
    (5, 1.6235, 11.6683),
    (10, 4.7954, 18.3904),
    (20, 12.2165, 30.8884),
]


@pytest.mark.parametrize(("events", "low", "high"), TABLE)
def test_the_limits_are_the_tables(events, low, high):
    assert garwood(events) == pytest.approx((low, high), abs=5e-5)
    if events:
        assert garwood(events) == pytest.approx(confint_poisson(events, 1, method="exact-c"))


def test_mean_times_are_the_handbooks():
    # NIST/SEMATECH e-Handbook 8.4.5.1, factors for r failures in a time fixed before
    assert mean_time_limits(1, 1, 0.9) == pytest.approx((0.2108, 19.4957), abs=5e-5)
    assert [limit * 2 for limit in mean_time_limits(1, 2, 0.8)] == pytest.approx([0.3758, 3.7607], abs=5e-5)
    assert [limit * 10 for limit in mean_time_limits(1, 10, 0.9)] == pytest.approx([0.5895, 1.8432], abs=5e-5)
    # its example, from memory: 800 hours, two failures
    assert mean_time_limits(800, 2, 0.9) == pytest.approx((127, 2251), abs=0.5)


def test_without_an_event_there_is_no_upper_limit():
    low, high = mean_time_limits(10_000, 0, 0.9)  # 95 % one-sided: T / -ln 0.05
    assert low == pytest.approx(3338.08, abs=0.005)
    assert high is None


def test_what_is_no_count_is_refused():
    with pytest.raises(ValueError):
        garwood(-1)
    for watched in (0, -1, float("nan")):
        with pytest.raises(ValueError):
            mean_time_limits(watched, 1)


def test_the_limits_cover_the_mean_they_came_from():
    rng = np.random.default_rng(1936)
    mean = 60.0
    seen = rng.poisson(mean, 2000)
    limits = {int(count): garwood(int(count)) for count in set(seen)}
    held = sum(limits[int(count)][0] <= mean <= limits[int(count)][1] for count in seen)
    assert 0.93 <= held / 2000 <= 0.97
