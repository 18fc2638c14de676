"""Reads days as people write them: 27 Nov, 27.11., 27/11/2026, 2026-11-27, +8, Fri, yesterday, in 3 days."""

from __future__ import annotations

import re
from datetime import date, timedelta

# Days, weeks and months as they are counted in English and German; a month counts 30 days.
_UNITS = {
    1: "d day days t tag tage tagen".split(),
    7: "w week weeks woche wochen".split(),
    30: "m month months monat monate monaten".split(),
}
_SPAN = {word: days for days, words in _UNITS.items() for word in words}
_PLUS = re.compile(r"^([+-])\s*(\d{1,3})\s*([^\W\d_]+)?$")
_AWAY = re.compile(r"^(?:(in)\s+|(vor)\s+)?(\d{1,3})\s*([^\W\d_]+)(\s+ago)?$")
_ISO = re.compile(r"^(\d{4})-(\d{1,2})-(\d{1,2})$")
_FIGURES = re.compile(r"^(\d{1,2})\s*[./ ]\s*(\d{1,2})\s*(?:[./ ]\s*(\d{4}|\d{2})?)?$")
_LETTERS = re.compile(r"^(\d{1,2})\.?\s*([^\W\d_]+)\.?,?\s*(\d{4}|\d{2})?$")
_LETTERS_FIRST = re.compile(r"^([^\W\d_]+)\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s*(\d{4})?$")

# Numbered from 1 and Monday, English, then German.
_MONTHS = (
    "january february march april may june july august september october november december".split(),
    "januar februar märz april mai juni juli august september oktober november dezember".split(),
)
_DAYS = (
    "monday tuesday wednesday thursday friday saturday sunday".split(),
    "montag dienstag mittwoch donnerstag freitag samstag sonntag".split(),
)
_NEAR = {
    "today": 0,
    "tomorrow": 1,
    "day after tomorrow": 2,
    "yesterday": -1,
    "day before yesterday": -2,
    "heute": 0,
    "morgen": 1,
    "übermorgen": 2,
    "gestern": -1,
    "vorgestern": -2,
}
LONGEST = 400 * 3  # days that a count may reach


def read_day(text: str, today: date) -> date | None:
    """The day meant by ``text`` seen from ``today``; None when it cannot be read.

    English and German are read, whatever the window speaks. A day without a year is the nearest one not more
    than 60 days past; a weekday is the next one after today. Figures are day, then month.
    """
    cleaned = " ".join(text.casefold().replace("\N{MINUS SIGN}", "-").split())
    # A weekday in front of a date, as the echo writes it, is only a courtesy.
    before, _, rest = cleaned.partition(" ")
    if rest.strip() and _weekday(before.rstrip(".,")) is not None:
        cleaned = rest.strip()
    for reader in (_near, _plus, _away, _iso, _figures, _letters, _week):
        found = reader(cleaned, today)
        if found is not None:
            return found
    return None


def _near(text: str, today: date) -> date | None:
    return _moved(today, _NEAR[text]) if text in _NEAR else None


def _plus(text: str, today: date) -> date | None:
    found = _PLUS.match(text)
    if found is None:
        return None
    return _counted(today, int(found[2]), found[3] or "d", back=found[1] == "-")


def _away(text: str, today: date) -> date | None:
    """ "in 3 days", "3 days ago", "in 3 Tagen", "vor 3 Tagen": it must say which way."""
    found = _AWAY.match(text)
    if found is None or [found[1], found[2], found[5]].count(None) != 2:
        return None
    return _counted(today, int(found[3]), found[4], back=found[1] is None)


def _counted(today: date, count: int, unit: str, *, back: bool) -> date | None:
    days = count * _SPAN.get(unit, 0)
    if unit not in _SPAN or days > LONGEST:
        return None
    return _moved(today, -days if back else days)


def _moved(today: date, days: int) -> date | None:
    try:
        return today + timedelta(days=days)
    except OverflowError:
        return None


def _iso(text: str, today: date) -> date | None:
    found = _ISO.match(text)
    return _made(int(found[1]), int(found[2]), int(found[3])) if found else None


def _figures(text: str, today: date) -> date | None:
    found = _FIGURES.match(text)
    return _dated(int(found[1]), int(found[2]), found[3], today) if found else None


def _letters(text: str, today: date) -> date | None:
    found = _LETTERS.match(text)
    if found is not None:
        month = _month(found[2])
        return _dated(int(found[1]), month, found[3], today) if month else None
    found = _LETTERS_FIRST.match(text)
    if found is not None:
        month = _month(found[1])
        return _dated(int(found[2]), month, found[3], today) if month else None
    return None


def _week(text: str, today: date) -> date | None:
    weekday = _weekday(text.rstrip("."))
    if weekday is None:
        return None
    return _moved(today, (weekday - today.weekday() - 2) % 7 + 1)


def _dated(day: int, month: int, year: str | None, today: date) -> date | None:
    if year:
        return _made(int(year) + (2000 if len(year) == 2 else 0), month, day)
    for candidate in (today.year, today.year + 1):
        made = _made(candidate, month, day)
        if made is not None and (today - made).days <= 60:
            return made
    return _made(today.year + 1, month, day)


def _made(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None


def _month(word: str) -> int | None:
    """1 to 12 by a name or its first three letters or more."""
    return _begun(word, _MONTHS, 3)


def _weekday(word: str) -> int | None:
    """1 Monday to 7 Sunday by a name or its first two letters or more."""
    return _begun(word, _DAYS, 2)


def _begun(word: str, languages: tuple[list[str], ...], least: int) -> int | None:
    if len(word) < least:
        return None
    for names in languages:
        for number, name in enumerate(names, start=1):
            if name.startswith(word):
                return number
    return None
