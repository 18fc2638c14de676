"""PINs and marks of staff: what a PIN may look like, how long to wait after wrong ones, when a mark counts.

A PIN signs and guards against accidents; on a file that anyone can copy it is no lock.
"""

from __future__ import annotations

from datetime import date, datetime, timedelta
from itertools import pairwise

from app.trade.sentence import Sentence

FEWEST, MOST = 4, 12  # figures
TRIES = 5  # wrong ones before the first wait
FIRST_WAIT, LONGEST_WAIT = timedelta(seconds=30), timedelta(minutes=15)


def check_pin_form(pin: str) -> Sentence | None:
    """Why this cannot become a PIN, or None."""
    if not (pin.isascii() and pin.isdecimal()):
        return Sentence("A PIN has figures only.")
    if not FEWEST <= len(pin) <= MOST:
        return Sentence("A PIN has {least} to {most} figures.", {"least": FEWEST, "most": MOST})
    steps = {int(after) - int(before) for before, after in pairwise(pin)}
    if steps in ({0}, {1}, {-1}):
        return Sentence("That is easily guessed. Do not repeat one figure and do not count up or down.")
    return None


def locked_until(failures: int, failed_at: datetime | None) -> datetime | None:
    """Until when no PIN is looked at: after five wrong ones half a minute, doubled with each further one.

    At most a quarter of an hour. None while there are tries left.
    """
    if failures < TRIES or failed_at is None:
        return None
    wait = FIRST_WAIT * (1 << min(failures - TRIES, 10))
    return failed_at + min(wait, LONGEST_WAIT)


def mark_counts(dated: date, ends: date | None, day: date) -> bool:
    """Whether a mark with this proof counts on a day; on its last day it still does."""
    return dated <= day and (ends is None or day <= ends)
