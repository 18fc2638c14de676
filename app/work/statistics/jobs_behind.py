"""The jobs behind a number: what became of each, and whose player it was."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book import tables
from app.book.door import Book
from app.trade.bench.kinds import FaultGroup
from app.trade.statistics.comebacks import Standing
from app.work.office.repairs import AT_ONCE
from app.work.statistics.ground import ground_of
from app.work.statistics.question import Question


@dataclass(frozen=True, slots=True)
class JobBehind:
    """One job behind a number; ``next_job`` is the visit that counts as its return. A job that is still in the shop has
    neither a day of handing back nor a standing."""

    id: int
    number: int
    handed_back: date | None
    group: FaultGroup | None
    transport_type: str
    standing: Standing | None
    next_in: date | None
    next_job_id: int | None
    next_job: int | None
    confirmed: bool = False


@dataclass(frozen=True, slots=True)
class Named:
    """What the list of jobs behind a number shows beside the job."""

    player: str
    customer: str


def jobs_behind(book: Book, question: Question, jobs: Collection[int]) -> tuple[JobBehind, ...]:
    """The jobs of these keys under the question's definition; its filters have been at work before. Those that came
    back first, then the newest first."""
    wanted = frozenset(jobs)
    ground = ground_of(
        book,
        Question(
            window=question.window,
            same_group=question.same_group,
            followed=question.followed,
            not_repaired=question.not_repaired,
            declined=question.declined,
        ),
    )
    lines = [
        JobBehind(
            one.job_id,
            one.number,
            one.handed_back,
            one.group,
            one.transport_type,
            ground.standing(one),
            one.next_in,
            one.next_id,
            one.next_number,
            one.confirmed,
        )
        for one in ground.each
        if one.job_id in wanted
    ]
    lines += _still_here(book, wanted - {line.id for line in lines})
    lines.sort(key=lambda line: (line.standing is not Standing.CAME_BACK, -line.number))
    return tuple(lines)


def _still_here(book: Book, jobs: Collection[int]) -> list[JobBehind]:
    with book.ask() as session:
        return [
            JobBehind(key, number, None, group, "", None, None, None, None)
            for some in _at_once(tuple(jobs))
            for key, number, group in session.execute(
                select(tables.Job.id, tables.Job.number, tables.Job.fault_group).where(
                    tables.Job.id.in_(some)
                )
            )
        ]


def named_jobs(book: Book, job_ids: Sequence[int]) -> dict[int, Named]:
    """Player and customer of each job, by its key."""
    found: dict[int, Named] = {}
    with book.ask() as session:
        for some in _at_once(job_ids):
            found.update(_named(session, some))
    return found


def _named(session: Session, job_ids: Sequence[int]) -> Iterator[tuple[int, Named]]:
    rows = session.execute(
        select(tables.Job.id, tables.Unit.maker, tables.Unit.model, tables.Customer.name)
        .join(tables.Unit, tables.Unit.id == tables.Job.unit_id)
        .join(tables.Customer, tables.Customer.id == tables.Job.customer_id)
        .where(tables.Job.id.in_(job_ids))
    )
    return ((key, Named(f"{maker} {model}".strip(), name)) for key, maker, model, name in rows)


def _at_once(keys: Sequence[int]) -> Iterator[Sequence[int]]:
    return (keys[start : start + AT_ONCE] for start in range(0, len(keys), AT_ONCE))
