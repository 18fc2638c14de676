"""Settings of papers (language, sheet) and of the calendar (time zone, opening days, closed days)."""

from __future__ import annotations

from datetime import date
from typing import Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from app.trade.calendar.promise import Closed
from app.trade.sentence import Sentence
from app.trade.settings.setting import (
    CHOICE,
    TEXT,
    WHOLE,
    YES_NO,
    Group,
    Kind,
    Setting,
    Shape,
    Who,
    at_most,
    between,
    whole_number,
)

WEEKDAYS: Shape[frozenset[int]] = Shape(
    Kind.WEEKDAYS, sorted, lambda plain: frozenset(whole_number(day) for day in plain)
)


def _unpack_closed(plain: Any) -> tuple[Closed, ...]:
    return tuple(Closed(date.fromisoformat(a), date.fromisoformat(b), str(words)) for a, b, words in plain)


CLOSED: Shape[tuple[Closed, ...]] = Shape(
    Kind.CLOSED_DAYS,
    lambda days: [[c.first.isoformat(), c.last.isoformat(), c.words] for c in days],
    _unpack_closed,
)


def _time_zone(name: str) -> Sentence | None:
    try:
        ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return Sentence("There is no time zone of that name. They are written like Europe/Berlin.")
    return None


def _open_days(days: frozenset[int]) -> Sentence | None:
    if not days:
        return Sentence("The shop is open on at least one day of the week.")
    if not days <= frozenset(range(1, 8)):
        return Sentence("A week has seven days.")
    return None


def _closed(days: tuple[Closed, ...]) -> Sentence | None:
    words = at_most(60)
    for closed in days:
        if closed.last < closed.first:
            return Sentence("{last} is before {first}.", {"first": closed.first, "last": closed.last})
        if (closed.last - closed.first).days > 366:
            return Sentence("One entry closes the shop for more than a year.")
        if wrong := words(closed.words):
            return wrong
    return None


LANGUAGE = Setting(
    "language",
    CHOICE,
    "en",
    Sentence("Language of papers"),
    Group.PAPERS,
    choices=(("en", Sentence("English")), ("de", Sentence("German"))),
)
PAGE_SIZE = Setting(
    "page_size",
    CHOICE,
    "A4",
    Sentence("Sheet"),
    Group.PAPERS,
    choices=(("A4", Sentence("A4")), ("Letter", Sentence("Letter"))),
)
TAG_SIZE = Setting(
    "tag_size",
    CHOICE,
    "roll 62",
    Sentence("Bench tag"),
    Group.PAPERS,
    choices=(("roll 62", Sentence("roll, 62 mm wide")), ("70x36", Sentence("label, 70 × 36 mm"))),
)
SPECIMEN = Setting(
    "specimen",
    YES_NO,
    False,
    Sentence("Papers are specimens"),
    Group.PAPERS,
    hint=Sentence(
        "For trying out: names and numbers are invented, and papers say so where money could follow."
    ),
)
TIME_ZONE = Setting(
    "time_zone", TEXT, "Europe/Berlin", Sentence("Time zone"), Group.CALENDAR, rule=_time_zone
)
OPEN_DAYS = Setting(
    "open_days",
    WEEKDAYS,
    frozenset({1, 2, 3, 4, 5}),
    Sentence("Open on"),
    Group.CALENDAR,
    Who.ANYONE,
    rule=_open_days,
)
CLOSED_DAYS = Setting(
    "closed_days",
    CLOSED,
    (),
    Sentence("Closed days"),
    Group.CALENDAR,
    Who.ANYONE,
    rule=_closed,
    hint=Sentence("Holidays and weeks away. Nothing is promised for these days."),
)
PROMISE_DAYS = Setting(
    "promise_days",
    WHOLE,
    7,
    Sentence("Promise a new job in"),
    Group.CALENDAR,
    Who.ANYONE,
    rule=between(1, 120),
    unit=Sentence("working days"),
)

PAPER_SETTINGS = (LANGUAGE, PAGE_SIZE, TAG_SIZE, SPECIMEN)
CALENDAR_SETTINGS = (TIME_ZONE, OPEN_DAYS, CLOSED_DAYS, PROMISE_DAYS)
