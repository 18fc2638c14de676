"""The shop's days and hours, and the clock that the builder moves through them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

OPENS, SHUTS = time(9, 0), time(18, 0)
SATURDAY, SATURDAY_SHUTS = 6, time(13, 0)
DAY = timedelta(days=1)


class StoryClock:
    """The book's clock while it is built: it stands where the builder puts it, and never goes back."""

    def __init__(self, instant: datetime) -> None:
        self._instant = instant

    def __call__(self) -> datetime:
        """The present instant of the story, UTC."""
        return self._instant

    def go_to(self, instant: datetime) -> None:
        """Move on."""
        if instant < self._instant:
            raise ValueError(f"the story went back from {self._instant} to {instant}")
        self._instant = instant


@dataclass(frozen=True)
class Days:
    """Opening days in the shop's own time zone."""

    zone: ZoneInfo

    def is_open(self, day: date) -> bool:
        """Whether the shop works on this day."""
        return day.isoweekday() <= SATURDAY

    def after(self, day: date, count: int) -> date:
        """The open day that is ``count`` open days after ``day``; before it for a number below 0."""
        step = DAY if count > 0 else -DAY
        for _ in range(abs(count)):
            day += step
            while not self.is_open(day):
                day += step
        return day

    def next_open(self, day: date) -> date:
        """``day`` itself when the shop is open, else the next open one."""
        return day if self.is_open(day) else self.after(day, 1)

    def next_working(self, day: date) -> date:
        """The next day on which the bench works: Saturdays are for the counter."""
        day = self.next_open(day)
        return day if day.isoweekday() < SATURDAY else self.next_working(day + DAY)

    def working_before(self, day: date) -> date:
        """The last day before this one on which the bench worked."""
        day = self.after(day, -1)
        return day if day.isoweekday() < SATURDAY else self.working_before(day)

    def at(self, day: date, clock: str) -> datetime:
        """The instant of a day and a time of the shop, such as 14:05. ValueError outside opening hours."""
        hour, _, minute = clock.partition(":")
        return self.instant(day, time(int(hour), int(minute)))

    def instant(self, day: date, clock: time) -> datetime:
        """The same with a time."""
        shuts = SATURDAY_SHUTS if day.isoweekday() == SATURDAY else SHUTS
        if not self.is_open(day) or not OPENS <= clock <= shuts:
            raise ValueError(f"the shop is shut on {day} at {clock}")
        return datetime.combine(day, clock, self.zone).astimezone(UTC)

    def day_of(self, instant: datetime) -> date:
        """The shop's day at an instant."""
        return instant.astimezone(self.zone).date()
