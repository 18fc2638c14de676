"""Which backups stay, and when the next one is due.

Kept: every backup of today and yesterday; before those one a day for 12 days, one a week for 10 weeks, one a
month for 9 months, counted in days, weeks and months that have a backup, so that a clock that jumps ahead
thins nothing more. Never deleted: the newest and the last verified, by the shop's clock and by the length of
the history, and whatever bears a time that has not come yet.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta, tzinfo

from app.trade.calendar.promise import local_day

DAILY, WEEKLY, MONTHLY = 12, 10, 9
APART = timedelta(hours=1)


@dataclass(frozen=True)
class BackupMade:
    """One backup: its file name, when it was taken (UTC), how long the history was, and whether it verified."""

    name: str
    taken: datetime
    history_length: int = 0
    verified: bool = True


def _week(day: date) -> Hashable:
    return day.isocalendar()[:2]


def _month(day: date) -> Hashable:
    return (day.year, day.month)


def _day(day: date) -> Hashable:
    return day


def kept(backups: Iterable[BackupMade], now: datetime, zone: tzinfo) -> frozenset[str]:
    """The names of the backups that stay. Of a day, week or month the newest stays.

    A backup that did not verify never takes the place of one that did.
    """
    newest_first = sorted(backups, key=_age, reverse=True)
    stay = _never_deleted(newest_first)
    recent = local_day(now, zone) - timedelta(days=1)
    older = [(local_day(made.taken, zone), made) for made in newest_first]
    stay.update(made.name for day, made in older if day >= recent)
    # The time of today and of what has not come yet belongs to no tier.
    older = [(day, made) for day, made in older if day < recent and made.verified]
    tiers: tuple[tuple[int, Callable[[date], Hashable]], ...] = (
        (DAILY, _day),
        (WEEKLY, _week),
        (MONTHLY, _month),
    )
    last: date | None = None
    for room, period in tiers:
        while older and room:
            day, made = older.pop(0)
            if last is not None and period(day) == period(last):
                continue
            stay.add(made.name)
            last = day
            room -= 1
    return frozenset(stay)


def _age(made: BackupMade) -> tuple[datetime, int, str]:
    return (made.taken, made.history_length, made.name)


def _never_deleted(newest_first: list[BackupMade]) -> set[str]:
    """The newest and the last verified: by their time, and by the history in them if the clock went back."""
    stay: set[str] = set()
    for some in (newest_first, [made for made in newest_first if made.verified]):
        if some:
            stay.add(some[0].name)
            stay.add(max(some, key=lambda made: (made.history_length, *_age(made))).name)
    return stay


def thinned(backups: Iterable[BackupMade], now: datetime, zone: tzinfo) -> tuple[BackupMade, ...]:
    """The backups that may be deleted, oldest first."""
    made = sorted(backups, key=_age)
    stay = kept(made, now, zone)
    return tuple(backup for backup in made if backup.name not in stay)


def due(last: BackupMade | None, history_length: int, now: datetime) -> bool:
    """Whether a backup is due: something changed since the last one made, and an hour has passed.

    ``last`` is the backup made last, whatever its time says. When the clock was put back behind it, one is
    taken at once, which is the safe side; the next then counts from that one.
    """
    if last is None:
        return True
    if history_length == last.history_length:
        return False
    return not timedelta(0) <= now - last.taken < APART
