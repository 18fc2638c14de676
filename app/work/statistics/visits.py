"""All visits of the book as columns: the ground that every question stands on, gathered once and kept while it holds.

With 100,000 jobs the columns take some 12 MB, and another 2 MB for each definition of a comeback that was asked for.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, tzinfo
from typing import TYPE_CHECKING

from sqlalchemy import select, type_coerce
from sqlalchemy.orm import Session

from app.book import tables
from app.book.columns import BIG
from app.book.kept import kept
from app.trade.bench.kinds import ComebackStanding, FaultGroup
from app.trade.bench.stages import Outcome
from app.trade.calendar.local_days import day_numbers
from app.trade.counter.fault_words import FaultWord, ReportedFault, possible_groups
from app.trade.statistics.definition import Followed
from app.trade.statistics.returns import NONE, NOTHING, Spans, inside, next_visits
from app.work.statistics.columns import coded, columns_of
from app.work.statistics.steps import READING, Steps

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Whole = NDArray[np.int64]
    Small = NDArray[np.int8]

T = tables.metadata.tables
_J, _F, _X, _M, _R = (
    T[name].c for name in ("jobs", "fittings", "transports", "modifications", "reported_faults")
)
RESTS_ON = frozenset(
    {"jobs", "fittings", "transports", "transport_types", "modifications", "reported_faults", "settings"}
)
OUTCOMES, GROUPS, STANDS = tuple(Outcome), tuple(FaultGroup), tuple(ComebackStanding)

_VISITS = select(
    _J.id,
    _J.number,
    _J.unit_id,
    type_coerce(_J.taken_in_at, BIG),
    type_coerce(_J.handed_back_at, BIG),
    _J.comeback_of_id,
    coded(_J.outcome, Outcome),
    coded(_J.fault_group, FaultGroup),
    coded(_J.comeback, ComebackStanding),
)
_FITTINGS = select(
    _F.unit_id,
    _F.transport_id,
    _X.type_id,
    type_coerce(_F.fitted_at, BIG),
    type_coerce(_F.removed_at, BIG),
).join(T["transports"], _X.id == _F.transport_id)
_MODIFICATIONS = select(
    _M.unit_id, _M.transport_id, type_coerce(_M.at, BIG), type_coerce(_M.reversed_at, BIG)
).where(_M.struck_at.is_(None))
_WORDS = (
    select(_R.job_id, _R.word)
    .join(T["jobs"], _J.id == _R.job_id)
    .where(_J.fault_group.is_(None))
    .order_by(_R.job_id)
)
_TYPES = select(T["transport_types"].c.id, T["transport_types"].c.name)


@dataclass(frozen=True, slots=True)
class Returns:
    """For each visit the place of the one that counts as its return, and of the one that would, had the shop not
    denied it, where none counts; NONE for none."""

    back: Whole
    denied: Whole


@dataclass(frozen=True, slots=True, eq=False)
class Visits:
    """One item for each job, in the order of its key.

    Instants are microseconds since 1970 UTC (NOTHING: not yet), ``came`` and ``left`` the shop's days of taking in and
    handing back as `date.toordinal` (``left`` NONE while the job is open). ``outcome`` and ``group`` are places in
    OUTCOMES and GROUPS (NONE: not said), ``possible`` the groups that the fault may be of as bits. ``transport`` is the
    one inside when it was handed back (now while the job is open), ``came_with`` when it was taken in (0: none known);
    ``kind`` is the place in ``kinds`` of the name of the former's type. ``confirmed`` and ``denied`` are the job that a person said it is, or is not,
    the comeback of (0: nobody did). ``modified``: a non-standard modification was left inside.
    """

    job: Whole
    number: Whole
    unit: Whole
    taken_in: Whole
    handed_back: Whole
    came: Whole
    left: Whole
    outcome: Small
    group: Small
    possible: NDArray[np.int32]
    transport: Whole
    came_with: Whole
    kind: NDArray[np.int32]
    kinds: tuple[str, ...]
    confirmed: Whole
    denied: Whole
    modified: NDArray[np.bool_]
    _returns: dict[tuple[bool, Followed], Returns] = field(default_factory=dict)

    def returns(self, *, same_group: bool, followed: Followed) -> Returns:
        """What came back under this definition; kept with the columns."""
        asked = same_group, followed
        if asked not in self._returns:
            of_unit = followed is Followed.UNIT
            self._returns[asked] = Returns(
                *next_visits(
                    job=self.job,
                    taken_in=self.taken_in,
                    handed_back=self.handed_back,
                    came_as=self.unit if of_unit else self.came_with,
                    left_as=self.unit if of_unit else self.transport,
                    group=self.group if same_group else None,
                    possible=self.possible,
                    denied=self.denied,
                    group_count=len(GROUPS),
                    once_back=not of_unit,
                )
            )
        return self._returns[asked]

    def in_order(self, followed: Followed) -> Whole:
        """The places of those that were handed back, the latest visit of a unit first; where the transport is followed,
        the latest of all first."""
        import numpy as np

        by = (self.job, self.taken_in, *((self.unit,) if followed is Followed.UNIT else ()))
        order = np.lexsort(by)[::-1]
        ended: Whole = order[self.handed_back[order] != NOTHING]
        return ended

    def places(self, jobs: Whole | int) -> Whole:
        """Where the jobs with these keys stand; all of them must be in the book."""
        import numpy as np

        return np.asarray(np.searchsorted(self.job, jobs))

    def span(self) -> tuple[date, date] | None:
        """The first and the last day of handing back; None before any."""
        left = self.left[self.handed_back != NOTHING]
        return (date.fromordinal(int(left.min())), date.fromordinal(int(left.max()))) if len(left) else None


def visits_of(session: Session, zone: tzinfo, steps: Steps | None = None) -> Visits:
    """The columns of the book as it stands, from what is kept where nobody changed them since."""
    steps = steps or Steps(None, 1)
    return kept(session, f"visits, days of {zone}", lambda: _gathered(session, zone, steps), RESTS_ON)


def _gathered(session: Session, zone: tzinfo, steps: Steps) -> Visits:
    import numpy as np

    job, number, unit, taken_in, handed_back, former, outcome, group, said = columns_of(
        session, _J.id, _VISITS, steps.still
    )
    steps.next(READING)
    fitted_in, transport, type_id, fitted, removed = columns_of(session, _F.id, _FITTINGS, steps.still)
    changed_unit, changed_transport, made, undone = columns_of(session, _M.id, _MODIFICATIONS, steps.still)
    steps.next(READING)
    possible = np.where(group >= 0, 1 << np.maximum(group, 0), 0)
    for key, bits in _possible(session).items():
        possible[np.searchsorted(job, key)] = bits
    back = handed_back != NOTHING
    steps.next(READING)
    fittings = Spans(fitted_in, fitted, removed)
    at_end = inside(unit, np.where(back, handed_back, -NOTHING), fittings)
    at_begin = inside(unit, taken_in, fittings)
    carried = transport[fittings.order]
    kinds, kind_of = _kinds(session, type_id[fittings.order])
    there = np.append(carried, 0)  # what stands at NONE, which is the last place
    steps.next(READING)
    known_unit, known_transport = changed_unit != NOTHING, changed_transport != NOTHING
    modified = back & (
        (
            inside(unit, handed_back, Spans(changed_unit[known_unit], made[known_unit], undone[known_unit]))
            != NONE
        )
        | (
            inside(
                there[at_end],
                handed_back,
                Spans(changed_transport[known_transport], made[known_transport], undone[known_transport]),
            )
            != NONE
        )
    )
    left = np.full(len(job), NONE, dtype=np.int64)
    left[back] = day_numbers(handed_back[back], zone)
    former = np.where(former == NOTHING, 0, former)
    return Visits(
        job=job,
        number=number,
        unit=unit,
        taken_in=taken_in,
        handed_back=handed_back,
        came=day_numbers(taken_in, zone),
        left=left,
        outcome=outcome.astype(np.int8),
        group=group.astype(np.int8),
        possible=possible.astype(np.int32),
        transport=there[at_end],
        came_with=there[at_begin],
        kind=np.append(kind_of, 0)[at_end].astype(np.int32),
        kinds=kinds,
        confirmed=np.where(said == STANDS.index(ComebackStanding.CONFIRMED), former, 0),
        denied=np.where(said == STANDS.index(ComebackStanding.DENIED), former, 0),
        modified=modified,
    )


def _possible(session: Session) -> Mapping[int, int]:
    """What the fault of each job without a group may turn out to be by the customer's words, as bits, by its key."""
    picked: dict[int, list[ReportedFault]] = {}
    for job, word in session.execute(_WORDS):
        picked.setdefault(job, []).append(ReportedFault(FaultWord(word)))
    return {
        job: sum(1 << GROUPS.index(group) for group in possible_groups(faults))
        for job, faults in picked.items()
    }


def _kinds(session: Session, types: Whole) -> tuple[tuple[str, ...], Whole]:
    """The names of the transport types, none ("") first, and the place of each of these types among them."""
    import numpy as np

    rows = session.execute(_TYPES).all()
    names = list(dict.fromkeys(("", *(name for _, name in rows))))
    place = np.zeros(max((key for key, _ in rows), default=0) + 1, dtype=np.int64)
    for key, name in rows:
        place[key] = names.index(name)
    return tuple(names), place[types]
