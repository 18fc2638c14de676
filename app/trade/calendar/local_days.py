"""The shop's day of very many instants: the days of a span laid out once, then one look-up for each instant."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_MICROSECOND = timedelta(microseconds=1)


def local_days(first: int, last: int, zone: tzinfo) -> Callable[[int], date]:
    """What tells the day of an instant from ``first`` to ``last``, all in microseconds since 1970 UTC.

    A day lasts from its midnight to the next. A midnight that the clocks jump over is the jump itself, and a
    day that they jump over whole has no instants.
    """
    days, starts = _laid_out(first, last, zone)

    def day(instant: int) -> date:
        return days[bisect_right(starts, instant)]

    return day


def day_numbers(instants: NDArray[np.int64], zone: tzinfo) -> NDArray[np.int64]:
    """The same for a whole column, each day as `date.toordinal` has it."""
    import numpy as np

    if not len(instants):
        return np.zeros(0, dtype=np.int64)
    days, starts = _laid_out(int(instants.min()), int(instants.max()), zone)
    return days[0].toordinal() + np.searchsorted(np.array(starts, dtype=np.int64), instants, side="right")


def _laid_out(first: int, last: int, zone: tzinfo) -> tuple[list[date], list[int]]:
    """The days from the one instant to the other, and when each but the first begins."""
    begun, ended = (_day(instant, zone) for instant in (first, last))
    days = [begun + timedelta(n) for n in range((ended - begun).days + 1)]
    return days, [(datetime.combine(day, time(), zone) - _EPOCH) // _MICROSECOND for day in days[1:]]


def _day(instant: int, zone: tzinfo) -> date:
    return (_EPOCH + instant * _MICROSECOND).astimezone(zone).date()
