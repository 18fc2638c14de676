"""Which jobs are guarantee work: decided to be, or a confirmed comeback within its guarantee that was not charged."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import tzinfo

from sqlalchemy import func, select
from sqlalchemy.orm import Session, aliased

from app.book.tables import CreditNote, GuaranteeAnswer, Invoice, Job
from app.trade.bench.kinds import ComebackStanding
from app.trade.calendar.promise import local_day
from app.trade.office.guarantee import Answer

FREE = (Answer.NO_CHARGE, Answer.NO_INVOICE)


@dataclass(frozen=True, slots=True)
class GuaranteeWork:
    """Keys of jobs: ``decided`` by a person to be done without charge; ``undecided`` ones that nobody decided about,
    but that are confirmed comebacks, came in within the guarantee and asked for nothing."""

    decided: frozenset[int]
    undecided: frozenset[int]


def guarantee_work(
    session: Session, zone: tzinfo, step: Callable[[], object] = lambda: None
) -> GuaranteeWork:
    """All guarantee work of the book, also of jobs that are still open."""
    answers = session.execute(
        select(GuaranteeAnswer.job_id, GuaranteeAnswer.answer).order_by(GuaranteeAnswer.id)
    )
    last: dict[int, Answer] = dict(answers.all())
    step()
    former = aliased(Job)
    promised = session.execute(
        select(Job.id, Job.taken_in_at, former.guarantee_until)
        .join(former, former.id == Job.comeback_of_id)
        .where(Job.comeback == ComebackStanding.CONFIRMED, former.guarantee_until.is_not(None))
    )
    within = {
        job for job, came, until in promised if job not in last and until and local_day(came, zone) <= until
    }
    return GuaranteeWork(
        frozenset(job for job, answer in last.items() if answer in FREE),
        frozenset(within - _charged(session, step)),
    )


def _charged(session: Session, step: Callable[[], object]) -> set[int]:
    """Comebacks of which something was asked for, credit notes taken off."""
    asked: dict[int, int] = {}
    for rows, sign in ((Invoice, 1), (CreditNote, -1)):
        step()
        sums = (
            select(rows.job_id, func.sum(rows.net))
            .join(Job, Job.id == rows.job_id)
            .where(Job.comeback == ComebackStanding.CONFIRMED)
            .group_by(rows.job_id)
        )
        for job, net in session.execute(sums):
            asked[job] = asked.get(job, 0) + sign * net
    return {job for job, net in asked.items() if net > 0}
