"""The straight line through readings, its band, and where it meets a limit."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
import statsmodels.api as sm
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import stats

from app.trade.statistics.trend import Line, fit_line, student_quantile

# NIST Statistical Reference Datasets, linear regression, Norris (lower level of difficulty, observed): y, x. Data
# and certified values from memory; that they agree to twelve digits says that both were remembered rightly.
NORRIS = """
0.1 0.2 338.8 337.4 118.1 118.2 888.0 884.6 9.2 10.1 228.1 226.5 668.5 666.3 998.5 996.3 449.1 448.6 778.9 777.0
559.2 558.2 0.3 0.4 0.1 0.6 778.1 775.5 668.8 666.9 339.3 338.0 448.9 447.5 10.8 11.6 557.7 556.0 228.3 228.1
998.0 995.8 888.8 887.6 119.6 120.2 0.3 0.3 0.6 0.3 557.6 556.8 339.3 339.1 888.0 887.2 998.5 999.0 778.9 779.0
10.2 11.1 117.6 118.3 228.9 229.2 668.4 669.1 449.2 448.9 0.2 0.5
"""
NUMBERS = [float(word) for word in NORRIS.split()]
X, Y = NUMBERS[1::2], NUMBERS[::2]

# A transport's laser current in mA by day since the first reading (tests' own, shaped as a slow rise).
DAYS = [0.0, 580.0, 1170.0, 1309.0, 1808.0, 2740.0, 2820.0]
CURRENT = [47.6, 49.0, 50.6, 50.5, 52.3, 55.6, 56.0]


def test_norris_is_met_to_twelve_digits() -> None:
    line = fit_line(X, Y)
    assert (line.count, line.degrees) == (36, 34)
    assert line.intercept == pytest.approx(-0.262323073774029, rel=1e-11)
    assert line.intercept_error == pytest.approx(0.232818234301152, rel=1e-12)
    assert line.slope == pytest.approx(1.00211681802045, rel=1e-13)
    assert line.slope_error == pytest.approx(0.429796848199937e-03, rel=1e-12)
    assert line.scatter == pytest.approx(0.884796396144373, rel=1e-12)
    assert (line.first, line.last) == (0.2, 999.0)


@pytest.mark.parametrize(("x", "y"), [(X, Y), (DAYS, CURRENT)])
def test_slope_and_its_interval_are_those_of_scipy(x: list[float], y: list[float]) -> None:
    line, known = fit_line(x, y), stats.linregress(x, y)
    assert line.slope == pytest.approx(known.slope, rel=1e-12)
    assert line.intercept == pytest.approx(known.intercept, rel=1e-9)
    assert line.slope_error == pytest.approx(known.stderr, rel=1e-11)
    half = stats.t.ppf(0.975, len(x) - 2) * known.stderr
    assert line.slope_interval() == pytest.approx((known.slope - half, known.slope + half), rel=1e-11)


@pytest.mark.parametrize(("x", "y"), [(X, Y), (DAYS, CURRENT)])
@pytest.mark.parametrize("confidence", [0.8, 0.95, 0.99])
def test_the_band_is_the_prediction_interval_of_statsmodels(
    x: list[float], y: list[float], confidence: float
) -> None:
    line = fit_line(x, y)
    known = sm.OLS(y, sm.add_constant(np.asarray(x))).fit()
    ahead = [min(x) - 100.0, x[3], line.middle, max(x) * 1.7]
    told = known.get_prediction(sm.add_constant(np.asarray(ahead), has_constant="add"))
    lows, highs = told.summary_frame(alpha=1 - confidence)[["obs_ci_lower", "obs_ci_upper"]].to_numpy().T
    for at, low, high in zip(ahead, lows, highs, strict=True):
        assert line.band(at, confidence) == pytest.approx((low, high), rel=1e-10, abs=1e-9)


@pytest.mark.parametrize("degrees", [1, 2, 3, 10, 34, 1000])
@pytest.mark.parametrize("confidence", [0.5, 0.95, 0.999])
def test_student_s_t_is_that_of_scipy_stats(degrees: int, confidence: float) -> None:
    assert student_quantile(degrees, confidence) == pytest.approx(
        stats.t.ppf((1 + confidence) / 2, degrees), rel=1e-10
    )


@pytest.mark.parametrize(("degrees", "confidence"), [(0, 0.95), (5, 0.0), (5, 1.0)])
def test_no_quantile_where_there_is_none(degrees: int, confidence: float) -> None:
    with pytest.raises(ValueError, match="no quantile"):
        student_quantile(degrees, confidence)


def test_the_limit_is_met_where_line_and_band_equal_it() -> None:
    line = fit_line(DAYS, CURRENT)
    found = line.meets(57.6)
    assert found is not None
    assert line.last < found.earliest < found.at < found.latest
    assert line.at(found.at) == pytest.approx(57.6, rel=1e-12)
    assert line.band(found.earliest)[1] == pytest.approx(57.6, rel=1e-12)
    assert line.band(found.latest)[0] == pytest.approx(57.6, rel=1e-12)


def test_a_falling_line_meets_a_lower_limit_the_same_way() -> None:
    found = fit_line(DAYS, [-y for y in CURRENT]).meets(-57.6)
    up = fit_line(DAYS, CURRENT).meets(57.6)
    assert found is not None
    assert up is not None
    assert (found.at, found.earliest, found.latest) == pytest.approx((up.at, up.earliest, up.latest))


def test_level_readings_meet_nothing() -> None:
    line = fit_line([0, 1, 2, 3, 4, 5], [10.0, 10.4, 9.7, 10.1, 10.3, 9.9])
    assert not line.rises_or_falls()
    assert line.meets(11) is None
    assert fit_line([0, 1, 2, 3], [4.0, 4.0, 4.0, 4.0]).meets(5) is None


def test_readings_without_scatter_meet_their_limit_on_one_day() -> None:
    line = fit_line([0, 10, 20, 30], [1.0, 2.0, 3.0, 4.0])
    found = line.meets(5.0)
    assert found is not None
    assert (found.earliest, found.at, found.latest) == pytest.approx((40, 40, 40))
    middle = line.meets(line.height)
    assert middle is not None
    assert (middle.earliest, middle.at, middle.latest) == (15, 15, 15)


@pytest.mark.parametrize(
    ("x", "y", "told"),
    [
        ([0, 1], [1.0, 2.0], "needs 3 points"),
        ([0, 1, 2], [1.0, 2.0], "3 places for 2 values"),
        ([0, 1, math.nan], [1.0, 2.0, 3.0], "finite"),
        ([0, 1, 2], [1.0, 2.0, math.inf], "finite"),
        ([7, 7, 7], [1.0, 2.0, 3.0], "no slope"),
    ],
)
def test_what_has_no_line_is_refused(x: list[float], y: list[float], told: str) -> None:
    with pytest.raises(ValueError, match=told):
        fit_line(x, y)


points = st.lists(
    st.tuples(st.integers(0, 9000), st.integers(-5000, 5000).map(lambda n: n / 10)), min_size=4, max_size=25
)


def line_of(pairs: list[tuple[int, float]]) -> Line:
    assume(len({x for x, _ in pairs}) > 1)
    return fit_line([x for x, _ in pairs], [y for _, y in pairs])


@given(points)
def test_the_line_leaves_residuals_that_sum_to_nothing(pairs: list[tuple[int, float]]) -> None:
    """The normal equations: residuals are orthogonal to 1 and to x."""
    line = line_of(pairs)
    left = [y - line.at(x) for x, y in pairs]
    assert math.fsum(left) == pytest.approx(0, abs=1e-6)
    assert math.fsum(r * (x - line.middle) for r, (x, _) in zip(left, pairs, strict=True)) == pytest.approx(
        0, abs=1e-2
    )


@given(points)
def test_the_order_of_entry_does_not_matter(pairs: list[tuple[int, float]]) -> None:
    line, turned = line_of(pairs), line_of(pairs[::-1])
    assert turned.slope == pytest.approx(line.slope, rel=1e-9, abs=1e-9)
    assert turned.scatter == pytest.approx(line.scatter, rel=1e-9, abs=1e-6)


@given(points, st.integers(-100_000, 800_000))
def test_the_day_that_is_called_zero_does_not_matter(pairs: list[tuple[int, float]], zero: int) -> None:
    line, moved = line_of(pairs), line_of([(x + zero, y) for x, y in pairs])
    assert moved.slope == pytest.approx(line.slope, rel=1e-7, abs=1e-9)
    assert moved.at(zero + 100) == pytest.approx(line.at(100), rel=1e-6, abs=1e-5)


@given(points)
def test_the_band_holds_the_line_and_opens_away_from_the_middle(pairs: list[tuple[int, float]]) -> None:
    line = line_of(pairs)
    wide = []
    for away in (0.0, 500.0, 2000.0, 9000.0):
        low, high = line.band(line.middle + away)
        assert low <= line.at(line.middle + away) <= high
        mirrored = line.band(line.middle - away)
        assert mirrored[1] - mirrored[0] == pytest.approx(high - low, rel=1e-9, abs=1e-7)
        wide.append(high - low)
    assert all(a <= b + 1e-9 for a, b in pairwise(wide))


@given(points, st.integers(-8000, 8000).map(lambda n: n / 10))
def test_a_crossing_is_found_exactly_when_a_trend_is_shown(
    pairs: list[tuple[int, float]], limit: float
) -> None:
    line = line_of(pairs)
    found = line.meets(limit)
    assert (found is not None) == line.rises_or_falls()
    if found is not None:
        slack = 1e-6 * max(1.0, abs(found.at))
        assert found.earliest - slack <= found.at <= found.latest + slack
        for x in (found.earliest, found.latest):
            if math.isfinite(x) and abs(x) < 1e7:
                low, high = line.band(x)
                near = min(abs(low - limit), abs(high - limit))
                assert near <= 1e-5 * max(1.0, abs(limit), high - low)
