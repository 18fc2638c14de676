"""What the book works out of a trial from its climbs and readings, to stand beside the technician's word."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.bench.catalogue import quantities
from app.book.bench.knowledge_data import knowledge_of
from app.book.door import Book
from app.book.tables import Job, Modification, Reading, Trial
from app.trade.bench.changes import Leaves
from app.trade.bench.climbs import ClimbsAround
from app.trade.bench.quantities import Quantity
from app.trade.bench.trial_proposal import CAME_BACK, HELD, Pair, Proposal, TrialSides, propose
from app.trade.bench.units import UNITS
from app.trade.bench.verdict import Limit
from app.trade.sentence import Measure
from app.work.bench.live_ratio import modifications_followed, ratio_at, ratio_of
from app.work.bench.ranking_facts import around, climbs_of, trials_of

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


def climbs_around(session: Session, trial: Trial) -> ClimbsAround:
    """The climbs before and after one trial, which need not be kept yet."""
    return around(trial, trials_of(session, trial.job_id), climbs_of(session, trial.job_id))


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
