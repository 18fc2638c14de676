"""Where days and values stand in the life line, and the round steps and years beside them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from app.screens.kit.life import LifeFacts
from app.screens.language import day, number


@dataclass(frozen=True)
class Axes:
    """Where days and values stand, in px."""

    left: float
    right: float
    top: float
    bottom: float
    start: date
    end: date
    low: float
    high: float
    step: float

    @classmethod
    def over(cls, facts: LifeFacts, left: float, right: float, top: float, bottom: float) -> Axes:
        """Axes that hold every reading, the limits and the trend, with round steps."""
        values = [r.value + d for r in facts.readings for d in (-r.spread, r.spread)]
        values += [v for _, *three in facts.trend for v in three]
        for limit in facts.limits:
            values += [limit.value, *(value for _, value in limit.steps)]
        if facts.reference is not None:
            values.append(facts.reference[0])
        low, high = (min(values), max(values)) if values else (0.0, 1.0)
        step = nice_step((high - low) or abs(high) or 1.0)
        bottom_value = math.floor((low - step * 0.5) / step) * step
        if low >= 0:
            bottom_value = max(bottom_value, 0.0)  # what is never below 0 is not drawn as if it could be
        return cls(
            left,
            right,
            top,
            bottom,
            facts.start,
            facts.end,
            bottom_value,
            high + step * 0.35,
            step,
        )

    def x(self, day: date) -> float:
        """Px of a day."""
        return self.left + (day - self.start).days / self.days * (self.right - self.left)

    def y(self, value: float) -> float:
        """Px of a value."""
        return self.bottom - (value - self.low) / (self.high - self.low) * (self.bottom - self.top)

    @property
    def days(self) -> int:
        """Days from one end to the other, at least one."""
        return max((self.end - self.start).days, 1)

    def at(self, day: date) -> int:
        """Days since the start, as the plot counts."""
        return (day - self.start).days

    def values(self) -> list[tuple[float, str]]:
        """The round values of the upright axis with their words."""
        decimals = max(0, -math.floor(math.log10(self.step)))
        count = math.floor((self.high - self.low) / self.step + 1e-6) + 1
        made = [self.low + i * self.step for i in range(count)]
        return [(value, number(Decimal(f"{value:.{decimals}f}"))) for value in made]


def nice_step(span: float) -> float:
    """A step of 1, 2 or 5 times a power of ten that cuts ``span`` into about five."""
    rough = span / 4
    power = 10.0 ** math.floor(math.log10(rough))
    return next((m * power for m in (1, 2, 5) if m * power >= rough), 10 * power)


def spans(start: date, end: date, most: float) -> list[tuple[date, date, str]]:
    """Years, or quarters of a short life, with their words; not more than ``most`` of them."""
    made: list[tuple[date, date, str]] = []
    if (end - start).days > 3 * 366:
        every = max(1, math.ceil((end.year - start.year + 1) / max(most, 1)))
        for year in range(start.year, end.year + 1, every):
            made.append((date(year, 1, 1), date(year + every, 1, 1), str(year)))
        return made
    months = (end.year - start.year) * 12 + end.month - start.month + 1
    every = next((m for m in (1, 2, 3, 6, 12) if months / m <= max(most, 1)), 12)
    at = date(start.year, (start.month - 1) // every * every + 1, 1)
    while at <= end:
        month = at.month - 1 + every
        after = date(at.year + month // 12, month % 12 + 1, 1)
        made.append((at, after, day(at, "MMM y" if at.month == 1 else "MMM")))
        at = after
    return made
