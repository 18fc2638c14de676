"""How long repairs last: the survival curve of Kaplan and Meier, also where most were not watched to their end."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeAlias

from app.trade.statistics.proportions import normal_quantile, wilson

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

Durations: TypeAlias = "Sequence[float] | NDArray[Any]"
Happened: TypeAlias = "Sequence[bool] | NDArray[np.bool_]"

CONFIDENCE = 0.95
NEAR = 1e-12  # a share within this of one half is one half: products of fractions miss it by the last bits


@dataclass(frozen=True, slots=True)
class Survival:
    """A curve that falls at each of ``times``, in the unit that the durations came in (days).

    All tuples are equally long and in the order of time: how many were ``at_risk`` just before, how many
    ``events`` fell on it, the ``share`` that still holds after it (0 to 1), its standard ``error`` (Greenwood) and
    its band from ``low`` to ``high``. ``watched`` are all, ``longest`` is the longest duration.
    """

    watched: int
    longest: float
    times: tuple[float, ...]
    at_risk: tuple[int, ...]
    events: tuple[int, ...]
    share: tuple[float, ...]
    error: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]
    confidence: float = CONFIDENCE

    @property
    def event_count(self) -> int:
        """How many events there were."""
        return sum(self.events)

    def at(self, time: float) -> float | None:
        """The share that holds at ``time``; None beyond the longest duration, where nobody was watched."""
        if time > self.longest:
            return None
        step = bisect_right(self.times, time) - 1
        return 1.0 if step < 0 else self.share[step]

    def band_at(self, time: float) -> tuple[float, float] | None:
        """Low and high at ``time``; None where `at` is. Before the first event: the score interval of all held,
        out of as many as the curve began with."""
        if time > self.longest:
            return None
        step = bisect_right(self.times, time) - 1
        return (
            wilson(self.watched, self.watched, self.confidence)
            if step < 0
            else (self.low[step], self.high[step])
        )

    def quantile(self, share: float) -> float | None:
        """The first time at which no more than ``share`` holds; None where the curve stays above."""
        return next((t for t, s in zip(self.times, self.share, strict=True) if s <= share + NEAR), None)

    @property
    def median(self) -> float | None:
        """The time by which half came back; None while more than half hold."""
        return self.quantile(0.5)

    def median_band(self) -> tuple[float | None, float | None]:
        """The times at which the band's two edges come down to one half, None where an edge never does.

        Source: R. Brookmeyer, J. Crowley, Biometrics 38 (1982) 29, with the log-log band.
        """
        low = next((t for t, s in zip(self.times, self.low, strict=True) if s <= 0.5 + NEAR), None)
        high = next((t for t, s in zip(self.times, self.high, strict=True) if s <= 0.5 + NEAR), None)
        return (low, high)


def durations_and_events(
    durations: Durations, happened: Happened
) -> tuple[NDArray[np.float64], NDArray[np.bool_]]:
    """Both as arrays of one length. Raises ValueError for other lengths, for a duration below 0 or not finite."""
    import numpy as np

    time = np.asarray(durations, dtype=np.float64)
    seen = np.asarray(happened, dtype=np.bool_)
    if time.ndim != 1 or time.shape != seen.shape:
        raise ValueError(f"{time.shape} durations for {seen.shape} ends")
    if not bool(np.isfinite(time).all()) or bool((time < 0).any()):
        raise ValueError("a duration is a finite number, not below 0")
    return time, seen


def kaplan_meier(durations: Durations, happened: Happened, confidence: float = CONFIDENCE) -> Survival:
    """The survival curve of n things: how long each was watched, and whether the event happened at that time.

    ``durations`` and ``happened`` have n items, durations in one unit of the caller's. Who is watched until t
    without an event counts as at risk at t. Raises ValueError for what is no duration. Nothing watched gives a
    curve without steps.

    Share: E. L. Kaplan, P. Meier, J. Am. Stat. Assoc. 53 (1958) 457. Variance S² Σ d/(n(n-d)): M. Greenwood (1926).
    Band S^exp(±z σ/|log S|) with σ² = Σ d/(n(n-d)), the log(-log) form: J. D. Kalbfleisch, R. L. Prentice, The
    Statistical Analysis of Failure Time Data, section 1.4. Where the curve ends at 0 neither is defined: the error
    is 0 there, the band reaches from 0 to the high before, or, when all failed at once, to the upper end of the
    exact interval of none out of n, 1 - (α/2)^(1/n).
    """
    import numpy as np

    time, seen = durations_and_events(durations, happened)
    steps, counts = np.unique(time[seen], return_counts=True)
    ordered = np.sort(time)
    at_risk = len(ordered) - np.searchsorted(ordered, steps, side="left")
    left = at_risk - counts
    share = np.cumprod(left / at_risk) if len(steps) else np.zeros(0)
    alive = left > 0
    spread = np.cumsum(np.divide(counts, at_risk * np.maximum(left, 1.0)) * alive)
    error = share * np.sqrt(spread)
    low, high = share.copy(), share.copy()
    power = np.exp(normal_quantile(confidence) * np.sqrt(spread[alive]) / -np.log(share[alive]))
    low[alive], high[alive] = share[alive] ** power, share[alive] ** (1 / power)
    if len(steps) and not alive[-1]:
        high[-1] = high[-2] if len(steps) > 1 else 1 - ((1 - confidence) / 2) ** (1 / int(at_risk[-1]))
    return Survival(
        len(time),
        float(ordered[-1]) if len(ordered) else 0.0,
        _plain(steps),
        _plain(at_risk),
        _plain(counts),
        _plain(share),
        _plain(error),
        _plain(low),
        _plain(high),
        confidence,
    )


def numbers_at_risk(durations: Durations, marks: Sequence[float]) -> tuple[int, ...]:
    """How many are still watched at each mark: those whose duration is not shorter. Same unit for both."""
    import numpy as np

    ordered = np.sort(np.asarray(durations, dtype=np.float64))
    return _plain(len(ordered) - np.searchsorted(ordered, np.asarray(marks, dtype=np.float64), side="left"))


def worth_drawing_until(curves: Iterable[Survival], window: float) -> float:
    """How far curves are drawn, in their unit: a quarter beyond the last event and at least twice the window, but no
    farther than anything was watched. Beyond the last event a curve is level, however long the others are watched.
    """
    shown = tuple(curves)
    longest = max((curve.longest for curve in shown), default=0.0)
    last = max((curve.times[-1] for curve in shown if curve.times), default=0.0)
    return min(longest, max(1.25 * last, 2.0 * window))


def tidy_marks(longest: float, most: int = 6) -> tuple[float, ...]:
    """Marks from 0 to at least ``longest``, evenly apart by 1, 2, 3, 5 or 9 times a power of ten (days: 30, 90)."""
    if longest <= 0:
        return (0.0,)
    least = longest / most
    ten: float = 10.0 ** math.floor(math.log10(least))
    step = next(n * ten for n in (1, 2, 3, 5, 9, 10, 20) if n * ten >= least)
    return tuple(step * at for at in range(math.ceil(longest / step - NEAR) + 1))


def _plain(array: NDArray[Any]) -> tuple[Any, ...]:
    return tuple(array.tolist())
