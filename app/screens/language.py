"""What the window says: one wording for the whole process, chosen before the window is made."""

from __future__ import annotations

from datetime import UTC, date, datetime
from decimal import Decimal

from app.trade.money import Money
from app.trade.sentence import Sentence, Value
from app.trade.wording import Wording, plain

_wording: Wording = plain(UTC)


def use(wording: Wording) -> None:
    """From now on every screen speaks by ``wording``; pages made before keep their words."""
    global _wording
    _wording = wording


def current() -> Wording:
    """The wording in use, e.g. to hand to a paper."""
    return _wording


def say(key: str | Sentence, /, **values: Value) -> str:
    """The template or sentence in the window's language, its braces filled."""
    return _wording(key, **values)


def day(value: date, style: str = "d MMM y") -> str:
    """A day with the month in letters, e.g. ``27 Nov 2026``; ``style`` is a CLDR pattern."""
    return _wording.day(value, style)


def near_day(value: date, today: date) -> str:
    """A day close to ``today``: ``Fri 27 Nov``, with its year only where the year differs."""
    return _wording.day(value, "EEE d MMM" if value.year == today.year else "EEE d MMM y")


def moment(instant: datetime, style: str = "d MMM y, HH:mm") -> str:
    """An aware instant on the shop's clock."""
    return _wording.moment(instant, style)


def clock_time(instant: datetime) -> str:
    """Only the time of day of an aware instant on the shop's clock, e.g. ``16:10``."""
    return _wording.moment(instant, "HH:mm")


def money(value: Money) -> str:
    """An amount with its currency's code."""
    return _wording.money(value)


def number(value: Decimal | int, *, signed: bool = False, grouped: bool = False) -> str:
    """All digits given, the language's decimal mark, minus as U+2212."""
    return _wording.number(Decimal(value), signed=signed, grouped=grouped)


def percent(share: float, digits: int = 0) -> str:
    """A share of one as per cent with a space before the sign, e.g. ``27 %``."""
    rounded = Decimal(str(share * 100)).quantize(Decimal(1).scaleb(-digits))
    return f"{_wording.number(rounded)}\u00a0%"
