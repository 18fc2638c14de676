"""A repair that was handed back, one by one, with the visit that counts as its return: for lists of a few."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date
from typing import TYPE_CHECKING, NamedTuple, TypeAlias

from app.trade.bench.kinds import FaultGroup
from app.trade.bench.stages import Outcome
from app.trade.statistics.comebacks import UNKNOWN, WITH, WITHOUT, By
from app.trade.statistics.returns import NONE
from app.work.statistics.visits import GROUPS, OUTCOMES, Returns, Visits

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

Groups: TypeAlias = frozenset[FaultGroup]


class Seen(NamedTuple):
    """A repair that was handed back, and the visit that counts as its return where there is one.

    ``confirmed``: a person said that this visit is its comeback. ``denied_in``: the day of a visit with the same fault
    of which a person said that it is none, where no other visit counts.
    """

    job_id: int
    number: int
    unit_id: int
    transport_id: int | None
    transport_type: str
    group: FaultGroup | None
    outcome: Outcome
    modified: bool  # a non-standard modification was left inside
    handed_back: date
    next_in: date | None
    next_groups: Groups
    next_id: int | None
    next_number: int | None
    confirmed: bool = False
    denied_in: date | None = None


LABELS: dict[By, Callable[[Seen], str]] = {
    By.TRANSPORT_TYPE: lambda one: one.transport_type or UNKNOWN,
    By.FAULT_GROUP: lambda one: UNKNOWN if one.group is None else one.group,
    By.MODIFICATION: lambda one: WITH if one.modified else WITHOUT,
}


def seen(visits: Visits, returns: Returns, rows: NDArray[np.int64]) -> Iterator[Seen]:
    """The repairs at these places."""
    for at in rows.tolist():
        back, denied = int(returns.back[at]), int(returns.denied[at])
        job = int(visits.job[at])
        group = int(visits.group[at])
        yield Seen(
            job,
            int(visits.number[at]),
            int(visits.unit[at]),
            int(visits.transport[at]) or None,
            visits.kinds[visits.kind[at]],
            None if group == NONE else GROUPS[group],
            OUTCOMES[visits.outcome[at]],
            bool(visits.modified[at]),
            date.fromordinal(int(visits.left[at])),
            None if back == NONE else date.fromordinal(int(visits.came[back])),
            frozenset() if back == NONE else _groups(int(visits.possible[back])),
            None if back == NONE else int(visits.job[back]),
            None if back == NONE else int(visits.number[back]),
            back != NONE and int(visits.confirmed[back]) == job,
            None if denied == NONE else date.fromordinal(int(visits.came[denied])),
        )


def _groups(bits: int) -> Groups:
    return frozenset(group for at, group in enumerate(GROUPS) if bits >> at & 1)
