"""Shares of few jobs, honestly: the score interval, the exact test of two shares, many tests at once."""

from __future__ import annotations

import math
from collections.abc import Sequence

SLACK = 1 + 1e-7  # two tables count as equally likely within this ratio, as the usual exact tests have it
LOWEST_WEIGHT = 1e-300  # beyond this, a table adds nothing that a double could hold


def _counts(x: int, n: int) -> None:
    if n < 0 or not 0 <= x <= n:
        raise ValueError(f"{x} of {n} is no count")


def normal_quantile(confidence: float) -> float:
    """z such that a standard normal lies within ±z with this probability; 0 < confidence < 1."""
    from statistics import NormalDist

    return NormalDist().inv_cdf((1 + confidence) / 2)


def wilson(x: int, n: int, confidence: float = 0.95) -> tuple[float, float]:
    """Score interval of a share x/n, as two numbers from 0 to 1. Nothing observed (n = 0) says 0 to 1.

    Source: E. B. Wilson, J. Am. Stat. Assoc. 22 (1927) 209; method 3 of R. G. Newcombe, Statist. Med. 17
    (1998) 857. No continuity correction.
    """
    _counts(x, n)
    if n == 0:
        return (0.0, 1.0)
    z = normal_quantile(confidence)
    share, zz = x / n, z * z
    middle = (share + zz / (2 * n)) / (1 + zz / n)
    half = z / (1 + zz / n) * math.sqrt(share * (1 - share) / n + zz / (4 * n * n))
    # At the ends the formula gives 0 and 1 exactly; rounding may miss them by the last bit.
    low = 0.0 if x == 0 else max(0.0, middle - half)
    high = 1.0 if x == n else min(1.0, middle + half)
    return (low, high)


def newcombe(x1: int, n1: int, x2: int, n2: int, confidence: float = 0.95) -> tuple[float, float]:
    """Interval of the difference of two shares x1/n1 - x2/n2, from -1 to 1. Where one n is 0 it says -1 to 1.

    Source: R. G. Newcombe, Statist. Med. 17 (1998) 873, method 10: the two score intervals put together, without
    continuity correction.
    """
    low1, high1 = wilson(x1, n1, confidence)
    low2, high2 = wilson(x2, n2, confidence)
    if not n1 or not n2:
        return (-1.0, 1.0)
    share1, share2 = x1 / n1, x2 / n2
    apart = share1 - share2
    low = apart - math.hypot(share1 - low1, high2 - share2)
    high = apart + math.hypot(high1 - share1, share2 - low2)
    return (max(-1.0, low), min(1.0, high))


def exact_test(x1: int, n1: int, x2: int, n2: int) -> float:
    """Two-sided p of Fisher's exact test that two shares x1/n1 and x2/n2 are the same.

    The sum of the probabilities of all tables with the same margins that are at most as likely as this one
    (R. A. Fisher, 1934; the two-sided rule of Freeman and Halton, 1951). 1 when there is nothing to tell apart.
    Tables are weighed outward from the likeliest one by the ratio of neighbours, so nothing overflows.
    """
    _counts(x1, n1)
    _counts(x2, n2)
    drawn, total = x1 + x2, n1 + n2
    low, high = max(0, drawn - n2), min(n1, drawn)
    mode = min(high, max(low, (drawn + 1) * (n1 + 1) // (total + 2)))

    def rising(k: int) -> float:
        """Probability of k + 1 against k."""
        return (n1 - k) * (drawn - k) / ((k + 1) * (n2 - drawn + k + 1))

    weights = {mode: 1.0}
    weight = 1.0
    for k in range(mode, high):
        weight *= rising(k)
        if weight < LOWEST_WEIGHT:
            break
        weights[k + 1] = weight
    weight = 1.0
    for k in range(mode, low, -1):
        weight /= rising(k - 1)
        if weight < LOWEST_WEIGHT:
            break
        weights[k - 1] = weight
    seen = weights.get(x1, 0.0) * SLACK
    unlikely = math.fsum(w for w in weights.values() if w <= seen)
    return min(1.0, unlikely / math.fsum(weights.values()))


def holm(p_values: Sequence[float]) -> list[float]:
    """Adjusted p values of several tests looked at together, in the given order; each from 0 to 1.

    Source: S. Holm, Scand. J. Statist. 6 (1979) 65. An adjusted p below the level stands whatever the others say.
    """
    count = len(p_values)
    adjusted = [0.0] * count
    highest = 0.0
    for rank, at in enumerate(sorted(range(count), key=lambda i: p_values[i])):
        highest = max(highest, min(1.0, (count - rank) * p_values[at]))
        adjusted[at] = highest
    return adjusted
