"""An axis on paper: from where to where it runs, at which round numbers it is marked, and how they are written."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from app.trade.statistics.picture import Axis, Scale
from app.trade.statistics.survival import tidy_marks
from app.trade.wording import GLUE, Wording

NEAR = 1e-9
_MONTHS = (1, 3, 6, 12, 24, 60, 120, 240)
_DAYS = (1, 2, 7, 14)


@dataclass(frozen=True, slots=True)
class Ruler:
    """An axis from ``least`` to ``most`` with its marks and their words, the lowest first."""

    least: float
    most: float
    marks: tuple[tuple[float, str], ...]

    def share(self, value: float) -> float:
        """How far along a value stands: 0 at the least, 1 at the most; what lies beyond stands at the end."""
        return min(max((value - self.least) / (self.most - self.least), 0.0), 1.0)


def ruler(
    axis: Axis,
    values: Iterable[float | None],
    wording: Wording,
    pieces: int = 5,
    marks: Sequence[float] = (),
) -> Ruler:
    """The axis over its values with about ``pieces`` marks: its own ends where it names them, else round ones that
    hold every value. ``marks`` are places that must be marked, if there are any."""
    known = [value for value in values if value is not None]
    least, most = _ends(axis, known)
    if axis.scale is Scale.DATE:
        return Ruler(least, most, _dates(least, most, pieces, wording))
    step = _step(most - least, pieces)
    if axis.scale is Scale.COUNT:
        step = max(step, 1.0)
    if marks:
        places = [mark for mark in marks if least <= mark <= most]
    elif axis.scale is Scale.DAYS and least == 0.0:
        places = [mark for mark in tidy_marks(most, pieces) if mark <= most + NEAR]
        most = most if axis.most is not None else _up(most, places[1] if len(places) > 1 else 1.0)
        places = list(tidy_marks(most, pieces)) if axis.most is None else places
    else:
        least = least if axis.least is not None else math.floor(least / step + NEAR) * step
        most = most if axis.most is not None else _up(most, step)
        most = min(most, 1.0) if axis.scale is Scale.SHARE else most
        first = math.ceil(least / step - NEAR)
        places = [(first + at) * step for at in range(math.floor(most / step + NEAR) - first + 1)]
    return Ruler(least, most, tuple((place, _word(place, axis.scale, step, wording)) for place in places))


def _up(value: float, step: float) -> float:
    return math.ceil(value / step - NEAR) * step


def _ends(axis: Axis, known: Sequence[float]) -> tuple[float, float]:
    """Ends that differ, also where all values are the same or there is none."""
    least = axis.least if axis.least is not None else min(known, default=0.0)
    most = axis.most if axis.most is not None else max(known, default=least)
    if most > least:
        return least, most
    if axis.scale is Scale.DATE:
        return least - 15.0, least + 15.0
    if axis.least is not None:
        return least, least + 1.0
    spread = abs(least) * 0.1 or 1.0
    return least - spread, least + spread


def _step(length: float, pieces: int) -> float:
    """The least of 1, 2 and 5 times a power of ten that makes no more than ``pieces`` of a length."""
    wanted = length / pieces
    ten: float = 10.0 ** math.floor(math.log10(wanted))
    return next(n * ten for n in (1, 2, 5, 10) if n * ten >= wanted * (1 - NEAR))


def _word(value: float, scale: Scale, step: float, wording: Wording) -> str:
    if scale is Scale.SHARE:
        return f"{_figures(value * 100, step * 100, wording)}{GLUE}%"
    return _figures(value, step, wording)


def _figures(value: float, step: float, wording: Wording) -> str:
    places = max(0, -math.floor(math.log10(step) + NEAR))
    return wording.number(Decimal(repr(value)).quantize(Decimal(1).scaleb(-places)) + 0, grouped=True)


def _dates(least: float, most: float, pieces: int, wording: Wording) -> tuple[tuple[float, str], ...]:
    """First days of years, of months or of weeks, as the length wants it; days where it is short."""
    first, last = date.fromordinal(math.ceil(least)), date.fromordinal(math.floor(most))
    for months in _MONTHS if (last - first).days > 45 else ():
        starts = list(_months(first, last, months))
        if len(starts) <= pieces + 1:
            style = "y" if months >= 12 else "MMM y"
            return tuple((float(day.toordinal()), wording.day(day, style)) for day in starts)
    step = next((days for days in _DAYS if (last - first).days / days <= pieces), _DAYS[-1])
    days = (first + timedelta(at) for at in range(0, (last - first).days + 1, step))
    return tuple((float(day.toordinal()), wording.day(day, "d MMM")) for day in days)


def _months(first: date, last: date, months: int) -> Iterable[date]:
    """First days of every so many months, counted from January of year 0, from ``first`` to ``last``."""
    at = -(-(first.year * 12 + first.month - 1 + (first.day > 1)) // months) * months
    while (day := date(at // 12, at % 12 + 1, 1)) <= last:
        yield day
        at += months
