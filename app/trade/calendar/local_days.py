"""The shop's day of very many instants: the days of a span laid out once, then one look-up for each instant."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from functools import lru_cache
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
    days, starts = _laid_out(_day(first, zone).year, _day(last, zone).year, zone)

    def day(instant: int) -> date:
        return days[bisect_right(starts, instant)]

    return day


def day_numbers(instants: NDArray[np.int64], zone: tzinfo) -> NDArray[np.int64]:
    """The same for a whole column, each day as `date.toordinal` has it."""
    import numpy as np

    if not len(instants):
        return np.zeros(0, dtype=np.int64)
    years = (_day(int(instant), zone).year for instant in (instants.min(), instants.max()))
    days, starts = _laid_out(*years, zone)
    return days[0].toordinal() + np.searchsorted(np.array(starts, dtype=np.int64), instants, side="right")


@lru_cache(maxsize=4)
def _laid_out(begun: int, ended: int, zone: tzinfo) -> tuple[tuple[date, ...], tuple[int, ...]]:
    """The days of the years from the one to the other, and when each but the first begins."""
    count = (date(ended, 12, 31) - date(begun, 1, 1)).days + 1
    days = tuple(date(begun, 1, 1) + timedelta(n) for n in range(count))
    return days, tuple((datetime.combine(day, time(), zone) - _EPOCH) // _MICROSECOND for day in days[1:])


def _day(instant: int, zone: tzinfo) -> date:
    return (_EPOCH + instant * _MICROSECOND).astimezone(zone).date()
