"""What may be promised: within how many working days eight of ten such jobs were ready."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import NamedTuple

from app.trade.calendar.promise import ShopCalendar
from app.trade.sentence import Sentence
from app.trade.statistics.survival import kaplan_meier

OF_TEN = 8
ENOUGH = 10  # jobs that were ready, for a promise to lean on
TOO_FEW = Sentence("Too few such jobs were ready to say within how many days.")


class Turn(NamedTuple):
    """One job: the day it was taken in, the last day it was seen, and whether it was ready on that day."""

    taken_in: date
    until: date
    ready: bool


@dataclass(frozen=True, slots=True)
class PromiseHelp:
    """Within how many working days of the shop ``of_ten`` out of ten of ``n`` such jobs were ready; None for too few."""

    n: int
    of_ten: int
    working_days: int | None
    sentence: Sentence


def promise_help(turns: Sequence[Turn], calendar: ShopCalendar) -> PromiseHelp:
    """What the time that jobs took says. One that is not ready counts for as long as it has been here, so that slow
    ones still on the bench do not make the promise too early: the curve of Kaplan and Meier of being ready."""
    ready = sum(turn.ready for turn in turns)
    days = None
    if ready >= ENOUGH:
        opened = _open_days(
            min(min(turn[:2]) for turn in turns), max(max(turn[:2]) for turn in turns), calendar
        )
        took = [float(max(opened[turn.until] - opened[turn.taken_in], 0)) for turn in turns]
        days = kaplan_meier(took, [turn.ready for turn in turns]).quantile(1 - OF_TEN / 10)
    if days is None:
        return PromiseHelp(ready, OF_TEN, None, TOO_FEW)
    return PromiseHelp(ready, OF_TEN, int(days), _in_words(int(days)))


def _in_words(days: int) -> Sentence:
    if days == 0:
        return Sentence("{of_ten} of 10 such jobs were ready on the day they came", {"of_ten": OF_TEN})
    if days == 1:
        return Sentence("{of_ten} of 10 such jobs were ready within 1 working day", {"of_ten": OF_TEN})
    return Sentence(
        "{of_ten} of 10 such jobs were ready within {days} working days", {"of_ten": OF_TEN, "days": days}
    )


def _open_days(first: date, last: date, calendar: ShopCalendar) -> dict[date, int]:
    """How many days the shop was open from ``first`` to each day, that day included."""
    opened, so_far = {}, 0
    for after in range((last - first).days + 1):
        day = first + timedelta(after)
        so_far += calendar.is_open(day)
        opened[day] = so_far
    return opened
