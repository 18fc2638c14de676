"""Intervals and tests of shares against published tables and other people's code."""

from __future__ import annotations

import gc
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import binomtest, fisher_exact
from statsmodels.stats.multitest import multipletests
from statsmodels.stats.proportion import confint_proportions_2indep

from app.trade.statistics.proportions import exact_test, holm, newcombe, normal_quantile, wilson


@pytest.mark.parametrize(
    ("x", "n", "low", "high"),
    # Newcombe 1998, table I, method 3 (score without correction); list of rows from memory.
    [(81, 263, 0.2553, 0.3662), (0, 20, 0.0, 0.1611)],
)
def test_the_score_interval_is_the_published_one(x: int, n: int, low: float, high: float) -> None:
    assert wilson(x, n) == pytest.approx((low, high), abs=5e-5)


@pytest.mark.parametrize("n", [1, 2, 7, 10, 33, 263, 4000])
def test_the_score_interval_is_scipys(n: int) -> None:
    for x in {0, 1, n // 3, n // 2, n - 1, n}:
        ci = binomtest(x, n).proportion_ci(0.95, method="wilson")
        assert wilson(x, n) == pytest.approx((ci.low, ci.high), abs=1e-12)
        ci = binomtest(x, n).proportion_ci(0.8, method="wilson")
        assert wilson(x, n, 0.8) == pytest.approx((ci.low, ci.high), abs=1e-12)


@given(st.integers(1, 100_000).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))))
def test_the_interval_holds_its_share_and_stays_between_nought_and_one(counts: tuple[int, int]) -> None:
    x, n = counts
    low, high = wilson(x, n)
    assert 0 <= low <= x / n <= high <= 1
    mirrored = wilson(n - x, n)
    assert (1 - mirrored[1], 1 - mirrored[0]) == pytest.approx((low, high), abs=1e-12)


def test_nothing_seen_says_nothing() -> None:
    assert wilson(0, 0) == (0.0, 1.0)
    assert normal_quantile(0.95) == pytest.approx(1.959963984540054)


@pytest.mark.parametrize(("x", "n"), [(-1, 3), (4, 3), (0, -1)])
def test_what_is_no_count_is_refused(x: int, n: int) -> None:
    with pytest.raises(ValueError):
        wilson(x, n)
    with pytest.raises(ValueError):
        exact_test(x, n, 1, 2)
    with pytest.raises(ValueError):
        exact_test(1, 2, x, n)


SHARE = st.integers(0, 120).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))


@settings(deadline=None)
@given(SHARE, SHARE)
def test_the_exact_test_is_scipys(one: tuple[int, int], other: tuple[int, int]) -> None:
    (x1, n1), (x2, n2) = one, other
    _, p = fisher_exact([[x1, n1 - x1], [x2, n2 - x2]])
    assert exact_test(x1, n1, x2, n2) == pytest.approx(p, rel=1e-9)
    assert exact_test(x2, n2, x1, n1) == pytest.approx(p, rel=1e-9)


def test_the_exact_test_holds_for_a_large_shop() -> None:
    _, p = fisher_exact([[150, 850], [9000, 90_000]])
    assert exact_test(150, 1000, 9000, 99_000) == pytest.approx(p, rel=1e-7)
    assert exact_test(50_000, 50_000, 0, 50_000) == 0.0  # below what a double can hold
    assert exact_test(0, 50_000, 50_000, 50_000) == 0.0


def test_the_lady_tasting_tea() -> None:
    # R. A. Fisher's own example, as told in every textbook (from memory): 4 of 4 against 0 of 4.
    assert exact_test(4, 4, 0, 4) == pytest.approx(2 / math.comb(8, 4))
    assert exact_test(3, 4, 1, 4) == pytest.approx(34 / 70)
    assert exact_test(0, 0, 0, 0) == 1.0


@given(st.lists(st.floats(0, 1), max_size=12))
def test_holm_is_statsmodels(p_values: list[float]) -> None:
    if not p_values:
        assert holm(p_values) == []
        return
    with pytest.MonkeyPatch.context() as patch:
        # The oracle collects garbage at every call, which takes a third of a second in a long session.
        patch.setattr(gc, "collect", lambda generation=2: 0)
        _, adjusted, _, _ = multipletests(p_values, method="holm")
    assert holm(p_values) == pytest.approx(list(adjusted))


@pytest.mark.parametrize(
    ("counts", "low", "high"),
    # Newcombe 1998 (second paper), table II, method 10 (from memory).
    [
        ((56, 70, 48, 80), 0.0524, 0.3339),
        ((9, 10, 3, 10), 0.1705, 0.8090),
        ((5, 56, 0, 29), -0.0381, 0.1926),
        ((0, 10, 0, 20), -0.1611, 0.2775),
        ((10, 10, 0, 20), 0.6791, 1.0),
    ],
)
def test_the_interval_of_a_difference_is_the_published_one(
    counts: tuple[int, int, int, int], low: float, high: float
) -> None:
    assert newcombe(*counts) == pytest.approx((low, high), abs=5e-5)


@settings(deadline=None)
@given(SHARE, SHARE)
def test_the_interval_of_a_difference_is_statsmodels(one: tuple[int, int], other: tuple[int, int]) -> None:
    if not one[1] or not other[1]:
        assert newcombe(*one, *other) == (-1.0, 1.0)
        return
    low, high = confint_proportions_2indep(*one, *other, method="newcomb", compare="diff")
    assert newcombe(*one, *other) == pytest.approx((low, high), abs=1e-9)


def test_no_count_has_no_difference() -> None:
    with pytest.raises(ValueError):
        newcombe(2, 1, 0, 1)
    with pytest.raises(ValueError):
        newcombe(0, 0, 2, 1)


def test_the_intervals_cover_the_shares_that_the_counts_came_from() -> None:
    """2,000 shops each of two groups that come back in 12 and 20 of 100."""
    rng = np.random.default_rng(1927)
    ones, others = rng.binomial(150, 0.12, 2000), rng.binomial(120, 0.20, 2000)
    single = double = 0
    for one, other in zip(ones.tolist(), others.tolist(), strict=True):
        low, high = wilson(one, 150)
        single += low <= 0.12 <= high
        low, high = newcombe(one, 150, other, 120)
        double += low <= -0.08 <= high
    assert 0.93 <= single / 2000 <= 0.97
    assert 0.93 <= double / 2000 <= 0.97
