"""The log-rank test against the remission data and other people's code."""

from __future__ import annotations

import numpy as np
import pytest
from statsmodels.duration.survfunc import survdiff

from app.trade.statistics.log_rank import log_rank, log_rank_pairs, log_rank_strata
from tests.trade.statistics.leukaemia import PLACEBO, SIX_MP


def test_the_remission_data_differ_as_published():
    # lifelines.statistics.logrank_test; scipy.stats.logrank gives the signed root -4.0979
    found = log_rank([SIX_MP, PLACEBO])
    assert found.chi2 == pytest.approx(16.7929, abs=5e-5)
    assert found.p == pytest.approx(4.169e-05, rel=1e-3)
    assert found.degrees == 1
    assert found.observed == (9, 21)
    assert found.expected == pytest.approx((19.2505, 10.7495), abs=5e-5)


def groups(seed, counts, scales):
    rng = np.random.default_rng(seed)
    made = []
    for count, scale in zip(counts, scales, strict=True):
        fails, watch = np.ceil(rng.exponential(scale, count)), np.ceil(rng.uniform(5, 60, count))
        made.append((np.minimum(fails, watch), fails <= watch))
    return made


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("counts", [(40, 60), (30, 20, 50), (25, 25, 40, 10)])
def test_several_groups_are_compared_as_statsmodels_does(seed, counts):
    made = groups(seed, counts, (20, 30, 40, 25)[: len(counts)])
    time, seen = (np.concatenate([group[part] for group in made]) for part in (0, 1))
    label = np.repeat(np.arange(len(counts)), counts)
    chi2, p = survdiff(time, seen.astype(int), label)
    found = log_rank(made)
    assert (found.chi2, found.p) == pytest.approx((float(chi2), float(p)))
    assert found.degrees == len(counts) - 1
    assert sum(found.expected) == pytest.approx(sum(found.observed))


def test_the_test_errs_as_often_as_it_says():
    """Two groups of one law: of 2,000 shops some hundred differ at 5 %."""
    rng = np.random.default_rng(7)
    fails, watch = rng.exponential(200, (2000, 80)), rng.uniform(30, 400, (2000, 80))
    time, seen = np.minimum(fails, watch), fails <= watch
    wrong = sum(
        log_rank([(t[:40], s[:40]), (t[40:], s[40:])]).p < 0.05 for t, s in zip(time, seen, strict=True)
    )
    assert 0.03 <= wrong / 2000 <= 0.07


@pytest.mark.parametrize(
    "made",
    [
        [],
        [SIX_MP],
        [([], []), ([], [])],
        [SIX_MP, ([], [])],
        [([5, 6], [False, False]), ([7], [False])],
        [([5], [True]), ([1], [False])],  # nobody of the other group was watched so long
    ],
)
def test_where_nothing_can_be_compared_nothing_is_said(made):
    found = log_rank(made)
    assert (found.chi2, found.degrees, found.p) == (0.0, 0, 1.0)


def test_a_group_that_nobody_saw_takes_no_part():
    with_empty, without = log_rank([SIX_MP, ([], []), PLACEBO]), log_rank([SIX_MP, PLACEBO])
    assert (with_empty.chi2, with_empty.degrees) == (pytest.approx(without.chi2), 1)


def test_pairs_are_corrected_for_how_many_they_are():
    pairs = log_rank_pairs([SIX_MP, PLACEBO, SIX_MP])
    assert [(pair.first, pair.second) for pair in pairs] == [(0, 1), (0, 2), (1, 2)]
    assert pairs[0].adjusted == pytest.approx(3 * pairs[0].test.p)
    assert pairs[1].test.p == pytest.approx(1.0)
    assert log_rank_pairs([SIX_MP]) == ()


def test_strata_are_compared_each_by_itself_as_statsmodels_does():
    made = [groups(seed, (30, 40), (20, 35)) for seed in (1, 2, 3)]
    time, seen = (np.concatenate([group[part] for pair in made for group in pair]) for part in (0, 1))
    label = np.concatenate([np.repeat([0, 1], (30, 40)) for _ in made])
    stratum = np.repeat([0, 1, 2], 70)
    chi2, p = survdiff(time, seen.astype(int), label, strata=stratum)
    found = log_rank_strata([tuple(pair) for pair in made])
    assert (found.chi2, found.p) == pytest.approx((float(chi2), float(p)))
    assert found.degrees == 1
    alone = log_rank_strata([(SIX_MP, PLACEBO)])
    assert (alone.chi2, alone.observed) == (pytest.approx(16.7929, abs=5e-5), (9, 21))


@pytest.mark.parametrize("strata", [[], [(SIX_MP, ([], []))], [(([], []), ([], []))]])
def test_strata_with_nothing_to_compare_say_nothing(strata):
    found = log_rank_strata(strata)
    assert (found.chi2, found.degrees, found.p) == (0.0, 0, 1.0)
