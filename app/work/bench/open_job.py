"""The job that a deed of the bench is done on, and what every deed there has to look at first."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import bindparam, select

from app.book.bench.job_rows import JobRows
from app.book.bench.safety_facts import case_events_of
from app.book.door import Change
from app.book.tables import CaseEvent, Fitting, Job, Transport
from app.trade.bench.case import assumed_opening, assumed_words
from app.trade.bench.stages import Stage
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence


def open_job(change: Change, job_id: int) -> Job:
    """The job, for a deed on it; a closed one is refused: its records stand."""
    job = change.get(Job, job_id)
    if job.stage is Stage.HANDED_BACK:
        raise Refusal(
            Sentence("Job {number} is closed; its records stand as they are.", {"number": str(job.number)}),
            Sentence("When the player comes again, take it in as a new job."),
        )
    return job


def transport_in(change: Change, job: Job) -> Transport | None:
    """The transport that is in the job's unit now."""
    return change.session.scalars(_INSIDE, {"unit": job.unit_id}).first()


_INSIDE = (
    select(Transport)
    .join(Fitting, Fitting.transport_id == Transport.id)
    .where(Fitting.unit_id == bindparam("unit"), Fitting.removed_at.is_(None))
)


def take_as_opened(change: Change, job: Job, at: datetime, entered: Sentence) -> Sentence | None:
    """Take the case as opened when something was entered that is only had inside; says so when it did."""
    rows = JobRows(change.session, job)
    event = assumed_opening(case_events_of(rows), at=at, by=rows.staff[change.by], job=job.number)
    if event is None:
        return None
    change.add(CaseEvent(job_id=job.id, opened=True, assumed=True, at=at, by=change.by))
    return assumed_words(entered)
