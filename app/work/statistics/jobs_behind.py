"""The jobs behind a number: what became of each, and whose player it was."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book import tables
from app.book.door import Book
from app.trade.bench.kinds import FaultGroup
from app.trade.statistics.comebacks import Standing
from app.trade.statistics.returns import NONE, STANDINGS
from app.work.statistics.ground import Ground, ground_of
from app.work.statistics.question import Question
from app.work.statistics.visits import GROUPS, Visits

if TYPE_CHECKING:
    from app.work.statistics.ground import Whole

AT_ONCE = 500  # keys in one statement


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
    import numpy as np

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
    visits = ground.visits
    wanted = np.isin(visits.job, np.array(list(jobs), dtype=np.int64))
    at = np.flatnonzero(wanted[ground.rows])
    wanted[ground.rows] = False  # what is left is still here, or has days that cannot be right
    lines = [*_handed_back(ground, at), *_not_among_them(visits, np.flatnonzero(wanted))]
    lines.sort(key=lambda line: (line.standing is not Standing.CAME_BACK, -line.number))
    return tuple(lines)


def _handed_back(ground: Ground, at: Whole) -> Iterator[JobBehind]:
    """The repairs at these places of the ground's rows."""
    visits, rows = ground.visits, ground.rows[at]
    back = ground.returns.back[rows]
    columns = (
        visits.job[rows],
        visits.number[rows],
        ground.left[at],
        visits.group[rows],
        visits.kind[rows],
        ground.standings[at],
        ground.back[at],
        visits.job[back],
        visits.number[back],
        ground.confirmed[at],
    )
    for job, number, left, group, kind, stands, came, next_job, next_number, confirmed in zip(
        *(column.tolist() for column in columns), strict=True
    ):
        again = came != NONE
        yield JobBehind(
            job,
            number,
            date.fromordinal(left),
            _group(group),
            visits.kinds[kind],
            STANDINGS[stands],
            date.fromordinal(came) if again else None,
            next_job if again else None,
            next_number if again else None,
            confirmed,
        )


def _not_among_them(visits: Visits, places: Whole) -> Iterator[JobBehind]:
    columns = (visits.job[places], visits.number[places], visits.group[places])
    for job, number, group in zip(*(column.tolist() for column in columns), strict=True):
        yield JobBehind(job, number, None, _group(group), "", None, None, None, None)


def _group(place: int) -> FaultGroup | None:
    return None if place == NONE else GROUPS[place]


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
