"""The shop's day of very many instants: the days of a span laid out once, then one look-up for each instant."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable
from datetime import UTC, date, datetime, time, timedelta, tzinfo

_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_MICROSECOND = timedelta(microseconds=1)


def local_days(first: int, last: int, zone: tzinfo) -> Callable[[int], date]:
    """What tells the day of an instant from ``first`` to ``last``, all in microseconds since 1970 UTC.

    A day lasts from its midnight to the next. A midnight that the clocks jump over is the jump itself, and a
    day that they jump over whole has no instants.
    """
    begun, ended = (_day(instant, zone) for instant in (first, last))
    days = [begun + timedelta(n) for n in range((ended - begun).days + 1)]
    starts = [(datetime.combine(day, time(), zone) - _EPOCH) // _MICROSECOND for day in days[1:]]

    def day(instant: int) -> date:
        return days[bisect_right(starts, instant)]

    return day


def _day(instant: int, zone: tzinfo) -> date:
    return (_EPOCH + instant * _MICROSECOND).astimezone(zone).date()
