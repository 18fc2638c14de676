"""Marks on staff with their proof and end, who may sign what, and the rules of a PIN.

A PIN is a signature and an accident guard, not a lock: on a file that anyone can copy it protects nothing.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal
from itertools import pairwise

from app.trade.bench.stages import Mark, said
from app.trade.sentence import Measure, Sentence

LEAST_PIN = 4
MOST_PIN = 128
FREE_TRIES = 5
_FIRST_WAIT = timedelta(seconds=30)
_LONGEST_WAIT = timedelta(minutes=15)


@dataclass(frozen=True, slots=True)
class MarkHeld:
    """A mark that somebody carries: the proof (what, from whom), its day, and the last day on which it counts."""

    mark: Mark
    proof: str
    dated: date
    ends: date | None = None

    def counts_on(self, day: date) -> bool:
        """Past its end, and before its day, a mark counts as none."""
        return self.dated <= day and (self.ends is None or day <= self.ends)


def may_sign(marks: Iterable[MarkHeld], mark: Mark, day: date) -> Sentence | None:
    """Why a person with these marks may not sign what needs ``mark`` on ``day``; None when they may."""
    of_kind = [held for held in marks if held.mark is mark]
    if any(held.counts_on(day) for held in of_kind):
        return None
    ended = [held.ends for held in of_kind if held.ends is not None and held.ends < day]
    if ended:
        return Sentence(
            "The mark “{mark}” ended on {ends}. Enter the new proof in the Office.",
            {"mark": said(mark), "ends": max(ended)},
        )
    if of_kind:
        return Sentence(
            "The mark “{mark}” counts only from {dated}.",
            {"mark": said(mark), "dated": min(held.dated for held in of_kind)},
        )
    return Sentence("This needs a person who carries the mark “{mark}”.", {"mark": said(mark)})


def mark_refused(held: MarkHeld) -> dict[str, Sentence]:
    """A sentence under each field of a mark that cannot be right; empty: all can."""
    refused: dict[str, Sentence] = {}
    if not held.proof.strip():
        refused["proof"] = Sentence("Say what proves it and from whom: a certificate, a trade register.")
    if held.ends is not None and held.ends < held.dated:
        refused["ends"] = Sentence("It ends before it begins.")
    return refused


def pin_refused(pin: str) -> Sentence | None:
    """Why this cannot be a PIN; None when it can. Four digits or more, or a passphrase."""
    if pin != pin.strip() or not pin.isprintable():
        return Sentence("A PIN has no space at its ends and no hidden characters.")
    if len(pin) < LEAST_PIN:
        return Sentence("A PIN has at least {n} characters.", {"n": LEAST_PIN})
    if len(pin) > MOST_PIN:
        return Sentence("A PIN has at most {n} characters.", {"n": MOST_PIN})
    if _too_easy(pin):
        return Sentence("Everybody tries this one first. Choose one that is not a row or one digit repeated.")
    return None


def _too_easy(pin: str) -> bool:
    steps = {ord(after) - ord(before) for before, after in pairwise(pin)}
    return steps in ({0}, {1}, {-1})


def wait_until(wrong: int, last: datetime | None) -> datetime | None:
    """Until when no further PIN is tried after ``wrong`` tries in a row, the last at ``last``; None: at once.

    The first five are free; then 30 seconds, doubled by each wrong one, at most a quarter of an hour.
    """
    if last is None or wrong < FREE_TRIES:
        return None
    if last.tzinfo is None:
        raise ValueError("a naive instant has no place in the book")
    doublings = min(wrong - FREE_TRIES, 10)
    return last + min(_FIRST_WAIT * (1 << doublings), _LONGEST_WAIT)


def try_refused(wrong: int, last: datetime | None, now: datetime) -> Sentence | None:
    """Why no PIN is tried at ``now``; None when it is."""
    until = wait_until(wrong, last)
    if until is None or now >= until:
        return None
    seconds = Decimal((until - now) // timedelta(seconds=1) + 1)
    return Sentence(
        "Wrong {n} times in a row. The next try is taken in {wait}.",
        {"n": wrong, "wait": Measure(seconds, "s")},
    )
