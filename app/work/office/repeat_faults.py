"""Repeat faults: which repairs came back within the window, by group, and the jobs behind each number."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book import tables
from app.book.door import Book
from app.trade.bench.kinds import Arrangement, FaultGroup
from app.trade.sentence import Sentence
from app.trade.statistics.comeback_rates import Rate, headline, rates
from app.trade.statistics.comebacks import By, Standing, counted
from app.work.office.repairs import AT_ONCE
from app.work.statistics.ground import LABELS, ground_of
from app.work.statistics.question import Question as Question


@dataclass(frozen=True, slots=True)
class RepeatFaults:
    """The answer: one rate for each group, and the sentence over the picture.

    ``splits`` parts each group again by ``split_by``. ``first`` and ``last`` are the days of handing back that
    the book has, whatever was asked.
    """

    question: Question
    headline: Sentence
    rates: tuple[Rate, ...]
    first: date | None
    last: date | None
    split_by: By = By.FAULT_GROUP
    splits: Mapping[str, tuple[Rate, ...]] = field(default_factory=dict)
    arrangements: Mapping[str, Arrangement] = field(default_factory=dict)  # of transport types by name


@dataclass(frozen=True, slots=True)
class JobBehind:
    """One job behind a number; ``next_job`` is the visit that counts as its return."""

    id: int
    number: int
    handed_back: date
    group: FaultGroup | None
    transport_type: str
    standing: Standing
    next_in: date | None
    next_job_id: int | None
    next_job: int | None


@dataclass(frozen=True, slots=True)
class Named:
    """What the list of jobs behind a number shows beside the job."""

    player: str
    customer: str


def repeat_faults(book: Book, question: Question) -> RepeatFaults:
    """Comebacks out of repairs watched for the whole window, group by group against the rest of the shop."""
    split_by, ground = _split_by(question), ground_of(book, question)
    part = LABELS[split_by]
    seen = Counter((ground.label(one), part(one), ground.standing(one)) for one in ground.each)
    tally: defaultdict[str, defaultdict[str, Counter[Standing]]] = defaultdict(lambda: defaultdict(Counter))
    for (name, part_name, standing), count in seen.items():
        tally[name][part_name][standing] = count
    found = rates(counted({name: sum(parts.values(), Counter()) for name, parts in tally.items()}))
    return RepeatFaults(
        question,
        headline(found, question.by, question.window),
        found,
        ground.first,
        ground.last,
        split_by,
        {name: rates(counted(parts)) for name, parts in tally.items()},
        _arrangements(book),
    )


def jobs_behind(
    book: Book, question: Question, label: str, standings: Sequence[Standing] = ()
) -> tuple[JobBehind, ...]:
    """The jobs of one row, those that came back first, then newest first; only some ``standings`` where asked."""
    ground, lines = ground_of(book, question), []
    for one in ground.each:
        if ground.label(one) != label:
            continue
        stands = ground.standing(one)
        if not standings or stands in standings:
            lines.append(
                JobBehind(
                    one.job_id,
                    one.number,
                    one.handed_back,
                    one.group,
                    one.transport_type,
                    stands,
                    one.next_in,
                    one.next_id,
                    one.next_number,
                )
            )
    lines.sort(key=lambda line: (line.standing is not Standing.CAME_BACK, -line.number))
    return tuple(lines)


def named_jobs(book: Book, job_ids: Sequence[int]) -> dict[int, Named]:
    """Player and customer of each job, by its key."""
    found: dict[int, Named] = {}
    with book.ask() as session:
        for start in range(0, len(job_ids), AT_ONCE):
            found.update(_named(session, job_ids[start : start + AT_ONCE]))
    return found


def _named(session: Session, job_ids: Sequence[int]) -> Iterable[tuple[int, Named]]:
    rows = session.execute(
        select(tables.Job.id, tables.Unit.maker, tables.Unit.model, tables.Customer.name)
        .join(tables.Unit, tables.Unit.id == tables.Job.unit_id)
        .join(tables.Customer, tables.Customer.id == tables.Job.customer_id)
        .where(tables.Job.id.in_(job_ids))
    )
    return [(key, Named(f"{maker} {model}".strip(), name)) for key, maker, model, name in rows]


def _split_by(question: Question) -> By:
    """What a group is parted by once more: never by what it is grouped or filtered by already."""
    if question.by is not By.TRANSPORT_TYPE:
        return By.TRANSPORT_TYPE
    return By.FAULT_GROUP if question.group is None else By.MODIFICATION


def _arrangements(book: Book) -> dict[str, Arrangement]:
    with book.ask() as session:
        rows = session.execute(select(tables.TransportType.name, tables.TransportType.arrangement))
        return dict(rows.all())
