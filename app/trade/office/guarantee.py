"""The guarantee on a repair: until when, whether it still runs, how many days are left."""

from __future__ import annotations

from datetime import date, timedelta

from app.trade.sentence import Sentence


def guarantee_until(handed_back: date, days: int) -> date | None:
    """The last day of the guarantee, which counts in full; None where the shop gives none."""
    return handed_back + timedelta(days=days) if days > 0 else None


def days_left(until: date | None, today: date) -> int | None:
    """Days from today to the last day: 0 on that day; None when no guarantee runs any more."""
    if until is None or today > until:
        return None
    return (until - today).days


def running(job: int, until: date | None, today: date) -> Sentence | None:
    """The sentence for the counter while a guarantee runs, or None."""
    left = days_left(until, today)
    if until is None or left is None:
        return None
    if left == 0:
        return Sentence("Job {job}, labour and parts: today is the last day.", {"job": str(job)})
    if left == 1:
        return Sentence(
            "Job {job}, labour and parts, to {until}: one day left.", {"job": str(job), "until": until}
        )
    return Sentence(
        "Job {job}, labour and parts, to {until}: {days} days left.",
        {"job": str(job), "until": until, "days": left},
    )
