"""Survival curves against the remission data, other people's code, and curves whose law is known."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lifelines import KaplanMeierFitter
from lifelines.datasets import load_leukemia
from lifelines.statistics import logrank_test
from scipy.stats import CensoredData, ecdf
from statsmodels.duration.survfunc import SurvfuncRight

from app.trade.statistics.log_rank import log_rank
from app.trade.statistics.survival import kaplan_meier, numbers_at_risk, tidy_marks, worth_drawing_until
from tests.trade.statistics.leukaemia import PLACEBO, SIX_MP

# Kaplan-Meier and Greenwood of the 6-MP arm: lifelines' KaplanMeierFitter, scipy's ecdf and statsmodels agree.
TABLE = [
    (6, 21, 3, 0.857143, 0.076360),
    (7, 17, 1, 0.806723, 0.086935),
    (10, 15, 1, 0.752941, 0.096350),
    (13, 12, 1, 0.690196, 0.106815),
    (16, 11, 1, 0.627451, 0.114054),
    (22, 7, 1, 0.537815, 0.128234),
    (23, 6, 1, 0.448179, 0.134591),
]


def test_the_remission_curve_is_the_published_one():
    curve = kaplan_meier(*SIX_MP)
    assert (curve.watched, curve.longest, curve.event_count) == (21, 35.0, 9)
    assert list(zip(curve.times, curve.at_risk, curve.events, strict=True)) == [row[:3] for row in TABLE]
    assert curve.share == pytest.approx([row[3] for row in TABLE], abs=5e-7)
    assert curve.error == pytest.approx([row[4] for row in TABLE], abs=5e-7)
    # lifelines' log(-log) bounds at six weeks
    assert (curve.low[0], curve.high[0]) == pytest.approx((0.6197, 0.9516), abs=5e-5)
    assert (curve.median, kaplan_meier(*PLACEBO).median) == (23.0, 8.0)


def test_data_curve_band_and_test_are_as_lifelines_has_them():
    carried = load_leukemia()
    for part, (weeks, ended) in ((0, SIX_MP), (1, PLACEBO)):
        theirs = carried[carried["Rx"] == part]
        assert sorted(zip(theirs["t"], theirs["status"] == 1, strict=True)) == sorted(
            zip(weeks, ended, strict=True)
        )
        fit, curve = KaplanMeierFitter().fit(weeks, ended), kaplan_meier(weeks, ended)
        band = fit.confidence_interval_.loc[list(curve.times)]
        inside = [share > 0 for share in curve.share]
        assert curve.share == pytest.approx(list(fit.survival_function_.loc[list(curve.times)].iloc[:, 0]))
        for ours, column in ((curve.low, 0), (curve.high, 1)):
            edges = zip(ours, band.iloc[:, column], inside, strict=True)
            assert all(our == pytest.approx(their, abs=1e-9) for our, their, there in edges if there)
    theirs = logrank_test(SIX_MP[0], PLACEBO[0], SIX_MP[1], PLACEBO[1])
    found = log_rank([SIX_MP, PLACEBO])
    assert (found.chi2, found.p) == pytest.approx((theirs.test_statistic, theirs.p_value), rel=1e-9)


def test_curve_and_error_are_statsmodels_and_scipys():
    for durations, happened in (SIX_MP, PLACEBO):
        curve = kaplan_meier(durations, happened)
        oracle = SurvfuncRight(np.array(durations), np.array(happened, dtype=int))
        assert curve.share == pytest.approx(list(oracle.surv_prob))
        assert curve.error[:-1] == pytest.approx(list(oracle.surv_prob_se)[:-1])
        seen, cut = np.array(durations), ~np.array(happened)
        sf = ecdf(CensoredData(uncensored=seen[~cut], right=seen[cut])).sf
        assert curve.share == pytest.approx([float(sf.evaluate(t)) for t in curve.times])


def test_the_band_is_scipys_log_log_band():
    durations, happened = map(np.array, SIX_MP)
    sf = ecdf(CensoredData(uncensored=durations[happened], right=durations[~happened])).sf
    band = sf.confidence_interval(0.95, method="log-log")
    curve = kaplan_meier(*SIX_MP)
    assert curve.low == pytest.approx([float(band.low.evaluate(t)) for t in curve.times])
    assert curve.high == pytest.approx([float(band.high.evaluate(t)) for t in curve.times])


def test_a_curve_is_read_between_its_steps_and_not_beyond_its_watch():
    curve = kaplan_meier(*SIX_MP)
    assert curve.at(0) == curve.at(5.9) == 1.0
    assert curve.at(6) == curve.at(6.5) == pytest.approx(0.857143, abs=1e-6)
    assert curve.at(35) == curve.share[-1]
    assert curve.at(36) is None
    assert curve.band_at(36) is None
    assert curve.band_at(6.5) == (curve.low[0], curve.high[0])
    low, high = curve.band_at(3)
    assert 0.8 < low < high == 1.0
    assert curve.quantile(0.8) == 10.0
    assert curve.quantile(0.1) is None
    low, high = curve.median_band()
    assert (low, high) == (13.0, None)


def test_nothing_watched_and_nothing_happened_give_a_curve_without_steps():
    empty = kaplan_meier([], [])
    assert (empty.watched, empty.times, empty.at(0), empty.at(1), empty.median) == (0, (), 1.0, None, None)
    held = kaplan_meier([10, 20], [False, False])
    assert (held.times, held.at(20), held.median, held.median_band()) == ((), 1.0, None, (None, None))


@pytest.mark.parametrize("count", [1, 3])
def test_all_that_failed_at_once_still_leave_a_band(count):
    curve = kaplan_meier([5.0] * count, [True] * count)
    assert (curve.share, curve.error, curve.low) == ((0.0,), (0.0,), (0.0,))
    # The exact interval of none out of n (C. J. Clopper, E. S. Pearson 1934).
    assert curve.high == pytest.approx((1 - 0.025 ** (1 / count),))
    assert curve.median == 5.0


def test_a_curve_that_ends_at_nought_keeps_the_upper_edge_it_had():
    curve = kaplan_meier([1, 2, 3], [True, True, True])
    assert curve.share[-1] == 0.0
    assert (curve.low[-1], curve.high[-1]) == (0.0, curve.high[-2])


@pytest.mark.parametrize(
    ("durations", "happened"),
    [([1, 2], [True]), ([-1], [True]), ([math.nan], [True]), ([math.inf], [False]), ([[1]], [[True]])],
)
def test_what_is_no_duration_is_refused(durations, happened):
    with pytest.raises(ValueError):
        kaplan_meier(durations, happened)


WATCHED = st.lists(st.tuples(st.integers(0, 40), st.booleans()), max_size=60)


@settings(deadline=None)
@given(WATCHED)
def test_any_watch_gives_a_falling_curve_inside_its_band_and_no_nan(watched):
    curve = kaplan_meier([t for t, _ in watched], [e for _, e in watched])
    before = 1.0
    for share, low, high, error in zip(curve.share, curve.low, curve.high, curve.error, strict=True):
        assert 0 <= low <= share <= high <= 1
        assert share < before
        assert math.isfinite(error)
        before = share
    assert curve.event_count == sum(e for _, e in watched)


def test_the_band_covers_the_law_that_the_curve_came_from():
    """2,000 shops of 100 repairs that fail at a constant rate and are watched for 30 to 400 days."""
    rng = np.random.default_rng(20260312)
    fails = rng.exponential(250, (2000, 100))
    watch = rng.uniform(30, 400, (2000, 100))
    held, truth = 0, math.exp(-120 / 250)
    for until, happened in zip(np.minimum(fails, watch), fails <= watch, strict=True):
        low, high = kaplan_meier(until, happened).band_at(120)
        held += low <= truth <= high
    assert 0.93 <= held / 2000 <= 0.97


def test_numbers_at_risk_count_who_is_still_watched():
    assert numbers_at_risk(SIX_MP[0], [0, 6, 10, 35, 36]) == (21, 21, 15, 1, 0)
    assert numbers_at_risk([], [0]) == (0,)


@pytest.mark.parametrize(
    ("longest", "last", "step"),
    [(365, 450, 90), (170, 180, 30), (1, 1.0, 0.2), (60, 60, 10), (1200, 1200, 200)],
)
def test_marks_stand_at_round_numbers(longest, last, step):
    marks = tidy_marks(longest)
    assert marks[0] == 0
    assert marks[1] == pytest.approx(step)
    assert marks[-1] == pytest.approx(last)
    assert len(marks) <= 8


def test_no_watch_has_one_mark():
    assert tidy_marks(0) == (0.0,)


def test_curves_are_drawn_a_little_beyond_the_last_event_and_twice_the_window_but_not_beyond_the_watch():
    early = kaplan_meier([100.0, 7000.0], [True, False])
    late = kaplan_meier([4000.0, 7000.0], [True, False])
    assert worth_drawing_until([early], 180.0) == 360.0
    assert worth_drawing_until([early, late], 180.0) == 5000.0
    assert worth_drawing_until([kaplan_meier([50.0], [False])], 180.0) == 50.0
    assert worth_drawing_until([], 180.0) == 0.0
