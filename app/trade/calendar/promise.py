"""The shop's calendar: which days it is open, which day is promised, and how late a promise is."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta, tzinfo

from app.trade.refusal import Refusal
from app.trade.sentence import Sentence

DAY = timedelta(days=1)
LOOK_AHEAD = 400  # days: a year of closure and a little more


@dataclass(frozen=True)
class Closed:
    """Days without business, both ends included: a holiday, or weeks away. ``words`` say why."""

    first: date
    last: date
    words: str = ""

    def __contains__(self, day: object) -> bool:
        return isinstance(day, date) and self.first <= day <= self.last


@dataclass(frozen=True)
class ShopCalendar:
    """``open_days`` are ISO weekdays (Monday 1 to Sunday 7); ``closed`` are the exceptions."""

    open_days: frozenset[int]
    closed: tuple[Closed, ...] = ()

    def closure(self, day: date) -> Closed | None:
        """The exception that closes this day, or None."""
        return next((closed for closed in self.closed if day in closed), None)

    def is_open(self, day: date) -> bool:
        """Whether the shop works on this day."""
        return day.isoweekday() in self.open_days and self.closure(day) is None

    def next_open(self, day: date) -> date:
        """``day`` itself when open, else the next open day. Refused when none comes within 400 days."""
        return self._walk(day - DAY, 1)

    def after(self, day: date, working_days: int) -> date:
        """The day that is ``working_days`` open days after ``day``; 0 gives `next_open`.

        ``day`` itself is not counted: one working day after a Friday is the Monday.
        """
        return self._walk(day, working_days) if working_days > 0 else self.next_open(day)

    def _walk(self, day: date, steps: int) -> date:
        start, idle = day, 0
        while steps > 0:
            if idle > LOOK_AHEAD or day == date.max:
                raise Refusal(
                    Sentence("The calendar has no open day within a year after {day}.", {"day": start}),
                    Sentence("Set the opening days and the closed days in the Office."),
                )
            day += DAY
            if self.is_open(day):
                steps, idle = steps - 1, 0
            else:
                idle += 1
        return day


def check_promise(day: date, today: date, calendar: ShopCalendar) -> Sentence | None:
    """Why nothing can be promised for this day, or None."""
    if day < today:
        return Sentence("{day} is past.", {"day": day})
    closure = calendar.closure(day)
    if closure is not None:
        if closure.words:
            return Sentence("The shop is closed on {day}: {words}.", {"day": day, "words": closure.words})
        return Sentence("The shop is closed on {day}.", {"day": day})
    if not calendar.is_open(day):
        return Sentence("The shop is not open on that day of the week ({day}).", {"day": day})
    return None


def days_late(promised: date | None, today: date) -> int:
    """How many days ago the promised day was; 0 for today, later, or no promise."""
    return max(0, (today - promised).days) if promised is not None else 0


def local_day(instant: datetime, zone: tzinfo) -> date:
    """The shop's day at an instant. Naive instants raise ValueError."""
    if instant.tzinfo is None:
        raise ValueError("a naive instant has no day")
    return instant.astimezone(zone).date()
