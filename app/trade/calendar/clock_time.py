"""A time of day as people type it: 14:05, 14.05, 1405, 9, 9 am, 2:05 pm."""

from __future__ import annotations

import re
from datetime import time

from app.trade.refusal import Refusal
from app.trade.sentence import Sentence

_CLOCK = re.compile(r"([0-9]{1,2})(?:[:.h]?([0-9]{2}))?\s*(am|pm|uhr)?", re.IGNORECASE)


def parse_clock(text: str) -> time:
    """The time of day. Raises Refusal for anything that is none."""
    matched = _CLOCK.fullmatch(" ".join(text.split()))
    if matched is None:
        raise Refusal(Sentence("No time can be read from this. Write 14:05 or 9."))
    hour, minute = int(matched[1]), int(matched[2] or 0)
    half = (matched[3] or "").lower()
    if half in ("am", "pm"):
        if not 1 <= hour <= 12:
            raise Refusal(Sentence("With am or pm the hours go from 1 to 12."))
        hour = hour % 12 + (12 if half == "pm" else 0)
    if hour > 23 or minute > 59:
        raise Refusal(Sentence("A day has 24 hours of 60 minutes."))
    return time(hour, minute)
