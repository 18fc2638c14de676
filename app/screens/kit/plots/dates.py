"""Days, months and years along an axis, in the words of the language."""

from __future__ import annotations

import math
from datetime import date, timedelta
from typing import TypeAlias

from app.screens.language import day

Span: TypeAlias = "tuple[float, float, str]"  # from, to (ordinals of days), its word


def date_marks(
    least: float, most: float, pieces: float
) -> tuple[tuple[tuple[float, str], ...], tuple[tuple[Span, ...], ...]]:
    """Ticks, and rows of stretches with the finest first, for days ``least`` to ``most`` (ordinals).

    A few weeks have ticks at days over their months, up to ``pieces`` months or quarters of months stand over their
    years, and more has years alone.
    """
    begin, end = date.fromordinal(math.floor(least)), date.fromordinal(math.ceil(most))
    days = (end - begin).days
    pieces = max(pieces, 1)
    if days <= 62:
        every = next((n for n in (1, 2, 7, 14, 28) if days / n <= pieces), 56)
        ticks = [begin + timedelta(n) for n in range(0, days + 1, every)]
        words = tuple((float(at.toordinal()), day(at, "d")) for at in ticks)
        return words, (_months(begin, end, 1, "MMM y"),)
    months = (end.year - begin.year) * 12 + end.month - begin.month + 1
    for every in (1, 2, 3, 6):
        if months / every <= pieces:
            return (), (_months(begin, end, every, "MMM"), _years(begin, end, 1))
    years = end.year - begin.year + 1
    step = next((n for n in (1, 2, 5, 10, 20) if years / n <= pieces), 50)
    return (), (_years(begin, end, step),)


def _months(begin: date, end: date, every: int, style: str) -> tuple[Span, ...]:
    at = date(begin.year, (begin.month - 1) // every * every + 1, 1)
    made: list[Span] = []
    while at <= end:
        month = at.month - 1 + every
        after = date(at.year + month // 12, month % 12 + 1, 1)
        made.append((at.toordinal(), after.toordinal(), day(at, style)))
        at = after
    return tuple(made)


def _years(begin: date, end: date, every: int) -> tuple[Span, ...]:
    first = begin.year // every * every
    return tuple(
        (date(year, 1, 1).toordinal(), date(year + every, 1, 1).toordinal(), str(year))
        for year in range(max(first, 1), end.year + 1, every)
    )
