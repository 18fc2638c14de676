"""Our statistics beside other people's, on the same numbers in the same run: survival, log-rank, shares, trends."""

from __future__ import annotations

import math
from itertools import pairwise

from app.trade.statistics.growth import laplace, military_handbook
from app.trade.statistics.log_rank import log_rank
from app.trade.statistics.proportions import exact_test, holm, newcombe, wilson
from app.trade.statistics.recurrence import mean_cumulative
from app.trade.statistics.survival import kaplan_meier
from tests.benchmarks.measure import Measured, best

REPAIRS, UNITS, VISITS, GROUPS = 100_000, 50_000, 150_000, 200


def libraries() -> list[Measured]:
    """Survival of 100,000 repairs, visits of 50,000 units, 200 groups with a share each. Told only: none is a budget."""
    import numpy as np
    from lifelines import KaplanMeierFitter
    from lifelines.statistics import multivariate_logrank_test
    from scipy.stats import fisher_exact
    from statsmodels.duration.survfunc import SurvfuncRight, survdiff
    from statsmodels.stats.multitest import multipletests
    from statsmodels.stats.proportion import confint_proportions_2indep, proportion_confint

    draw = np.random.default_rng(2026)
    fails, watch = draw.exponential(900, REPAIRS), draw.uniform(0, 7300, REPAIRS)
    days, seen = np.floor(np.minimum(fails, watch)), fails <= watch
    group = draw.integers(0, 5, REPAIRS)
    apart = [(days[group == one], seen[group == one]) for one in range(5)]
    came, could = draw.binomial(500, 0.1, GROUPS).tolist(), [500] * GROUPS
    shares = list(zip(came, could, strict=True))
    p_values = draw.uniform(0, 1, GROUPS).tolist()
    ends, owner = np.floor(draw.uniform(100, 7300, UNITS)), draw.integers(0, UNITS, VISITS)
    visits = np.floor(draw.uniform(0, 1, VISITS) * ends[owner])
    order = np.sort(draw.uniform(0.5, REPAIRS, 8000)).tolist()

    def told(what: str, ours: float, theirs: float, whose: str) -> Measured:
        return Measured(what, ours, theirs, whose, None)

    def fit() -> object:
        return KaplanMeierFitter().fit(days, seen).confidence_interval_

    def unit_by_unit() -> float:
        """The mean alone, counted day by day as a textbook does, without its band."""
        ordered, mean = np.sort(ends), 0.0
        for day in np.unique(visits):
            mean += np.count_nonzero(visits == day) / (UNITS - int(np.searchsorted(ordered, day)))
        return mean

    ours_curve, ours_test = best(lambda: kaplan_meier(days, seen)), best(lambda: log_rank(apart))
    fisher = [(x, n, y, m) for (x, n), (y, m) in pairwise(shares)]
    return [
        told("survival curve of 100,000 repairs, with band", ours_curve, best(fit), "lifelines"),
        told(
            "the same",
            ours_curve,
            best(lambda: SurvfuncRight(days, seen.astype(int)).surv_prob_se, 1),
            "statsmodels, without a band",
        ),
        told(
            "log-rank test of five groups",
            ours_test,
            best(lambda: multivariate_logrank_test(days, group, seen), 1),
            "lifelines",
        ),
        told("the same", ours_test, best(lambda: survdiff(days, seen.astype(int), group), 1), "statsmodels"),
        told(
            "mean cumulative function of 150,000 visits, with band",
            best(lambda: mean_cumulative(ends, owner, visits)),
            best(unit_by_unit, 1),
            "the mean alone, day by day in numpy",
        ),
        told(
            "score intervals of 200 shares",
            best(lambda: [wilson(x, n) for x, n in shares]),
            best(lambda: [proportion_confint(x, n, 0.05, "wilson") for x, n in shares]),
            "statsmodels",
        ),
        told(
            "199 differences of two shares",
            best(lambda: [newcombe(*pair) for pair in fisher]),
            best(
                lambda: [
                    confint_proportions_2indep(*pair, method="newcomb", compare="diff") for pair in fisher
                ],
                1,
            ),
            "statsmodels",
        ),
        told(
            "199 exact tests of two shares",
            best(lambda: [exact_test(*pair) for pair in fisher]),
            best(lambda: [fisher_exact([[x, n - x], [y, m - y]]) for x, n, y, m in fisher], 1),
            "scipy",
        ),
        told(
            "Holm over 200 tests",
            best(lambda: holm(p_values)),
            best(lambda: multipletests(p_values, method="holm")),
            "statsmodels",
        ),
        told(
            "both trend tests of 8,000 comebacks",
            best(lambda: (laplace(order, REPAIRS), military_handbook(order, REPAIRS))),
            best(lambda: (sum(order), sum(math.log(REPAIRS / one) for one in order))),
            "their two sums, bare",
        ),
    ]
