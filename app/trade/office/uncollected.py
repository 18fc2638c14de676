"""Players that are ready and stay here: from when a notice may be written, and what day it names."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from app.trade.sentence import Sentence


@dataclass(frozen=True, slots=True)
class Waits:
    """A player that waits to be collected. ``told``: the day of the last word to the customer since it is ready."""

    ready: date
    told: date | None
    noticed: date | None = None  # the day of the last notice

    @property
    def since(self) -> date:
        """The day from which the time to collect runs: the message, or while there is none the day it was ready."""
        return self.ready if self.told is None else max(self.ready, self.told)


def collect_by(waits: Waits, storage_days: int) -> date:
    """The last day to collect by the terms of storage."""
    return waits.since + timedelta(days=storage_days)


def uncollected(waits: Waits, storage_days: int, today: date) -> bool:
    """Whether the time to collect is over."""
    return today > collect_by(waits, storage_days)


def notice_refused(waits: Waits, storage_days: int, today: date) -> Sentence | None:
    """Why no notice is written today, or None. A second one on the same day would say nothing new."""
    if not uncollected(waits, storage_days, today):
        return Sentence("The customer has until {day} to collect.", {"day": collect_by(waits, storage_days)})
    if waits.noticed == today:
        return Sentence("A notice was printed today already.")
    return None
