"""Better or worse over time: trend tests on the times of events, and the power law that they may follow."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from app.trade.statistics.proportions import normal_quantile


@dataclass(frozen=True, slots=True)
class TrendTest:
    """A ``statistic`` and its two-sided ``p``. ``rising``: towards more events as time goes on."""

    statistic: float
    p: float
    rising: bool


def laplace(times: Sequence[float], end: float) -> TrendTest | None:
    """Laplace's test of no trend in n events at ``times`` (any order, over 0) watched from 0 to ``end``; same unit.

    U = (mean of times - end/2) / (end / √(12 n)), standard normal without a trend; above 0 they come closer
    together. None without events. Raises ValueError for a time outside 0 to ``end``. Source: D. R. Cox, P. A. W.
    Lewis, The Statistical Analysis of Series of Events (1966), section 3.3; time truncated.
    """
    seen = _times(times, end)
    if not seen:
        return None
    u = (math.fsum(seen) / len(seen) - end / 2) / (end / math.sqrt(12 * len(seen)))
    return TrendTest(u, math.erfc(abs(u) / math.sqrt(2)), u > 0)


def military_handbook(times: Sequence[float], end: float) -> TrendTest | None:
    """The MIL-HDBK-189 test of no trend against a power law; as `laplace` in what it takes and refuses.

    χ² = 2 Σ ln(end/t) on 2n degrees of freedom without a trend; a large value means that events become rarer.
    Two-sided p: twice the smaller tail. Source: MIL-HDBK-189 (1981), time truncated; NIST/SEMATECH e-Handbook 8.2.3.4.
    """
    from scipy.special import chdtr, chdtrc

    seen = _times(times, end)
    if not seen:
        return None
    statistic = 2 * math.fsum(math.log(end / time) for time in seen)
    lower, upper = float(chdtr(2 * len(seen), statistic)), float(chdtrc(2 * len(seen), statistic))
    return TrendTest(statistic, min(1.0, 2 * min(lower, upper)), lower < upper)


@dataclass(frozen=True, slots=True)
class PowerLaw:
    """Events that come as ``scale`` · time^``shape``; with a shape below 1 they become rarer.

    ``low`` and ``high`` bound the shape. ``unbiased`` is the modified shape, (n-1)/n of the one of greatest
    likelihood, and ``unbiased_scale`` belongs to it. ``end`` and the mean times are in the unit of the events.
    """

    count: int
    end: float
    shape: float
    scale: float
    unbiased: float
    unbiased_scale: float
    low: float
    high: float

    def expected(self, time: float) -> float:
        """The mean number of events until ``time``."""
        return float(self.scale * time**self.shape)

    @property
    def mean_time_at_end(self) -> float:
        """The mean time between events as it is at the end, by the modified shape."""
        return self.end / (self.count * self.unbiased)

    def mean_time_limits(self, confidence: float = 0.8) -> tuple[float, float | None]:
        """Limits of that mean time, for events watched to a time fixed before; the upper is None where too few.

        Source: NIST/SEMATECH e-Handbook 8.4.5.2 (large-sample formula after L. H. Crow); seen on its case only.
        """
        n, z = self.count, normal_quantile(confidence)
        least = n + z * z / 4 + math.sqrt(n * z * z / 2 + z**4 / 16)
        most = n - z * math.sqrt(n / 2)
        top = n * (n - 1)
        high = self.mean_time_at_end * top / most**2 if most > 0 else None
        return (self.mean_time_at_end * top / least**2, high)


def power_law(times: Sequence[float], end: float, confidence: float = 0.95) -> PowerLaw | None:
    """The power law through n events at ``times``, watched from 0 to ``end``; None for fewer than two.

    Raises ValueError for a time outside 0 to ``end``. Greatest likelihood, time truncated: shape n/Σ ln(end/t), scale
    n/end^shape; 2 n shape/estimate is χ² on 2n degrees, which bounds it. Source: L. H. Crow, in Reliability and Biometry
    (SIAM 1974); MIL-HDBK-189; NIST/SEMATECH e-Handbook 8.1.7.2 and 8.4.5.2.
    """
    from scipy.special import chdtri

    seen = _times(times, end)
    count, total = len(seen), math.fsum(math.log(end / time) for time in seen)
    if count < 2 or total <= 0:
        return None
    shape, unbiased, tail = count / total, (count - 1) / total, (1 - confidence) / 2
    return PowerLaw(
        count,
        end,
        shape,
        count / end**shape,
        unbiased,
        count / end**unbiased,
        shape * float(chdtri(2 * count, 1 - tail)) / (2 * count),
        shape * float(chdtri(2 * count, tail)) / (2 * count),
    )


def _times(times: Sequence[float], end: float) -> list[float]:
    seen = [float(time) for time in times]
    if not math.isfinite(end) or end <= 0 or not all(0 < time <= end for time in seen):
        raise ValueError("events lie after 0 and not after the end of the watch")
    return seen
