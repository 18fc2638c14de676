"""What the readings of the years say of the days to come."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import optimize, stats

from app.trade.bench.forecast import Forecast, Pace, forecast

FIRST = date(2019, 3, 4)
# A laser current in mA over the years, shaped as the slow rise of a wearing diode.
RISE = [
    (0, "47.6"),
    (580, "49.0"),
    (1170, "50.6"),
    (1309, "50.5"),
    (1808, "52.3"),
    (2740, "55.6"),
    (2820, "56.0"),
]
LIMIT = Decimal("57.6")  # label 48.0 mA plus 20 %


def told(pairs: list[tuple[int, str]], low: Decimal | None = None, high: Decimal | None = LIMIT) -> Forecast:
    days = [FIRST + timedelta(days=day) for day, _ in pairs]
    return forecast(days, [Decimal(value) for _, value in pairs], low, high)


def test_a_rising_current_reaches_its_limit_between_two_days() -> None:
    found = told(RISE)
    assert found.pace is Pace.REACHES
    assert found.limit == LIMIT
    assert (found.first, found.last) == (FIRST, FIRST + timedelta(days=2820))
    assert found.reach == FIRST + timedelta(days=2 * 2820)
    assert found.crosses is not None
    assert found.earliest is not None
    assert found.latest is not None
    assert found.last < found.earliest < found.crosses < found.latest <= found.reach
    low, slope, high = found.a_year or (0, 0, 0)
    assert 0.9 < low < slope < high < 1.3


def test_the_two_days_are_those_of_a_root_finder_on_the_band() -> None:
    """scipy.optimize on the prediction band written out with scipy.stats, as an oracle of both."""
    x = np.asarray([day for day, _ in RISE], dtype=float)
    y = np.asarray([float(value) for _, value in RISE])
    known = stats.linregress(x, y)
    left = y - known.intercept - known.slope * x
    s, t = np.sqrt(left @ left / (len(x) - 2)), stats.t.ppf(0.975, len(x) - 2)

    def edge(at: float, side: int) -> float:
        half = t * s * np.sqrt(1 + 1 / len(x) + (at - x.mean()) ** 2 / ((x - x.mean()) ** 2).sum())
        return float(known.intercept + known.slope * at + side * half - float(LIMIT))

    early, late = (optimize.brentq(edge, 0, 9000, args=(side,)) for side in (1, -1))
    found = told(RISE)
    assert found.earliest == FIRST + timedelta(days=round(early))
    assert found.latest == FIRST + timedelta(days=round(late))
    assert found.crosses == FIRST + timedelta(days=round((float(LIMIT) - known.intercept) / known.slope))


def test_a_falling_light_runs_towards_the_lower_limit() -> None:
    pairs = [(0, "0.24"), (500, "0.22"), (1000, "0.20"), (1500, "0.185"), (2000, "0.16")]
    found = told(pairs, Decimal("0.10"), Decimal("0.30"))
    assert (found.pace, found.limit) == (Pace.REACHES, Decimal("0.10"))


@pytest.mark.parametrize("count", [0, 1, 2, 3])
def test_from_fewer_than_four_readings_nothing_is_foretold(count: int) -> None:
    found = told(RISE[:count])
    assert (found.pace, found.count, found.line) == (Pace.TOO_FEW, count, None)
    with pytest.raises(ValueError, match="no line"):
        found.band(FIRST)


def test_four_readings_are_enough() -> None:
    assert told([(0, "47.6"), (600, "49.1"), (1200, "50.4"), (1800, "52.0")]).line is not None


def test_readings_of_one_day_make_no_line() -> None:
    found = told([(5, "47.6"), (5, "47.7"), (5, "47.5"), (5, "47.6")])
    assert (found.pace, found.line) == (Pace.ONE_DAY, None)


def test_level_readings_show_no_trend() -> None:
    found = told([(0, "50.1"), (300, "50.4"), (700, "49.9"), (1100, "50.2"), (1500, "50.0")])
    assert found.pace is Pace.LEVEL
    assert found.crosses is None
    low, _, high = found.a_year or (1, 1, 1)
    assert low < 0 < high


def test_a_line_away_from_every_limit_is_free() -> None:
    assert told(RISE, Decimal(40), None).pace is Pace.FREE
    assert told(RISE, None, None).pace is Pace.FREE


def test_what_is_beyond_its_limit_at_the_last_reading_is_said_to_be() -> None:
    found = told(RISE, None, Decimal("51.0"))
    assert found.pace is Pace.BEYOND
    assert found.crosses is not None
    assert FIRST < found.crosses < FIRST + timedelta(days=2820)
    before_all = told(RISE, None, Decimal(40))
    assert (before_all.pace, before_all.crosses) == (Pace.BEYOND, None)


def test_nothing_is_said_past_twice_the_span() -> None:
    found = told(RISE, None, Decimal(80))
    assert (found.pace, found.crosses, found.latest) == (Pace.FAR, None, None)
    assert found.reach is not None
    assert found.band(found.reach)[1] < 80
    with pytest.raises(ValueError, match="nothing is said"):
        found.band(found.reach + timedelta(days=1))
    with pytest.raises(ValueError, match="nothing is said"):
        found.band(FIRST - timedelta(days=1))


def test_the_late_end_may_lie_out_of_reach_while_the_line_is_within() -> None:
    pairs = [(0, "47.6"), (600, "49.9"), (1200, "49.4"), (1800, "52.0"), (2400, "51.6")]
    found = told(pairs, None, Decimal(55))
    assert found.pace is Pace.REACHES
    assert found.crosses is not None
    assert found.latest is None


@given(
    st.lists(st.tuples(st.integers(0, 5000), st.integers(100, 900)), min_size=0, max_size=12),
    st.integers(100, 900),
)
def test_every_day_that_is_told_lies_within_reach_and_in_order(
    pairs: list[tuple[int, int]], limit: int
) -> None:
    found = told([(day, str(Decimal(value) / 10)) for day, value in pairs], None, Decimal(limit) / 10)
    days = [d for d in (found.earliest, found.crosses, found.latest) if d is not None]
    assert all(a <= b for a, b in pairwise(days))
    if days:
        assert found.first is not None
        assert found.reach is not None
        assert found.first <= days[0]
        assert days[-1] <= found.reach
        assert len(pairs) >= 4
