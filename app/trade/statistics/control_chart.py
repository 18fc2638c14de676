"""The p-chart: a share by quarter, with the limits within which it moves by chance alone."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

SIGMAS = 3.0


@dataclass(frozen=True, slots=True)
class Point:
    """One period: ``x`` of ``n``, its ``share`` (None where n is 0), the limits ``low`` and ``high`` for that n."""

    x: int
    n: int
    share: float | None
    low: float
    high: float

    @property
    def outside(self) -> bool:
        """Whether it lies beyond a limit."""
        return self.share is not None and not self.low <= self.share <= self.high


@dataclass(frozen=True, slots=True)
class PChart:
    """The ``centre`` line, the share of all periods together (None without a count), and the periods in order."""

    centre: float | None
    points: tuple[Point, ...]


def p_chart(counts: Sequence[tuple[int, int]]) -> PChart:
    """The chart of (x, n) for each period, in order. Raises ValueError where x is not from 0 to n.

    Limits p ± 3 √(p(1-p)/n), cut at 0 and 1: W. A. Shewhart; D. C. Montgomery, Statistical Quality Control, chapter
    on attributes; NIST/SEMATECH e-Handbook 6.3.3.2. With few repairs in a period they are only rough.
    """
    if any(not 0 <= x <= n for x, n in counts):
        raise ValueError("a period has counts that are none")
    x_all, n_all = sum(x for x, _ in counts), sum(n for _, n in counts)
    if not n_all:
        return PChart(None, tuple(Point(x, n, None, 0.0, 1.0) for x, n in counts))
    centre = x_all / n_all
    return PChart(centre, tuple(_point(x, n, centre) for x, n in counts))


def _point(x: int, n: int, centre: float) -> Point:
    if not n:
        return Point(x, n, None, 0.0, 1.0)
    half = SIGMAS * math.sqrt(centre * (1 - centre) / n)
    return Point(x, n, x / n, max(0.0, centre - half), min(1.0, centre + half))
