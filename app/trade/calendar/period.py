"""Periods that a bookkeeper asks for: months, quarters and years by the calendar, or any days."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence

MONTHS_OF_A_QUARTER, MONTHS_OF_A_YEAR = 3, 12


@dataclass(frozen=True, slots=True)
class Period:
    """Days of the shop, both ends included."""

    first: date
    last: date

    def __contains__(self, day: object) -> bool:
        return isinstance(day, date) and self.first <= day <= self.last


def period_of(first: date | None, last: date | None) -> Period:
    """The period between two days. Raises FieldRefusal under ``first`` or ``last``."""
    if first is None or last is None:
        missing = [name for name, day in (("first", first), ("last", last)) if day is None]
        raise FieldRefusal({name: Sentence("Say from which day to which.") for name in missing})
    if last < first:
        raise FieldRefusal({"last": Sentence("{last} is before {first}.", {"last": last, "first": first})})
    return Period(first, last)


def month_of(day: date, back: int = 0) -> Period:
    """The calendar month of a day, or one so many months before."""
    return _months(day, 1, back)


def quarter_of(day: date, back: int = 0) -> Period:
    """The quarter of the calendar year, or one so many quarters before."""
    return _months(day, MONTHS_OF_A_QUARTER, back)


def year_of(day: date, back: int = 0) -> Period:
    """The calendar year, or one so many years before."""
    return _months(day, MONTHS_OF_A_YEAR, back)


def _months(day: date, length: int, back: int) -> Period:
    """``length`` months that begin at a whole multiple of it, counted from January."""
    begin = (day.month - 1) // length * length - back * length
    return Period(_first_of(day.year, begin), _first_of(day.year, begin + length) - timedelta(days=1))


def _first_of(year: int, month: int) -> date:
    """The first day of a month counted from January of ``year``, 0 to 11 or beyond either end."""
    return date(year + month // MONTHS_OF_A_YEAR, month % MONTHS_OF_A_YEAR + 1, 1)
