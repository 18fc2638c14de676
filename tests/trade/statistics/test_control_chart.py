"""The p-chart against the textbook's cans of juice."""

from __future__ import annotations

import pytest

from app.trade.statistics.control_chart import p_chart

# D. C. Montgomery, Statistical Quality Control: 30 samples of 50 cans (from memory; the sum, 347 of 1500, fits
# p = 0.2313). NIST/SEMATECH 6.3.3.2 has the same counts for its wafers.
CANS = [
    12,
    15,
    8,
    10,
    4,
    7,
    16,
    9,
    14,
    10,
    5,
    6,
    17,
    12,
    22,
    8,
    10,
    5,
    13,
    11,
    20,
    18,
    24,
    15,
    9,
    12,
    7,
    13,
    9,
    6,
]


def test_the_limits_are_the_textbooks():
    chart = p_chart([(x, 50) for x in CANS])
    assert chart.centre == pytest.approx(0.2313, abs=5e-5)
    assert (chart.points[0].low, chart.points[0].high) == pytest.approx((0.0524, 0.4102), abs=5e-5)
    assert [at + 1 for at, point in enumerate(chart.points) if point.outside] == [15, 23]


def test_limits_widen_where_a_quarter_has_few_and_stay_shares():
    chart = p_chart([(1, 10), (20, 1000), (0, 0)])
    few, many, none = chart.points
    assert few.high - few.low > many.high - many.low
    assert few.low == 0.0
    assert (none.share, none.low, none.high, none.outside) == (None, 0.0, 1.0, False)


def test_nothing_counted_has_no_centre():
    chart = p_chart([(0, 0), (0, 0)])
    assert chart.centre is None
    assert [point.share for point in chart.points] == [None, None]
    assert p_chart([]).points == ()


@pytest.mark.parametrize("share", [0, 5])
def test_all_or_nothing_is_never_outside(share):
    assert not any(point.outside for point in p_chart([(share, 5), (share, 5)]).points)


@pytest.mark.parametrize("counts", [(3, 2), (-1, 2), (0, -1)])
def test_what_is_no_count_is_refused(counts):
    with pytest.raises(ValueError):
        p_chart([counts])
