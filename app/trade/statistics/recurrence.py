"""Players that keep coming: the mean number of visits for each unit watched, as its watch goes on."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeAlias

from app.trade.statistics.proportions import normal_quantile
from app.trade.statistics.survival import Durations

if TYPE_CHECKING:
    from numpy.typing import NDArray

Places: TypeAlias = "Sequence[int] | NDArray[Any]"


@dataclass(frozen=True, slots=True)
class MeanCumulative:
    """The mean cumulative function: it rises at each of ``times`` (the unit that the events came in).

    All tuples are equally long: units ``at_risk`` (still watched), ``events`` at that time, the ``mean`` number of
    events for each unit until then, its robust standard ``error``, and the band from ``low`` to ``high``.
    ``low`` and ``high`` are None where fewer than two units were ever watched: one unit shows no scatter.
    """

    units: int
    longest: float
    times: tuple[float, ...]
    at_risk: tuple[int, ...]
    events: tuple[int, ...]
    mean: tuple[float, ...]
    error: tuple[float, ...]
    low: tuple[float, ...] | None
    high: tuple[float, ...] | None

    @property
    def event_count(self) -> int:
        """How many events there were."""
        return sum(self.events)

    def at(self, time: float) -> float | None:
        """The mean number until ``time``; None beyond the longest watch."""
        if time > self.longest:
            return None
        step = bisect_right(self.times, time) - 1
        return 0.0 if step < 0 else self.mean[step]


def mean_cumulative(
    ends: Durations, unit_of: Places, event_times: Durations, confidence: float = 0.95
) -> MeanCumulative:
    """The mean cumulative function of u units watched from 0 to ``ends`` (u items), with e events in all.

    ``unit_of`` (e items) says by its place in ``ends`` whose event each of ``event_times`` (e items) is; one unit of
    time for all. A unit that ends on the day of an event is still watched that day. Raises ValueError for lengths
    that do not fit, times that are not finite or below 0, an unknown unit, an event after its unit's end.

    Mean Σ d/n: W. Nelson, J. Qual. Technol. 20 (1988) 24. Robust variance, the sum over units of
    (Σ (own events - d/n)/n)² with divisor n²: J. F. Lawless, C. Nadeau, Technometrics 37 (1995) 158. Band
    M exp(±z error/M), which never falls below 0: W. Nelson, Recurrent Events Data Analysis, SIAM 2003.
    Takes time in proportion to the events, not to units times days.
    """
    import numpy as np

    end = np.asarray(ends, dtype=np.float64)
    owner = np.asarray(unit_of, dtype=np.int64)
    time = np.asarray(event_times, dtype=np.float64)
    if end.ndim != 1 or time.ndim != 1 or owner.shape != time.shape:
        raise ValueError(f"{owner.shape} units for {time.shape} events")
    if not (np.isfinite(end).all() and np.isfinite(time).all()) or (end < 0).any() or (time < 0).any():
        raise ValueError("a time is a finite number, not below 0")
    if len(owner) and not (int(owner.min()) >= 0 and int(owner.max()) < len(end)):
        raise ValueError("an event of a unit that is not watched")
    if (time > end[owner]).any():
        raise ValueError("an event after its unit was watched")
    ordered = np.sort(end)
    longest = float(ordered[-1]) if len(ordered) else 0.0
    steps, place, counts = np.unique(time, return_inverse=True, return_counts=True)
    if not len(steps):
        return MeanCumulative(
            len(end), longest, (), (), (), (), (), *((), ()) if len(end) > 1 else (None, None)
        )
    n = len(end) - np.searchsorted(ordered, steps, side="left")
    mean = np.cumsum(counts / n)
    # A unit's score until t is A - B: A sums 1/n at its own events, B sums d/n² at all events while it was watched.
    # The sum of (A - B)² over units is kept as three running sums, so that no unit is looked at for every time.
    b = np.cumsum(counts / n.astype(np.float64) ** 2)
    ended = np.searchsorted(ordered, steps, side="left")  # units whose watch ended before
    b_before = np.concatenate(([0.0], b))
    b_end = b_before[np.searchsorted(steps, end, side="right")]  # B of each unit at its end
    by_end = np.argsort(end, kind="stable")
    weight = 1.0 / n[place]
    by_unit = np.lexsort((time, owner))
    within = np.cumsum(weight[by_unit])
    first = np.concatenate(([True], owner[by_unit][1:] != owner[by_unit][:-1]))
    before = within - weight[by_unit]
    before -= np.repeat(before[first], np.diff(np.append(np.flatnonzero(first), len(before))))
    rise = weight[by_unit] * (2 * before + weight[by_unit])
    a_squared = np.cumsum(np.bincount(place[by_unit], rise, len(steps)))
    a_all = np.cumsum(np.bincount(place, weight, len(steps)))
    a_end = np.bincount(owner, weight, len(end))
    a_of_ended = np.concatenate(([0.0], np.cumsum(a_end[by_end])))[ended]
    ab_of_ended = np.concatenate(([0.0], np.cumsum((a_end * b_end)[by_end])))[ended]
    bb_of_ended = np.concatenate(([0.0], np.cumsum((b_end**2)[by_end])))[ended]
    variance = a_squared - 2 * (b * (a_all - a_of_ended) + ab_of_ended) + n * b**2 + bb_of_ended
    error = np.sqrt(np.maximum(variance, 0.0))
    spread = np.exp(normal_quantile(confidence) * error / mean)
    low, high = mean / spread, mean * spread
    band = (tuple(low.tolist()), tuple(high.tolist())) if len(end) > 1 else (None, None)
    return MeanCumulative(
        len(end),
        longest,
        tuple(steps.tolist()),
        tuple(n.tolist()),
        tuple(counts.tolist()),
        tuple(mean.tolist()),
        tuple(error.tolist()),
        *band,
    )
