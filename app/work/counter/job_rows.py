"""The rows of the list of jobs, a page at a time: everything that one line shows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.door import Book
from app.book.office.part_orders import parts_due
from app.book.tables import Customer, Job, ReportedFault, Unit
from app.trade.bench.stages import Outcome, Stage, Waiting
from app.trade.calendar.promise import days_late, local_day
from app.trade.counter import fault_words
from app.trade.sentence import Sentence
from app.work.counter.open_flags import ListFlag, open_flags
from app.work.counter.unanswered import last_asked, unanswered_days


@dataclass(frozen=True, slots=True)
class JobRow:
    """One line of the list. ``waiting_since`` is the day at which the customer was last asked while an answer is
    awaited; ``unanswered`` are the days since then, once it is time to ask again. ``part_due``: the day on which the
    last of what was ordered for it is expected, while it waits for a part."""

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
    unanswered: int | None
    part_due: date | None
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
        asked = last_asked(session, [job.id for job, _, _ in found if job.waiting is Waiting.ANSWER])
        due = parts_due(session, [job.id for job, _, _ in found if job.waiting is Waiting.PART])
        rows = {
            job.id: _row(
                book,
                job,
                unit,
                name,
                flags[job.id],
                words.get(job.id),
                asked.get(job.id),
                unanswered_days(session, book, asked.get(job.id)),
                due.get(job.id),
            )
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
    unanswered: int | None,
    part_due: date | None,
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
        unanswered=unanswered,
        part_due=part_due,
        flags=flags,
    )


def _fault_words(session: Session, job_ids: Sequence[int]) -> dict[int, Sentence]:
    words: dict[int, Sentence] = {}
    for row in session.scalars(
        select(ReportedFault).where(ReportedFault.job_id.in_(job_ids)).order_by(ReportedFault.id.desc())
    ):
        words[row.job_id] = fault_words.ReportedFault(fault_words.FaultWord(row.word), row.how).sentence
    return words
