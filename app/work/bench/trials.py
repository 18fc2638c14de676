"""Trials: one change at a time, its rung and readings before and after, and what it did."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import func, select

from app.book.door import Book
from app.book.tables import Reading, Trial
from app.trade.bench.stages import TrialOutcome
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.bench.open_job import open_job, transport_in
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
    left: str = ""  # what became of the change: put back, left so, left inside
    order_reason: str = ""
    note: str = ""


def check_trial(entry: TrialEntry) -> dict[str, Sentence]:
    """A sentence under each field that cannot be right."""
    if not entry.words.strip():
        return {"words": Sentence("Say what was changed, one thing.")}
    return {}


def record_trial(book: Book, who: int, job_id: int, entry: TrialEntry) -> Done[int]:
    """Begin (or record whole) one trial. What the transport did last stands as its before. Raises FieldRefusal."""
    wrong = check_trial(entry)
    if wrong:
        raise FieldRefusal(wrong)
    with book.change(who, Sentence("recorded a trial")) as change:
        job = open_job(change, job_id)
        transport = transport_in(change, job)
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
            left=entry.left.strip(),
            order_reason=entry.order_reason.strip(),
            note=entry.note.strip(),
            at=change.now,
            by=change.by,
        )
        row.rung_before = climbs_around(change.session, row).rung_before
        change.add(row)
    return Done(row.id, change.changes)


def judge_trial(
    book: Book,
    who: int,
    trial_id: int,
    outcome: TrialOutcome,
    *,
    left: str = "",
    note: str = "",
    version: int | None = None,
) -> Done[int]:
    """Say what the trial did; what the book works out stands beside it, with the lowest rung seen since in normal
    use."""
    with book.change(who, Sentence("judged a trial")) as change:
        row = change.get(Trial, trial_id, version=version)
        open_job(change, row.job_id)
        rung, proposed = climbs_around(change.session, row).rung_after, work_out(change.session, row).outcome
        row.outcome, row.proposed, row.rung_after = outcome, proposed, rung
        row.left = left.strip() or row.left
        row.note = note.strip() or row.note
    return Done(trial_id, change.changes)


def take_as_before(book: Book, who: int, trial_id: int, reading_ids: tuple[int, ...]) -> Done[int]:
    """Mark readings taken already as the ones before this trial; their values stand as they are."""
    with book.change(who, Sentence("marked readings as before a trial")) as change:
        trial = change.get(Trial, trial_id)
        open_job(change, trial.job_id)
        for reading_id in reading_ids:
            reading = change.get(Reading, reading_id)
            if reading.job_id == trial.job_id and reading.trial_id is None:
                reading.trial_id, reading.trial_side = trial.id, "before"
    return Done(trial_id, change.changes)
