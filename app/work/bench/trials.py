"""Trials: one change at a time, its rung and readings before and after, and what it did."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from app.book.door import Book, Change
from app.book.tables import Reading, Trial
from app.trade.bench.changes import BenchChange
from app.trade.bench.next_step import out_of_order
from app.trade.bench.stages import Left, TrialOutcome
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.bench.open_job import open_job, transport_in
from app.work.bench.ranking import first_before
from app.work.bench.trial_proposals import climbs_around, work_out
from app.work.shop_book import Done


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialEntry:
    """A trial as entered. ``change`` is an id of the list of changes, or empty with own ``words``."""

    change: str
    words: str
    suspect: str = ""  # id of what is suspected; empty where nothing is named
    reference: str = ""
    outcome: TrialOutcome | None = None
    left: Left = Left.NOT_SAID
    order_reason: str = ""
    note: str = ""


def check_trial(entry: TrialEntry) -> dict[str, Sentence]:
    """A sentence under each field that cannot be right."""
    if not entry.words.strip():
        return {"words": Sentence("Say what was changed, one thing.")}
    return {}


def record_trial(
    book: Book, who: int, job_id: int, entry: TrialEntry, *, before: tuple[int, ...] = ()
) -> Done[int]:
    """Begin (or record whole) one trial. What the transport did last stands as its before; ``before``: readings
    taken already that are marked so. Raises FieldRefusal, also while another waits to be judged, and where
    reversible changes come first and no reason is given."""
    wrong = check_trial(entry)
    if wrong:
        raise FieldRefusal(wrong)
    with book.change(who, Sentence("recorded a trial")) as change:
        job = open_job(change, job_id)
        transport = transport_in(change, job)
        _refuse_second(change.session, job.id)
        last = change.session.scalar(select(func.max(Trial.number)).where(Trial.job_id == job.id)) or 0
        row = Trial(
            job_id=job.id,
            transport_id=transport.id if transport else None,
            number=last + 1,
            change=entry.change,
            words=entry.words.strip(),
            suspect=entry.suspect.strip() or None,
            reference=entry.reference.strip(),
            outcome=entry.outcome,
            left=entry.left,
            order_reason=entry.order_reason.strip(),
            note=entry.note.strip(),
            at=change.now,
            by=change.by,
        )
        if not row.order_reason:
            _refuse_out_of_order(first_before(change.session, job.id, row.change))
        row.rung_before = climbs_around(change.session, row).rung_before
        change.add(row)
        change.session.flush()  # its readings name it
        _mark_before(change, row, before)
    return Done(row.id, change.changes)


def _refuse_second(session: Session, job_id: int) -> None:
    """One change at a time: what two did together tells of neither."""
    waits = session.scalar(
        select(Trial)
        .where(Trial.job_id == job_id, Trial.outcome.is_(None), Trial.struck_at.is_(None))
        .order_by(Trial.number)
        .limit(1)
    )
    if waits is not None:
        raise FieldRefusal(
            {
                "change": Sentence(
                    "Trial {number} is not judged yet: {words}. Judge it first, or strike it out; "
                    "one change at a time.",
                    {"number": waits.number, "words": waits.words},
                )
            }
        )


def first_changes(book: Book, job_id: int, change_id: str) -> tuple[Sentence, ...]:
    """The changes that come before this one, unless a reason is given: reversible ones whose suspect still has a
    share above 5 in 100."""
    with book.ask() as session:
        return tuple(change.name for change in first_before(session, job_id, change_id))


def _refuse_out_of_order(first: tuple[BenchChange, ...]) -> None:
    """What leaves a modification or is hard to undo comes last (common practice, no source)."""
    if first:
        raise FieldRefusal({"order_reason": out_of_order(tuple(change.name for change in first))})


def judge_trial(
    book: Book,
    who: int,
    trial_id: int,
    outcome: TrialOutcome,
    *,
    left: Left = Left.NOT_SAID,
    came_back: bool = False,
    note: str = "",
    version: int | None = None,
) -> Done[int]:
    """Say what the trial did and what became of the change; what the book works out stands beside it, with the
    lowest rung seen since in normal use. ``came_back``: the fault did, with the change undone."""
    with book.change(who, Sentence("judged a trial")) as change:
        row = change.get(Trial, trial_id, version=version)
        open_job(change, row.job_id)
        rung, proposed = climbs_around(change.session, row).rung_after, work_out(change.session, row).outcome
        row.outcome, row.proposed, row.rung_after = outcome, proposed, rung
        row.left = row.left if left is Left.NOT_SAID else left
        row.came_back = came_back
        row.note = note.strip() or row.note
    return Done(trial_id, change.changes)


def take_as_before(book: Book, who: int, trial_id: int, reading_ids: tuple[int, ...]) -> Done[int]:
    """Mark readings taken already as the ones before this trial; their values stand as they are."""
    with book.change(who, Sentence("marked readings as before a trial")) as change:
        trial = change.get(Trial, trial_id)
        open_job(change, trial.job_id)
        _mark_before(change, trial, reading_ids)
    return Done(trial_id, change.changes)


def _mark_before(change: Change, trial: Trial, reading_ids: tuple[int, ...]) -> None:
    """Those of this job that belong to no trial yet."""
    for reading_id in reading_ids:
        reading = change.get(Reading, reading_id)
        if reading.job_id == trial.job_id and reading.trial_id is None:
            reading.trial_id, reading.trial_side = trial.id, "before"
