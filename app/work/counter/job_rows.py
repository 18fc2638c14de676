"""The rows of the list of jobs, a page at a time: everything that one line shows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from app.book.door import Book
from app.book.tables import Customer, Job, Message, ReportedFault, Unit
from app.trade.bench.stages import Outcome, Stage, Waiting
from app.trade.calendar.promise import days_late, local_day
from app.trade.counter import fault_words
from app.trade.sentence import Sentence
from app.work.counter.open_flags import ListFlag, open_flags


@dataclass(frozen=True, slots=True)
class JobRow:
    """One line of the list. ``waiting_since`` is the day of the last message while an answer is awaited."""

    id: int
    number: int
    promised_on: date | None
    promised_time: str
    days_late: int
    maker: str
    model: str
    serial: str
    customer: str
    fault: str
    fault_word: Sentence | None  # where nothing was typed: the word that was picked
    stage: Stage
    waiting: Waiting
    outcome: Outcome | None
    handed_back_on: date | None
    waiting_since: date | None
    flags: tuple[ListFlag, ...]


def job_rows(book: Book, ids: Sequence[int]) -> tuple[JobRow, ...]:
    """The rows of these jobs, in the order asked for; a page at a time."""
    if not ids:
        return ()
    with book.ask() as session:
        found = session.execute(
            select(Job, Unit, Customer.name)
            .join(Unit, Unit.id == Job.unit_id)
            .join(Customer, Customer.id == Job.customer_id)
            .where(Job.id.in_(ids))
        ).all()
        flags = open_flags(session, [(job.id, unit.id) for job, unit, _ in found])
        words = _fault_words(session, [job.id for job, _, _ in found if not job.fault])
        asked = _asked(session, [job.id for job, _, _ in found if job.waiting is Waiting.ANSWER])
        rows = {
            job.id: _row(book, job, unit, name, flags[job.id], words.get(job.id), asked.get(job.id))
            for job, unit, name in found
        }
    return tuple(rows[key] for key in ids if key in rows)


def _row(
    book: Book,
    job: Job,
    unit: Unit,
    customer: str,
    flags: tuple[ListFlag, ...],
    fault_word: Sentence | None,
    asked: datetime | None,
) -> JobRow:
    closed = job.stage in (Stage.READY, Stage.HANDED_BACK)
    return JobRow(
        id=job.id,
        number=job.number,
        promised_on=job.promised_on,
        promised_time=job.promised_time,
        days_late=0 if closed else days_late(job.promised_on, book.today()),
        maker=unit.maker,
        model=unit.model,
        serial=unit.serial,
        customer=customer,
        fault=job.fault_short or job.fault,
        fault_word=fault_word,
        stage=job.stage,
        waiting=job.waiting,
        outcome=job.outcome,
        handed_back_on=local_day(job.handed_back_at, book.zone) if job.handed_back_at else None,
        waiting_since=local_day(asked, book.zone) if asked else None,
        flags=flags,
    )


def _fault_words(session: Session, job_ids: Sequence[int]) -> dict[int, Sentence]:
    words: dict[int, Sentence] = {}
    for row in session.scalars(
        select(ReportedFault).where(ReportedFault.job_id.in_(job_ids)).order_by(ReportedFault.id.desc())
    ):
        words[row.job_id] = fault_words.ReportedFault(fault_words.FaultWord(row.word), row.how).sentence
    return words


def _asked(session: Session, job_ids: Sequence[int]) -> dict[int, datetime]:
    """When the customer was last spoken to, of jobs that wait for an answer."""
    if not job_ids:
        return {}
    return dict(
        session.execute(
            select(Message.job_id, func.max(Message.at))
            .where(Message.job_id.in_(job_ids), Message.to_customer)
            .group_by(Message.job_id)
        ).all()
    )
