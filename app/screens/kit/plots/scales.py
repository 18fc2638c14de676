"""Where the numbers of an axis stand, at which round ones it is marked, and how they are written."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from app.screens.kit.life_axes import nice_step
from app.screens.kit.plots.dates import Span, date_marks
from app.screens.language import day, number, percent, say
from app.trade.statistics.picture import Axis, Scale

_DAYS = (1, 2, 5, 10, 15, 30, 60, 90, 180, 365, 730, 1825, 3650)


@dataclass(frozen=True, slots=True)
class Ruler:
    """An axis from ``least`` to ``most``. ``ticks`` are values with their words; ``spans`` are rows of stretches of
    time with their words, the finest first."""

    least: float
    most: float
    ticks: tuple[tuple[float, str], ...] = ()
    spans: tuple[tuple[Span, ...], ...] = ()

    def holds(self, value: float) -> bool:
        """Whether a value lies on the axis."""
        return self.least <= value <= self.most

    def share(self, value: float) -> float:
        """How far along the axis a value stands: 0 at its least, 1 at its most, beyond them cut."""
        return min(max((value - self.least) / (self.most - self.least), 0.0), 1.0)


def ruler(axis: Axis, values: Iterable[float | None], *, pieces: float = 5) -> Ruler:
    """The axis over its values: its own ends where it names them, else round ones that hold every value; about
    ``pieces`` marks. Values that are no numbers are passed over."""
    known = [value for value in values if value is not None and math.isfinite(value)]
    if axis.scale is Scale.DATE:
        least = axis.least if axis.least is not None else min(known, default=date(2000, 1, 1).toordinal())
        most = axis.most if axis.most is not None else max(known, default=least + 1)
        if most <= least:
            least, most = least - 46, most + 46  # a day alone stands in its quarter
        return Ruler(least, most, *date_marks(least, most, pieces))
    least, most = _ends(axis, known)
    step = _step(axis.scale, most - least, pieces)
    if axis.least is None:
        least = math.floor(least / step + 1e-9) * step
    if axis.most is None:
        most = math.ceil(most / step - 1e-9) * step
        if axis.scale is Scale.SHARE:
            most = min(most, 1.0)
    first = math.ceil(least / step - 1e-9)
    count = math.floor(most / step + 1e-9) - first + 1
    marks = [(first + i) * step for i in range(count)]
    return Ruler(least, most, tuple((mark, tick_words(mark, axis.scale, step)) for mark in marks))


def _ends(axis: Axis, known: list[float]) -> tuple[float, float]:
    low, high = min(known, default=0.0), max(known, default=0.0)
    if axis.scale is not Scale.NUMBER or 0 <= low < 0.6 * high:
        low = min(low, 0.0)  # what is counted is seen against nothing at all
    least = low if axis.least is None else axis.least
    most = high if axis.most is None else axis.most
    if most <= least and axis.scale is Scale.NUMBER and axis.least is None and axis.most is None:
        least, most = low - max(abs(low) * 0.05, 0.5), low + max(abs(low) * 0.05, 0.5)  # in the middle
    if most <= least:
        most = least + (0.1 if axis.scale is Scale.SHARE else 1.0)
    return least, most


def _step(scale: Scale, span: float, pieces: float) -> float:
    if scale is Scale.DAYS:
        return next((float(step) for step in _DAYS if span / step <= pieces), float(_DAYS[-1]))
    step = nice_step(span * 4 / max(pieces, 1))
    return max(step, 1.0) if scale is Scale.COUNT else step


def tick_words(value: float, scale: Scale, step: float) -> str:
    """A round value beside its axis; the name of the axis tells the unit."""
    if scale is Scale.SHARE:
        return percent(value, _decimals(step * 100))
    return number(Decimal(f"{value:.{_decimals(step)}f}"), grouped=abs(value) >= 10_000)


def _decimals(step: float) -> int:
    return max(0, -math.floor(math.log10(step) + 1e-9))


def value_words(value: float, scale: Scale) -> str:
    """One value within a sentence, with its unit."""
    match scale:
        case Scale.SHARE:
            return percent(value)
        case Scale.DATE:
            return day(date.fromordinal(round(value)))
        case Scale.DAYS:
            days = round(value)
            return say("1 day") if days == 1 else say("{n} days", n=number(days, grouped=True))
        case Scale.COUNT:
            return number(Decimal(round(value)), grouped=True)
    digits = 0 if abs(value) >= 100 else 1 if abs(value) >= 10 else 2
    return number(Decimal(f"{value:.{digits}f}"))


def place_words(value: float, scale: Scale) -> str:
    """A place on the level axis within a sentence: after so many days, on a day, at a number."""
    if scale is not Scale.DAYS:
        return value_words(value, scale)
    days = round(value)
    return say("after 1 day") if days == 1 else say("after {n} days", n=number(days, grouped=True))
