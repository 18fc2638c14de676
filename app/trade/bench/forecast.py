"""What the readings of a transport over the years say of the days to come, and when they say nothing."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal
from enum import StrEnum

from app.trade.statistics.trend import Crossing, Line, fit_line

FEWEST_READINGS = 4  # from fewer nothing is foretold
TIMES_THE_SPAN = 2  # nor beyond so many times the days between first and last reading, counted from the first
DAYS_A_YEAR = 365.25


class Pace(StrEnum):
    """What a run of readings shows."""

    TOO_FEW = "too few readings"
    ONE_DAY = "all of one day"
    LEVEL = "no trend shown"  # the slope's interval holds zero
    FREE = "no limit lies ahead"
    BEYOND = "beyond the limit already"  # at the last reading
    REACHES = "reaches the limit"
    FAR = "the limit is out of reach"


@dataclass(frozen=True, slots=True)
class Forecast:
    """The line of one quantity, in the unit shown, and the day on which it meets its limit.

    ``reach`` is the last day of which anything is said. ``a_year`` is the slope per year with its 95 % interval.
    ``crosses`` is where the line meets ``limit``; ``earliest`` and ``latest`` where the 95 % prediction band does,
    None beyond ``reach``.
    """

    pace: Pace
    count: int
    first: date | None = None
    last: date | None = None
    reach: date | None = None
    line: Line | None = None  # x in days since ``first``
    a_year: tuple[float, float, float] | None = None  # low, slope, high
    limit: Decimal | None = None
    crosses: date | None = None
    earliest: date | None = None
    latest: date | None = None

    def band(self, day: date) -> tuple[float, float, float]:
        """Lower edge, line and upper edge on a day. Raises ValueError without a line and beyond ``reach``."""
        if self.line is None or self.first is None or self.reach is None:
            raise ValueError("no line is drawn through these readings")
        if not self.first <= day <= self.reach:
            raise ValueError("nothing is said of this day")
        x = float((day - self.first).days)
        low, high = self.line.band(x)
        return (low, self.line.at(x), high)


def forecast(
    days: Sequence[date], values: Sequence[Decimal], low: Decimal | None, high: Decimal | None
) -> Forecast:
    """The forecast from readings on shop-local ``days``; values and limits in one unit, limits as of the last.

    A line needs four readings on two days. The limit looked at is the one that the line runs towards.
    """
    count = len(values)
    if count < FEWEST_READINGS:
        return Forecast(Pace.TOO_FEW, count)
    first, last = min(days), max(days)
    if first == last:
        return Forecast(Pace.ONE_DAY, count, first, last)
    line = fit_line([float((day - first).days) for day in days], [float(value) for value in values])
    reach = first + TIMES_THE_SPAN * (last - first)
    slow, fast = line.slope_interval()
    a_year = (slow * DAYS_A_YEAR, line.slope * DAYS_A_YEAR, fast * DAYS_A_YEAR)
    if not line.rises_or_falls():
        return Forecast(Pace.LEVEL, count, first, last, reach, line, a_year)
    limit = high if line.slope > 0 else low
    met = None if limit is None else line.meets(float(limit))
    if limit is None or met is None:
        return Forecast(Pace.FREE, count, first, last, reach, line, a_year)
    return _towards(Forecast(Pace.REACHES, count, first, last, reach, line, a_year, limit), met)


def _towards(found: Forecast, met: Crossing) -> Forecast:
    """The days of the crossing; days that lie before the first reading or beyond reach are not told."""
    assert found.line is not None
    span = found.line.last
    if met.at <= span:
        pace = Pace.BEYOND
    elif met.at <= TIMES_THE_SPAN * span:
        pace = Pace.REACHES
    else:
        pace = Pace.FAR
    return replace(
        found,
        pace=pace,
        crosses=_day(found, met.at),
        earliest=_day(found, met.earliest),
        latest=_day(found, met.latest),
    )


def _day(found: Forecast, x: float) -> date | None:
    """The day of x days since the first reading, None before it and beyond reach."""
    assert found.first is not None
    assert found.line is not None
    if not 0 <= x <= TIMES_THE_SPAN * found.line.last:
        return None
    return found.first + timedelta(days=math.floor(x + 0.5))
