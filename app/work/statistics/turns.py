"""How jobs went through the shop, as columns beside those of the visits: when ready, promised for when, and waiting."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, tzinfo
from typing import TYPE_CHECKING

from sqlalchemy import ColumnElement, Text, case, func, select, type_coerce
from sqlalchemy.orm import Session

from app.book import tables
from app.book.columns import BIG
from app.book.history_rows import is_of_waiting
from app.book.kept import kept
from app.trade.bench.stages import Stage, Waiting
from app.trade.calendar.local_days import day_numbers
from app.trade.statistics.returns import NONE, NOTHING
from app.work.statistics.columns import columns_of
from app.work.statistics.steps import READING, Steps
from app.work.statistics.visits import RESTS_ON, Visits

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Whole = NDArray[np.int64]

_J, _H = tables.metadata.tables["jobs"].c, tables.metadata.tables["history"].c
_WAITS = (
    select(_H.row_id, type_coerce(_H.at, BIG), _H.fields).where(is_of_waiting()).order_by(_H.row_id, _H.seq)
)


def day_written(column: ColumnElement[object]) -> ColumnElement[int]:
    """A day of the book as a whole number that reads as it is written: 20260312."""
    return func.replace(type_coerce(column, Text), "-", "", type_=BIG)


_TURNS = select(
    _J.id,
    type_coerce(_J.ready_at, BIG),
    day_written(_J.promised_on),
    case((_J.stage == Stage.HANDED_BACK, 0), else_=1),
)


@dataclass(frozen=True, slots=True, eq=False)
class Turns:
    """For each visit the day it was ``ready`` on and the day it was ``promised`` for as `date.toordinal` (NONE: none),
    and whether it is ``here`` still."""

    ready: Whole
    promised: Whole
    here: NDArray[np.bool_]


def turns_of(session: Session, zone: tzinfo, visits: Visits, steps: Steps) -> Turns:
    """The columns of the book as it stands; kept with the visits."""
    steps.next(READING)
    return kept(
        session, f"turns, days of {zone}", lambda: _gathered(session, zone, visits, steps.still), RESTS_ON
    )


def _gathered(session: Session, zone: tzinfo, visits: Visits, step: Callable[[], object]) -> Turns:
    import numpy as np

    job, ready_at, promised_on, here = columns_of(session, _J.id, _TURNS, step)
    at = visits.places(job)
    ready, promised, in_shop = (np.full(len(visits.job), NONE, dtype=np.int64) for _ in range(3))
    there = ready_at != NOTHING
    ready[at[there]] = day_numbers(ready_at[there], zone)
    promised[at] = _ordinals(promised_on)
    in_shop[at] = here
    return Turns(ready, promised, in_shop == 1)


def day_of(written: int) -> date:
    """The day that is written so: 20260312."""
    return date(written // 10_000, written // 100 % 100, written % 100)


def _ordinals(written: Whole) -> Whole:
    """Days written as 20260312 as `date.toordinal`, NONE for NOTHING."""
    import numpy as np

    days, place = np.unique(written, return_inverse=True)
    numbers = [NONE if day == NOTHING else day_of(day).toordinal() for day in days.tolist()]
    return np.array(numbers, dtype=np.int64)[place]


def waited(session: Session, visits: Visits) -> Whole:
    """Microseconds that each visit waited for an answer, a part or the customer, by its history. A wait that goes on
    still is not counted."""
    import numpy as np

    spans: defaultdict[int, int] = defaultdict(int)
    waits, since = 0, 0  # the job that waits
    for job, at, fields in session.execute(_WAITS):
        if job == waits:
            spans[job] += at - since
        waits, since = (job, at) if fields["waiting"][1] != Waiting.NOTHING.value else (0, 0)
    found = np.zeros(len(visits.job), dtype=np.int64)
    found[visits.places(np.array(list(spans), dtype=np.int64))] = list(spans.values())
    return found
