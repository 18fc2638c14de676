"""Which visits pass the filters of a question, also those that are still in the shop."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from sqlalchemy import ColumnElement, Select, select
from sqlalchemy.orm import Session

from app.book import tables
from app.work.statistics.columns import columns_of
from app.work.statistics.labels import arrangements, players_of
from app.work.statistics.question import Question
from app.work.statistics.steps import Steps
from app.work.statistics.visits import GROUPS, Visits

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Marks = NDArray[np.bool_]

_X, _L = tables.metadata.tables["trials"].c, tables.metadata.tables["labour"].c


def in_period(question: Question, visits: Visits) -> Iterator[Marks]:
    """The visits of the period asked for, and those that left, or did not leave, a modification inside."""
    if question.since is not None:
        yield visits.left >= question.since.toordinal()
    if question.until is not None:
        yield visits.left <= question.until.toordinal()
    if question.modified is not None:
        yield visits.modified == question.modified


def passing(session: Session, question: Question, visits: Visits, steps: Steps) -> Marks | None:
    """Which visits, also of jobs still open, pass the filters that act on both; None where none of them is set. The
    transport is the one inside when the player was handed back, else now."""
    import numpy as np

    found = []
    if question.group is not None:
        found.append(visits.group == GROUPS.index(question.group))
    if question.transport_type:
        found.append(np.array([name == question.transport_type for name in visits.kinds])[visits.kind])
    if question.arrangement is not None:
        types = arrangements(session)
        found.append(
            np.array([types.get(name) is question.arrangement for name in visits.kinds])[visits.kind]
        )
    for part, wanted in (("maker", question.maker), ("model", question.model)):
        if wanted:
            code, texts = players_of(session, visits, part)
            found.append(np.array([text == wanted for text in texts], dtype=bool)[code])
    tried, worked = _X.struck_at.is_(None), _L.struck_at.is_(None)
    if question.change:
        asked = select(_X.job_id).where(_X.change == question.change, tried)
        found.append(_has(session, visits, steps, (_X.id, asked)))
    if question.technician is not None:
        found.append(
            _has(
                session,
                visits,
                steps,
                (_X.id, select(_X.job_id).where(_X.by == question.technician, tried)),
                (_L.id, select(_L.job_id).where(_L.by == question.technician, worked)),
            )
        )
    return np.logical_and.reduce(found) if found else None


def _has(
    session: Session, visits: Visits, steps: Steps, *asked: tuple[ColumnElement[int], Select[Any]]
) -> Marks:
    """The visits whose job is in one of these answers, each with the key of its table."""
    import numpy as np

    marks = np.zeros(len(visits.job), dtype=bool)
    for key, statement in asked:
        (jobs,) = columns_of(session, key, statement, steps.still)
        marks[visits.places(jobs)] = True
    return marks
