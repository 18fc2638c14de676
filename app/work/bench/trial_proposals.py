"""What the book works out of a trial from its climbs and readings, to stand beside the technician's word."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.bench.catalogue import quantities
from app.book.bench.knowledge_data import knowledge_of
from app.book.door import Book
from app.book.tables import Job, Modification, Reading, Trial
from app.trade.bench.changes import Leaves
from app.trade.bench.kinds import Warmth
from app.trade.bench.quantities import Quantity
from app.trade.bench.start_up import StartUpResult
from app.trade.bench.trial_proposal import CAME_BACK, HELD, ClimbPair, Pair, Proposal, TrialSides, propose
from app.trade.bench.units import UNITS
from app.trade.bench.verdict import Limit
from app.trade.sentence import Measure
from app.work.bench.live_ratio import modifications_followed, ratio_at, ratio_of
from app.work.bench.ranking_facts import WARM_MINUTES, climbs_of, trials_of

Place = tuple[str, str]  # quantity, detail


def proposal_of(book: Book, trial_id: int) -> Proposal:
    """What the book proposes for a trial as it stands now, and why."""
    with book.ask() as session:
        return work_out(session, session.get_one(Trial, trial_id))


def work_out(session: Session, trial: Trial) -> Proposal:
    """The same inside a change that is under way."""
    sides = climbs_around(session, trial)
    own = _own(session, trial.id)
    change = knowledge_of(session).knowledge.changes.get(trial.change)
    return propose(
        TrialSides(
            climbs=sides.pairs,
            pairs=_pairs(session, trial),
            modifies=own
            or trial.left.modifies
            or (change is not None and change.leaves is Leaves.MODIFICATION),
            proof=CAME_BACK if trial.came_back else HELD if sides.held else None,
        )
    )


@dataclass(frozen=True, slots=True)
class ClimbsAround:
    """The last climb of each warmth (cold, warm, between) before a trial and after it, in normal use."""

    before: Mapping[str, Any]
    after: Mapping[str, Any]

    @property
    def pairs(self) -> tuple[ClimbPair, ...]:
        """Like with like; where nothing is alike, the last before with the last after."""
        alike = [warmth for warmth in self.after if warmth in self.before]
        if alike:
            return tuple(ClimbPair(_result(self.before[w]), _result(self.after[w])) for w in alike)
        if not (self.before and self.after):
            return ()
        return (ClimbPair(_result(_last(self.before)), _result(_last(self.after))),)

    @property
    def rung_before(self) -> int | None:
        """The lowest rung among those before: a fault that shows only when cold stays in view."""
        return min((row.rung for row in self.before.values()), default=None)

    @property
    def rung_after(self) -> int | None:
        """The lowest rung among those after."""
        return min((row.rung for row in self.after.values()), default=None)

    @property
    def held(self) -> bool:
        """Whether it got past the rung before both cold and after so long a play."""
        past = [row for row in self.after.values() if row.rung > (self.rung_before or 0)]
        warm = any(row.warmth is Warmth.WARM or (row.warm_minutes or 0) >= WARM_MINUTES for row in past)
        return warm and any(row.warmth is Warmth.COLD for row in past)


def climbs_around(session: Session, trial: Trial) -> ClimbsAround:
    """The climbs before and after one trial. What was climbed since the trial before it stands as its before;
    what comes after the next one is no longer its own."""
    trials = [row for row in trials_of(session, trial.job_id) if row.id != trial.id]
    former = [row.at for row in trials if row.number < trial.number]
    later = [row.at for row in trials if row.number > trial.number]
    before, after = [], []
    for climb in climbs_of(session, trial.job_id):
        own = climb.trial_id is not None and climb.trial_id == trial.id  # a new trial has no id yet
        if own and climb.trial_side != "before":
            after.append(climb)
        elif own or climb.at <= trial.at:
            before.append(climb)
        elif climb.trial_id is None and (not later or climb.at < min(later)):
            after.append(climb)
    since = [climb for climb in before if not former or climb.at > max(former)]
    return ClimbsAround(_by_warmth(since or before[-1:]), _by_warmth(after))


def _by_warmth(climbs: Sequence[Any]) -> Mapping[str, Any]:
    found: dict[str, Any] = {}
    for climb in climbs:
        found.pop(climb.warmth, None)  # so that the last one stands last
        found[climb.warmth] = climb
    return found


def _last(climbs: Mapping[str, Any]) -> Any:
    return list(climbs.values())[-1]


def _result(row: Any) -> StartUpResult:
    return StartUpResult(rung=row.rung, tries=row.tries, stopped_in=row.stopped_in, warmth=row.warmth)


def _own(session: Session, trial_id: int) -> bool:
    """Whether the trial left a modification, put back since or not."""
    found = select(Modification.id).where(Modification.trial_id == trial_id, Modification.struck_at.is_(None))
    return session.scalars(found.limit(1)).first() is not None


def _pairs(session: Session, trial: Trial) -> tuple[Pair, ...]:
    """Each quantity that was read after the trial, with its reading before: the one marked so, else the last."""
    table = Reading.__table__
    rows = session.execute(
        select(table)
        .where(table.c.job_id == trial.job_id, table.c.struck_at.is_(None))
        .order_by(table.c.at, table.c.id)
    ).all()
    marked: dict[Place, Any] = {}
    last: dict[Place, Any] = {}
    after: dict[Place, Any] = {}
    for row in rows:
        place = (row.quantity, row.detail)
        if row.trial_id != trial.id:
            if row.at <= trial.at:
                last[place] = row
        elif row.trial_side == "before":
            marked[place] = row
        else:
            after[place] = row
    known, changes = quantities(session), _changes(session, trial)
    pairs = []
    for place, row in after.items():
        first = marked.get(place) or last.get(place)
        if first is not None and row.quantity in known and _measured(first) and _measured(row):
            pairs.append(_pair(trial, known[row.quantity], first, row, changes))
    return tuple(pairs)


def _changes(session: Session, trial: Trial) -> Sequence[Any]:
    job = session.get_one(Job, trial.job_id)
    return modifications_followed(session, job.unit_id, trial.transport_id)


def _measured(row: Any) -> bool:
    """A value with its uncertainty: neither an open circuit nor a bare bound."""
    return row.digits is not None and row.uncertainty is not None


def _pair(trial: Trial, quantity: Quantity, before: Any, after: Any, changes: Sequence[Any]) -> Pair:
    # What the trial itself left is live in what was read after it, also where it was written down later.
    own = [row for row in changes if row.trial_id == trial.id]
    others = [row for row in changes if row.trial_id != trial.id]
    then = [
        row
        for row in others
        if row.at <= after.at and (row.reversed_at is None or after.at < row.reversed_at)
    ]
    limited = after if (after.limit_low, after.limit_high) != (None, None) else before
    low, high = limited.limit_low, limited.limit_high
    return Pair(
        name=quantity.named(after.detail),
        before=before.digits,
        u_before=Decimal(repr(before.uncertainty)),
        after=after.digits,
        u_after=Decimal(repr(after.uncertainty)),
        shown_before=_shown(before, after.unit),
        shown_after=_shown(after, after.unit),
        limit=None if low is None and high is None else Limit(low, high),
        ratio_before=ratio_at(others, after.quantity, before.at),
        ratio_after=ratio_of(after.quantity, [*then, *own]),
    )


def _shown(row: Any, unit: str) -> Measure:
    return Measure(UNITS[unit].to_shown(row.digits), unit)
