"""What may be promised: within how many working days eight of ten such jobs were ready."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any, NamedTuple

from app.trade.calendar.promise import ShopCalendar
from app.trade.sentence import Sentence
from app.trade.statistics.survival import kaplan_meier

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

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
    return promise_of(
        [turn.taken_in.toordinal() for turn in turns],
        [turn.until.toordinal() for turn in turns],
        [turn.ready for turn in turns],
        calendar,
    )


def promise_of(
    taken_in: Sequence[int] | NDArray[Any],
    until: Sequence[int] | NDArray[Any],
    ready: Sequence[bool] | NDArray[np.bool_],
    calendar: ShopCalendar,
) -> PromiseHelp:
    """The same of columns, one item for each job, the days as `date.toordinal`."""
    import numpy as np

    count = int(np.sum(ready))
    if count < ENOUGH:
        return PromiseHelp(count, OF_TEN, None, TOO_FEW)
    came, seen = np.asarray(taken_in, dtype=np.int64), np.asarray(until, dtype=np.int64)
    first, last = int(min(came.min(), seen.min())), int(max(came.max(), seen.max()))
    opened = np.cumsum([calendar.is_open(date.fromordinal(day)) for day in range(first, last + 1)])
    took = np.maximum(opened[seen - first] - opened[came - first], 0)
    days = kaplan_meier(took, np.asarray(ready, dtype=np.bool_)).quantile(1 - OF_TEN / 10)
    if days is None:
        return PromiseHelp(count, OF_TEN, None, TOO_FEW)
    return PromiseHelp(count, OF_TEN, int(days), _in_words(int(days)))


def _in_words(days: int) -> Sentence:
    if days == 0:
        return Sentence("{of_ten} of 10 such jobs were ready on the day they came", {"of_ten": OF_TEN})
    if days == 1:
        return Sentence("{of_ten} of 10 such jobs were ready within 1 working day", {"of_ten": OF_TEN})
    return Sentence(
        "{of_ten} of 10 such jobs were ready within {days} working days", {"of_ten": OF_TEN, "days": days}
    )
