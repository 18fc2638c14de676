"""The mean cumulative function against Nelson's valve seats, a plain sum, and shops whose law is known."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.trade.statistics.recurrence import mean_cumulative
from tests.trade.statistics.valve_seats import DAYS, ENDS, UNITS

# The mean agrees with reliability.Repairable_systems.MCF_nonparametric (1.54269 at 653); the error, with divisor n²,
# was computed apart by the plain sum over engines.
TABLE = [
    (61, 41, 0.024390, 0.024091),
    (139, 41, 0.219512, 0.073270),
    (265, 41, 0.414634, 0.091101),
    (404, 40, 0.683537, 0.135939),
    (573, 40, 0.958537, 0.168958),
    (621, 17, 1.118542, 0.207503),
    (653, 9, 1.542688, 0.311656),
]


def test_the_valve_seats_come_out_as_nelsons():
    found = mean_cumulative(ENDS, UNITS, DAYS)
    assert (found.units, found.event_count, found.longest) == (41, 48, 761.0)
    for day, at_risk, mean, error in TABLE:
        at = found.times.index(day)
        assert found.at_risk[at] == at_risk
        assert found.mean[at] == pytest.approx(mean, abs=5e-7)
        assert found.error[at] == pytest.approx(error, abs=5e-7)
        # W. Nelson's band that stays above nought
        assert found.low[at] == pytest.approx(mean * math.exp(-1.959964 * error / mean), rel=1e-4)
        assert found.high[at] == pytest.approx(mean * math.exp(1.959964 * error / mean), rel=1e-4)
    assert (found.at(0), found.at(60), found.at(761), found.at(762)) == (0.0, 0.0, found.mean[-1], None)


def plain(ends, units, times):
    """The same by its definition: unit by unit, time by time."""
    steps = sorted(set(times))
    n = {t: sum(end >= t for end in ends) for t in steps}
    d = {t: times.count(t) for t in steps}
    means, errors, mean = [], [], 0.0
    score = [0.0] * len(ends)
    for t in steps:
        mean += d[t] / n[t]
        for unit, end in enumerate(ends):
            if end >= t:
                own = sum(u == unit and s == t for u, s in zip(units, times, strict=True))
                score[unit] += (own - d[t] / n[t]) / n[t]
        means.append(mean)
        errors.append(math.sqrt(sum(s * s for s in score)))
    return means, errors


@st.composite
def watched(draw):
    ends = draw(st.lists(st.integers(0, 30), min_size=1, max_size=8))
    places = st.integers(0, len(ends) - 1)
    pairs = draw(
        st.lists(places.flatmap(lambda u: st.tuples(st.just(u), st.integers(0, ends[u]))), max_size=20)
    )
    return ends, [u for u, _ in pairs], [t for _, t in pairs]


@settings(deadline=None)
@given(watched())
def test_the_running_sums_are_the_plain_sum(given_units):
    ends, units, times = given_units
    found = mean_cumulative(ends, units, times)
    means, errors = plain(ends, units, times)
    assert found.mean == pytest.approx(means)
    assert found.error == pytest.approx(errors, abs=1e-7)
    if len(ends) < 2:
        assert found.low is found.high is None
    else:
        assert all(
            0 <= low <= mean <= high for low, mean, high in zip(found.low, means, found.high, strict=True)
        )


def test_no_unit_no_event_and_one_unit_alone():
    nothing = mean_cumulative([], [], [])
    assert (nothing.units, nothing.times, nothing.longest, nothing.low) == (0, (), 0.0, None)
    quiet = mean_cumulative([100, 200], [], [])
    assert (quiet.times, quiet.at(200), quiet.low, quiet.high) == ((), 0.0, (), ())
    alone = mean_cumulative([100], [0, 0], [10, 20])
    assert (alone.mean, alone.low, alone.high) == ((1.0, 2.0), None, None)


@pytest.mark.parametrize(
    ("ends", "units", "times"),
    [
        ([10], [0], [1, 2]),
        ([10], [1], [1]),
        ([10], [-1], [1]),
        ([10], [0], [11]),
        ([10], [0], [-1]),
        ([-1], [], []),
        ([math.nan], [], []),
        ([10], [0], [math.inf]),
        ([[10]], [], []),
    ],
)
def test_what_cannot_be_is_refused(ends, units, times):
    with pytest.raises(ValueError):
        mean_cumulative(ends, units, times)


def test_the_band_covers_the_law_also_where_units_differ():
    """2,000 shops of 150 players: each comes at its own rate, so visits are not Poisson, which a robust band bears."""
    rng = np.random.default_rng(653)
    held, ends = 0, np.full(150, 400.0)
    for _ in range(2000):
        counts = rng.poisson(rng.gamma(2.0, 0.5, 150))
        units = np.repeat(np.arange(150), counts)
        found = mean_cumulative(ends, units, rng.uniform(0, 400, len(units)))
        at = int(np.searchsorted(found.times, 200, side="right")) - 1
        held += found.low[at] <= 0.5 <= found.high[at]
    assert 0.93 <= held / 2000 <= 0.97
