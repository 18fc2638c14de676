"""Earlier jobs of a unit that were closed, as the rules of comeback and guarantee need to know them."""

from __future__ import annotations

from datetime import tzinfo

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.bench.modification_facts import fact_of
from app.book.tables import Job, Modification, Trial
from app.trade.bench.comeback import FormerJob
from app.trade.bench.modification_words import what_it_is
from app.trade.bench.stages import Stage, TrialOutcome
from app.trade.calendar.promise import local_day
from app.trade.sentence import Sentence


def former_jobs(session: Session, unit_id: int, zone: tzinfo) -> tuple[FormerJob, ...]:
    """The closed jobs of a unit, the latest first. ``FormerJob.job`` is the number that people say."""
    found = []
    for job in session.scalars(
        select(Job)
        .where(
            Job.unit_id == unit_id,
            Job.stage == Stage.HANDED_BACK,
            Job.handed_back_at.is_not(None),
            Job.outcome.is_not(None),
        )
        .order_by(Job.handed_back_at.desc(), Job.id.desc())
    ):
        assert job.handed_back_at is not None
        assert job.outcome is not None
        found.append(
            FormerJob(
                job=job.number,
                handed_back=local_day(job.handed_back_at, zone),
                group=job.fault_group,
                outcome=job.outcome,
                done=done_words(session, job),
                modified=_left_inside(session, job),
                guarantee_until=job.guarantee_until,
            )
        )
    return tuple(found)


def done_words(session: Session, job: Job) -> str:
    """What was done, in the words of the record: the last trial that helped, else the last one, else the fault."""
    trials = session.scalars(
        select(Trial).where(Trial.job_id == job.id, Trial.struck_at.is_(None)).order_by(Trial.number.desc())
    ).all()
    helped = [t for t in trials if t.outcome in (TrialOutcome.CURED, TrialOutcome.BETTER)]
    for trial in (*helped, *trials):
        return trial.words
    return job.fault_short or job.fault


def _left_inside(session: Session, job: Job) -> Sentence | None:
    left = session.scalars(
        select(Modification)
        .where(
            Modification.job_id == job.id,
            Modification.ours,
            Modification.reversed_at.is_(None),
            Modification.struck_at.is_(None),
        )
        .order_by(Modification.id.desc())
    ).first()
    if left is None:
        return None
    return Sentence("{what} left inside", {"what": what_it_is(fact_of(left, job.number, "", "", {}))})
