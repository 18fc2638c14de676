"""Whether groups last equally long: the log-rank test of two and more groups, and of each pair of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import TypeAlias

from app.trade.statistics.proportions import holm
from app.trade.statistics.survival import Durations, Happened, durations_and_events

Watched: TypeAlias = tuple[Durations, Happened]  # durations, and whether the event happened then


@dataclass(frozen=True, slots=True)
class LogRank:
    """``chi2`` on ``degrees`` of freedom and its ``p``; for each group the ``observed`` and ``expected`` events.

    Where nothing can be compared (fewer than two groups at risk when an event happened) chi2 and degrees are 0 and
    p is 1.
    """

    chi2: float
    degrees: int
    p: float
    observed: tuple[int, ...]
    expected: tuple[float, ...]
    variance: float = 0.0  # of the first group's observed less expected


@dataclass(frozen=True, slots=True)
class Pair:
    """Two groups by their places in what was handed in; ``adjusted`` is Holm's over all pairs."""

    first: int
    second: int
    test: LogRank
    adjusted: float


def log_rank(groups: Sequence[Watched]) -> LogRank:
    """The log-rank test that all groups have one survival curve; each group as for `kaplan_meier`, one unit for all.

    Raises ValueError for what is no duration. Source: N. Mantel, Cancer Chemother. Rep. 50 (1966) 163; R. Peto,
    J. Peto, J. R. Stat. Soc. A 135 (1972) 185; covariance of several groups as in J. P. Klein, M. L. Moeschberger,
    Survival Analysis, section 7.3 (hypergeometric).
    """
    import numpy as np
    from scipy.special import chdtrc

    watched = [durations_and_events(*group) for group in groups]
    times = [time[seen] for time, seen in watched]
    steps = np.unique(np.concatenate(times)) if times else np.zeros(0)
    at_risk, deaths = np.zeros((len(groups), len(steps))), np.zeros((len(groups), len(steps)))
    for row, ((time, _), own) in enumerate(zip(watched, times, strict=True)):
        at_risk[row] = len(time) - np.searchsorted(np.sort(time), steps, side="left")
        found, counts = np.unique(own, return_counts=True)
        deaths[row, np.searchsorted(steps, found)] = counts
    n, d = at_risk.sum(axis=0), deaths.sum(axis=0)
    part = np.divide(at_risk, n)
    expected = (part * d).sum(axis=1)
    weight = np.divide(d * (n - d), np.maximum(n - 1, 1))
    covariance = np.diag((part * weight).sum(axis=1)) - (part * weight) @ part.T
    variance = float(covariance[0, 0]) if len(groups) else 0.0
    compared = np.flatnonzero(np.diagonal(covariance) > 1e-12)
    observed = deaths.sum(axis=1)
    degrees, chi2 = max(0, len(compared) - 1), 0.0
    if degrees:
        kept = compared[:-1]
        off = (observed - expected)[kept]
        chi2 = max(0.0, float(off @ np.linalg.solve(covariance[np.ix_(kept, kept)], off)))
    p = float(chdtrc(degrees, chi2)) if degrees else 1.0
    return LogRank(chi2, degrees, p, tuple(map(int, observed)), tuple(map(float, expected)), variance)


def log_rank_pairs(groups: Sequence[Watched]) -> tuple[Pair, ...]:
    """The test of each pair of groups, the p values adjusted over all pairs (Holm)."""
    pairs = list(combinations(range(len(groups)), 2))
    tests = [log_rank([groups[first], groups[second]]) for first, second in pairs]
    adjusted = holm([test.p for test in tests])
    return tuple(
        Pair(first, second, test, p) for (first, second), test, p in zip(pairs, tests, adjusted, strict=True)
    )


def log_rank_strata(strata: Sequence[tuple[Watched, Watched]]) -> LogRank:
    """The test of two groups within strata (pairs of one type and rung): observed and expected are summed over them.

    Source: N. Mantel (1966), as the stratified test of Klein and Moeschberger, section 7.5. Gives observed and expected
    of both groups; chi2 0 and p 1 where no stratum has anything to compare.
    """
    from scipy.special import chdtrc

    observed, expected, variance = [0, 0], [0.0, 0.0], 0.0
    for pair in strata:
        found = log_rank(pair)
        for group in (0, 1):
            observed[group] += found.observed[group]
            expected[group] += found.expected[group]
        variance += found.variance
    if variance <= 1e-12:
        return LogRank(0.0, 0, 1.0, tuple(observed), tuple(expected))
    chi2 = (observed[0] - expected[0]) ** 2 / variance
    return LogRank(chi2, 1, float(chdtrc(1, chi2)), tuple(observed), tuple(expected), variance)
