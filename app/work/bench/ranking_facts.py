"""What the ranking of a job's suspects rests on, gathered from the book."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from functools import reduce
from typing import Any

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from app.book.tables import Job, Modification, Reading, StartUpResult, Trial
from app.trade.bench.changes import BenchChange
from app.trade.bench.climbs import Climbed, ClimbsAround, TrialMade, climbs_around
from app.trade.bench.evidence import ReadingSeen, TrialSeen, either, reading_seen
from app.trade.bench.follows import as_made
from app.trade.bench.kinds import HowSeen
from app.trade.bench.likelihoods import Likelihoods, ReadingRatios
from app.trade.bench.quantities import HIGHEST_RUNG, Quantity
from app.trade.bench.stages import Moment, TrialOutcome
from app.trade.bench.start_up import StartUpResult as Climb
from app.trade.bench.verdict import Limit, VerdictWord, judge
from app.trade.sentence import Sentence
from app.work.bench.live_ratio import NO_RATIO, modifications_followed, ratio_at

ENDS_THE_FAULT = (TrialOutcome.CURED, TrialOutcome.BETTER)


def climbs_of(session: Session, job_id: int) -> Sequence[Any]:
    """The job's climbs in normal use, in the order of time, without struck-out ones."""
    table = StartUpResult.__table__
    climbs = table.c
    return session.execute(
        select(table)
        .where(climbs.job_id == job_id, climbs.struck_at.is_(None), climbs.seen == HowSeen.NORMAL_USE)
        .order_by(climbs.at, climbs.id)
    ).all()


def standing_climb(climbs: Sequence[Any]) -> Any | None:
    """The climb that picks the ladder's row: the last one that stopped somewhere, so that a fault which a
    modification overcame, or which shows only when cold, stays in view; else the last; None before the first."""
    stopping = [climb for climb in climbs if climb.rung < HIGHEST_RUNG]
    return next(reversed(stopping or climbs), None)


def trials_of(session: Session, job_id: int) -> Sequence[Any]:
    """The job's trials in their order, without struck-out ones."""
    table = Trial.__table__
    trials = table.c
    return session.execute(
        select(table).where(trials.job_id == job_id, trials.struck_at.is_(None)).order_by(trials.number)
    ).all()


def around(trial: Any, trials: Sequence[Any], climbs: Sequence[Any]) -> ClimbsAround:
    """The climbs before and after a trial, of the rows of its job."""
    return climbs_around(_made(trial), [_made(row) for row in trials], [_climbed(row) for row in climbs])


def _made(row: Any) -> TrialMade:
    return TrialMade(id=row.id, number=row.number, at=row.at)


def _climbed(row: Any) -> Climbed:
    result = Climb(
        rung=row.rung,
        tries=row.tries,
        stopped_in=row.stopped_in,
        warmth=row.warmth,
        warm_minutes=row.warm_minutes,
    )
    return Climbed(at=row.at, result=result, trial=row.trial_id, before=row.trial_side == "before")


def trials_seen(
    session: Session,
    trials: Sequence[Any],
    climbs: Sequence[Any],
    changes: Mapping[str, BenchChange],
) -> tuple[TrialSeen, ...]:
    """The judged trials. A cure is shown when the fault came back with the change undone, or when it held."""
    modified = _modified(session, [trial.id for trial in trials])
    return tuple(
        trial_seen(
            trial, changes, trial.id in modified, trial.came_back or around(trial, trials, climbs).held
        )
        for trial in trials
        if trial.outcome is not None
    )


def trial_seen(trial: Any, changes: Mapping[str, BenchChange], modifies: bool, shown: bool) -> TrialSeen:
    change = changes.get(trial.change)
    name = change.name if change is not None else _own_words(trial)
    return TrialSeen(trial.number, trial.change, name, trial.outcome, modifies or trial.left.modifies, shown)


def _own_words(trial: Any) -> Sentence:
    return Sentence("Trial {number}: {words}", {"number": trial.number, "words": trial.words})


def _modified(session: Session, trial_ids: Sequence[int]) -> set[int]:
    """Trials that left a modification as the book has it, whether it was put back or not."""
    found = session.scalars(
        select(Modification.trial_id).where(
            Modification.trial_id.in_(trial_ids), Modification.struck_at.is_(None)
        )
    )
    return {trial_id for trial_id in found if trial_id is not None}


def _before(row: Any, trial: Any) -> bool:
    return bool(row.trial_id == trial.id and row.trial_side == "before")


def _after(row: Any, trial: Any) -> bool:
    return bool(row.trial_id == trial.id and row.trial_side != "before")


def readings_seen(
    session: Session,
    job: Job,
    transport_id: int,
    trials: Sequence[Any],
    climbs: Sequence[Any],
    likelihoods: Likelihoods,
    quantities: Mapping[str, Quantity],
) -> tuple[ReadingSeen, ...]:
    """The last judged reading of each quantity and place that was taken while the fault stood."""
    table = Reading.__table__
    readings = table.c
    rows = session.execute(
        select(table)
        .where(
            readings.job_id == job.id,
            readings.struck_at.is_(None),
            readings.verdict != "",
            readings.moment != Moment.FINAL,
            or_(readings.transport_id.is_(None), readings.transport_id == transport_id),
        )
        .order_by(readings.at, readings.id)
    ).all()
    end = _end_of_fault(trials, climbs)
    worse = [trial for trial in trials if trial.outcome is TrialOutcome.WORSE]
    last = {
        (row.quantity, row.detail): row
        for row in rows
        if _speaks(row, end) and not any(_after(row, trial) for trial in worse)
    }
    modifications = modifications_followed(session, job.unit_id, transport_id)
    seen = []
    for ratios in likelihoods.readings.values():
        own = [
            _seen(ratios, row, quantities[row.quantity], modifications)
            for row in last.values()
            if row.quantity in ratios.quantities and row.quantity in quantities
        ]
        speaking = [one for one in own if one is not None]
        if len(ratios.quantities) > 1 and speaking:
            speaking = [reduce(either, speaking)]
        seen += speaking
    return tuple(seen)


def _end_of_fault(trials: Sequence[Any], climbs: Sequence[Any]) -> Any | None:
    """The first trial that cured or helped and after which the player was not seen to stop again."""
    for trial in trials:
        stopped = any(c.rung < HIGHEST_RUNG and c.at > trial.at and not _before(c, trial) for c in climbs)
        if trial.outcome in ENDS_THE_FAULT and not stopped:
            return trial
    return None


def _speaks(row: Any, end: Any | None) -> bool:
    if end is None or _before(row, end):
        return True
    return bool(row.at <= end.at and not _after(row, end))


def _seen(
    ratios: ReadingRatios, row: Any, quantity: Quantity, modifications: Sequence[Any]
) -> ReadingSeen | None:
    word, high, low = VerdictWord(row.verdict), None, None
    ratio = ratio_at(modifications, row.quantity, row.at)
    if row.uncertainty is not None:  # neither an open circuit nor a bare bound
        value, u = as_made(row.digits, Decimal(repr(row.uncertainty)), ratio)
        verdict = judge(value, u, Limit(row.limit_low, row.limit_high))
        high, low = verdict.probability_high, verdict.probability_low
        if ratio != NO_RATIO:
            word = verdict.word  # else the verdict of that day stands
    both_signs = row.limit_low is not None and row.limit_low < 0
    return reading_seen(ratios, quantity.named(row.detail), word, high, low, both_signs)
