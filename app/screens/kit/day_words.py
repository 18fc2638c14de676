"""Reads days as people write them: 27 Nov, 27.11., 27/11/2026, 2026-11-27, +8, Fri, tomorrow."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date, timedelta

_PLUS = re.compile(r"^\+\s*(\d{1,3})\s*(d|t|w|m)?$")
_ISO = re.compile(r"^(\d{4})-(\d{1,2})-(\d{1,2})$")
_FIGURES = re.compile(r"^(\d{1,2})\s*[./ ]\s*(\d{1,2})\s*(?:[./ ]\s*(\d{4}|\d{2})?)?$")
_LETTERS = re.compile(r"^(\d{1,2})\.?\s*([^\W\d_]+)\.?,?\s*(\d{4}|\d{2})?$")
_LETTERS_FIRST = re.compile(r"^([^\W\d_]+)\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s*(\d{4})?$")

_ENGLISH_MONTHS = (
    "january february march april may june july august september october november december".split()
)
_ENGLISH_DAYS = "monday tuesday wednesday thursday friday saturday sunday".split()
_NEAR = {"today": 0, "tomorrow": 1, "heute": 0, "morgen": 1, "übermorgen": 2}
LONGEST = 400 * 3  # days a plus may reach


def read_day(text: str, today: date, locale: str = "en_GB") -> date | None:
    """The day meant by ``text`` seen from ``today``; None when it cannot be read.

    A day without a year is the nearest one not more than 60 days past; a weekday is the next one after
    today. Figures are day, then month.
    """
    cleaned = text.strip().casefold()
    # A weekday in front of a date, as the echo writes it, is only a courtesy.
    before, _, rest = cleaned.partition(" ")
    if rest.strip() and _weekday(before.rstrip(".,"), locale) is not None:
        cleaned = rest.strip()
    for reader in (_near, _plus, _iso, _figures, _letters, _week):
        found = reader(cleaned, today, locale)
        if found is not None:
            return found
    return None


def _near(text: str, today: date, locale: str) -> date | None:
    return today + timedelta(days=_NEAR[text]) if text in _NEAR else None


def _plus(text: str, today: date, locale: str) -> date | None:
    found = _PLUS.match(text)
    if found is None:
        return None
    count, unit = int(found[1]), found[2] or "d"
    days = count * {"d": 1, "t": 1, "w": 7, "m": 30}[unit]
    return today + timedelta(days=days) if days <= LONGEST else None


def _iso(text: str, today: date, locale: str) -> date | None:
    found = _ISO.match(text)
    return _made(int(found[1]), int(found[2]), int(found[3])) if found else None


def _figures(text: str, today: date, locale: str) -> date | None:
    found = _FIGURES.match(text)
    return _dated(int(found[1]), int(found[2]), found[3], today) if found else None


def _letters(text: str, today: date, locale: str) -> date | None:
    found = _LETTERS.match(text)
    if found is not None:
        month = _month(found[2], locale)
        return _dated(int(found[1]), month, found[3], today) if month else None
    found = _LETTERS_FIRST.match(text)
    if found is not None:
        month = _month(found[1], locale)
        return _dated(int(found[2]), month, found[3], today) if month else None
    return None


def _week(text: str, today: date, locale: str) -> date | None:
    weekday = _weekday(text.rstrip("."), locale)
    if weekday is None:
        return None
    return today + timedelta(days=(weekday - today.weekday() - 1) % 7 + 1)


def _dated(day: int, month: int, year: str | None, today: date) -> date | None:
    if year:
        return _made(int(year) + (2000 if len(year) == 2 else 0), month, day)
    for candidate in (today.year, today.year + 1):
        made = _made(candidate, month, day)
        if made is not None and made >= today - timedelta(days=60):
            return made
    return _made(today.year + 1, month, day)


def _made(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None


def _month(word: str, locale: str) -> int:
    """1 to 12 by a name or its first three letters or more; 0 when it is none."""
    if len(word) < 3:
        return 0
    for number, name in _names("months", locale, _ENGLISH_MONTHS):
        if name.startswith(word):
            return number
    return 0


def _weekday(word: str, locale: str) -> int | None:
    """0 Monday to 6 Sunday by a name or its first two letters or more."""
    if len(word) < 2:
        return None
    for number, name in _names("days", locale, _ENGLISH_DAYS):
        if name.startswith(word):
            return number - 1
    return None


def _names(kind: str, locale: str, english: list[str]) -> Iterator[tuple[int, str]]:
    """Names of the locale, then the English ones, numbered from 1."""
    from babel.dates import get_day_names, get_month_names

    if kind == "months":
        for number, name in get_month_names("wide", locale=locale).items():
            yield number, name.casefold()
    else:
        for number, name in get_day_names("wide", locale=locale).items():
            yield number + 1, name.casefold()
    yield from enumerate(english, start=1)
