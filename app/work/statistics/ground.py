"""The repairs that a question is about, each with its label, and where each stands under the definition."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlalchemy import Select, Text, case, select, type_coerce, union
from sqlalchemy.orm import Session

from app.book import tables
from app.book.bench.knowledge_data import knowledge_of
from app.book.door import Book
from app.trade.bench.kinds import Arrangement
from app.trade.bench.stages import TrialOutcome
from app.trade.sentence import Sentence, Value
from app.trade.statistics.comebacks import UNKNOWN, WITH, WITHOUT, By, Standing, stands
from app.work.office.repairs import Seen, all_repairs
from app.work.statistics.question import Question
from app.work.statistics.steps import READING, Steps

T = tables.metadata.tables
_J, _U, _X, _L = T["jobs"].c, T["units"].c, T["trials"].c, T["labour"].c
AS_THEY_ARE = (
    By.TRANSPORT_TYPE,
    By.MAKER,
    By.MODEL,
    By.TECHNICIAN,
)  # names of the shop's own, in no catalogue

LABELS: dict[By, Callable[[Seen], str]] = {
    By.TRANSPORT_TYPE: lambda one: one.transport_type or UNKNOWN,
    By.FAULT_GROUP: lambda one: UNKNOWN if one.group is None else one.group,
    By.MODIFICATION: lambda one: WITH if one.modified else WITHOUT,
}


@dataclass(frozen=True, slots=True)
class Ground:
    """``each`` repair handed back that passes the filters, to be gone through once. ``first`` and ``last`` are the days
    of handing back that the book has, whatever was asked. ``names`` tells labels that are ids."""

    question: Question
    each: Iterator[Seen]
    label: Callable[[Seen], str]
    names: Mapping[str, Sentence]
    today: date
    first: date | None
    last: date | None

    def standing(self, one: Seen) -> Standing:
        """Where one repair stands under the question's definition."""
        asked = self.question
        return stands(
            one.handed_back,
            one.outcome,
            one.group,
            self.today,
            one.next_in,
            one.next_groups,
            asked.window,
            asked.same_group,
            asked.definition.counted,
        )

    def name(self, label: str) -> Value:
        """A label as people say it: words for the catalogue as a sentence, the shop's own names as they stand."""
        if label in self.names:
            return self.names[label]
        if label != UNKNOWN and (self.question.by in AS_THEY_ARE or self.question.by is By.CHANGE):
            return label
        return Sentence(label)


def ground_of(book: Book, question: Question, steps: Steps | None = None) -> Ground:
    """The repairs that the question is about."""
    if steps is not None:
        steps.next(READING)
    with book.ask() as session:
        only = matching(session, question)
        types = arrangements(session)
        label, names = _labels(session, question.by, types)
    repairs = all_repairs(
        book,
        same_group=question.same_group,
        followed=question.followed,
        since=question.since or date.min,
        until=question.until or date.max,
        group=question.group,
    )
    each = repairs.each
    if only is not None:
        each = (one for one in each if one.job_id in only)
    if question.transport_type:
        each = (one for one in each if one.transport_type == question.transport_type)
    if question.arrangement is not None:
        each = (one for one in each if types.get(one.transport_type) is question.arrangement)
    if question.modified is not None:
        each = (one for one in each if one.modified is question.modified)
    return Ground(question, each, label, names, book.today(), repairs.first, repairs.last)


def matching(session: Session, question: Question) -> frozenset[int] | None:
    """The keys of the jobs that pass the filters that only SQL knows; None where none of them is set."""
    filters = []
    if question.maker:
        filters.append(_U.maker == question.maker)
    if question.model:
        filters.append(_U.model == question.model)
    if question.change:
        tried = select(_X.job_id).where(_X.change == question.change, _X.struck_at.is_(None))
        filters.append(_J.id.in_(tried))
    if question.technician is not None:
        worked = union(
            select(_X.job_id).where(_X.by == question.technician, _X.struck_at.is_(None)),
            select(_L.job_id).where(_L.by == question.technician, _L.struck_at.is_(None)),
        )
        filters.append(_J.id.in_(worked))
    if not filters:
        return None
    found = select(_J.id).join(T["units"], _U.id == _J.unit_id).where(*filters)
    return frozenset(session.scalars(found))


def arrangements(session: Session) -> dict[str, Arrangement]:
    """The arrangement of each transport type, by its name."""
    rows = session.execute(select(tables.TransportType.name, tables.TransportType.arrangement))
    return dict(rows.all())


def _labels(
    session: Session, by: By, types: Mapping[str, Arrangement]
) -> tuple[Callable[[Seen], str], dict[str, Sentence]]:
    """What gives a repair its label, and names for labels that are ids."""
    if by in LABELS:
        return LABELS[by], {}
    if by is By.ARRANGEMENT:
        return (lambda one: types.get(one.transport_type) or UNKNOWN), {}
    names: dict[str, Sentence] = {}
    if by is By.CHANGE:
        names = {key: change.name for key, change in knowledge_of(session).knowledge.changes.items()}
    of_job: dict[int, str] = dict(session.execute(_SAID[by]).all())
    return (lambda one: of_job.get(one.job_id) or UNKNOWN), names


def _of_unit(column: str) -> Select[Any]:
    return select(_J.id, _U[column]).join(T["units"], _U.id == _J.unit_id)


_HELPED = (TrialOutcome.CURED, TrialOutcome.BETTER)
# Of several rows of a job the last counts: the technician of its last trial, the last change that helped.
_SAID: dict[By, Select[Any]] = {
    By.MAKER: _of_unit("maker"),
    By.MODEL: select(_J.id, _U.maker + " " + _U.model).join(T["units"], _U.id == _J.unit_id),
    By.CAUSE: select(_J.id, type_coerce(_J.cause, Text)).where(_J.cause.is_not(None)),
    By.CHANGE: select(_X.job_id, case((_X.change != "", _X.change), else_=_X.words))
    .where(_X.struck_at.is_(None), _X.outcome.in_(_HELPED))
    .order_by(_X.job_id, _X.number),
    By.TECHNICIAN: select(_X.job_id, T["staff"].c.name)
    .join(T["staff"], T["staff"].c.id == _X.by)
    .where(_X.struck_at.is_(None))
    .order_by(_X.job_id, _X.number),
}
