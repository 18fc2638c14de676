"""What fails on what: fault groups and causes by how often, per group of jobs, and which cure met which rung."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book import tables
from app.book.bench.knowledge_data import knowledge_of
from app.book.door import Book
from app.book.kept import kept
from app.trade.bench.stages import TrialOutcome
from app.trade.sentence import Sentence, Value, words
from app.trade.statistics.comebacks import By
from app.trade.statistics.pareto import pareto
from app.work.statistics.answer import Answer, Why, nothing_found, set_aside
from app.work.statistics.columns import worded_columns
from app.work.statistics.ground import Ground, ground_in, parted
from app.work.statistics.labels import CHANGE, Labels, labels_of
from app.work.statistics.question import Question
from app.work.statistics.steps import Step, Steps

if TYPE_CHECKING:
    from app.work.statistics.ground import Whole

OF = 14  # parts of the work, as they are told where nothing was kept

FAULT_GROUP, CAUSE = words("fault group"), words("cause found")
TO_THE_END = Sentence("played to the end")  # its fault was none of the start-up
_X = tables.metadata.tables["trials"].c
_CURES = select(_X.job_id, _X.rung_before).where(
    _X.struck_at.is_(None), _X.outcome == TrialOutcome.CURED, _X.rung_before.is_not(None)
)
Cures: TypeAlias = "tuple[tuple[str, ...], list[Whole]]"


@dataclass(frozen=True, slots=True)
class ParetoRow:
    """One bar: of a group of jobs (``label``), its fault group or its cause (``of``), counted; shares from 0 to 1."""

    label: str
    name: Value
    of: str
    found: Sentence
    count: int
    share: float
    reached: float
    jobs: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class CureCell:
    """How many jobs that had stopped before ``rung`` were cured by one kind of change. ``rung_name`` are its words,
    those of an arrangement where only that was asked for."""

    rung: int
    rung_name: Sentence
    change: str
    name: Value
    cured: int
    jobs: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WhatFails(Answer):
    """The bars, the group with most jobs first and within it the largest first, and the grid of cures."""

    rows: tuple[ParetoRow, ...]
    grid: tuple[CureCell, ...]


def what_fails(book: Book, question: Question, step: Step | None = None) -> WhatFails:
    """Fault groups and causes of the jobs handed back."""
    steps = Steps(step, OF)
    with book.ask() as session:
        ground = ground_in(session, book, question, steps)
        parts = {
            FAULT_GROUP: labels_of(session, By.FAULT_GROUP, ground.visits, steps),
            CAUSE: labels_of(session, By.CAUSE, ground.visits, steps),
        }
        steps.next()
        cures = kept(session, "cures", lambda: _cures(session, steps), frozenset({"trials"}))
        steps.next()
        known = knowledge_of(session)
        names = {key: change.name for key, change in known.knowledge.changes.items()}
        rungs = {rung.number: rung.name(question.arrangement) for rung in known.ladder.rungs}
    sizes = {label: len(at) for label, at in ground.groups.items()}
    found = {
        label: {of: _jobs_of(ground, ground.groups[label], labels) for of, labels in parts.items()}
        for label in sorted(sizes, key=lambda label: (-sizes[label], label))
    }
    steps.next()
    rows = tuple(
        row
        for label, own in found.items()
        for of, jobs in own.items()
        for row in _bars(label, ground.name(label), of, jobs)
    )
    steps.next()
    grid = _grid(ground, cures, names, rungs)
    total = sum(sizes.values())
    return WhatFails(
        question=question,
        headline=_headline(found) if rows else nothing_found(ground.first is not None),
        said=(
            Sentence("A cure counts once for each job, with the rung at which it had stopped before it."),
            *set_aside(ground.wrong),
        ),
        why=Why(
            n=total,
            counted=Sentence("jobs handed back"),
            events=sum(cell.cured for cell in grid),
            events_are=Sentence("cures"),
            method=(Sentence("Counts sorted, with the share that they reach together (Pareto)."),),
            source=(),
        ),
        rows=rows,
        grid=grid,
    )


def _jobs_of(ground: Ground, at: Whole, labels: Labels) -> dict[str, list[int]]:
    """The jobs of these repairs by what ``labels`` say of them."""
    there = parted(labels.code[ground.rows[at]], labels.texts)
    return {word: ground.job[at[own]].tolist() for word, own in there.items()}


def _bars(label: str, name: Value, of: str, jobs: Mapping[str, Sequence[int]]) -> list[ParetoRow]:
    return [
        ParetoRow(
            label, name, of, Sentence(bar.label), bar.count, bar.share, bar.reached, tuple(jobs[bar.label])
        )
        for bar in pareto({word: len(keys) for word, keys in jobs.items()})
    ]


def _cures(session: Session, steps: Steps) -> Cures:
    """The changes that cured, and for each cure the place of its change, the job, and the rung before."""
    return worded_columns(session, _X.id, CHANGE, _CURES, steps.still)


def _grid(
    ground: Ground, cures: Cures, names: Mapping[str, Sentence], rungs: Mapping[int, Sentence]
) -> tuple[CureCell, ...]:
    """One cell for each rung and change that cured one of the jobs."""
    import numpy as np

    changes, (place, job, before) = cures
    inside = np.zeros(len(ground.visits.job), dtype=bool)
    inside[ground.rows] = True
    own = np.flatnonzero(inside[ground.visits.places(job)])
    cell = (before[own] + 1) * len(changes) + place[own]
    cells = []
    for code in np.unique(cell).tolist():
        rung, change = code // len(changes), changes[code % len(changes)]
        jobs = np.unique(job[own[cell == code]]).tolist()
        cells.append(
            CureCell(
                rung,
                rungs.get(rung, TO_THE_END),
                change,
                names.get(change, change),
                len(jobs),
                tuple(jobs),
            )
        )
    return tuple(sorted(cells, key=lambda cell: (cell.rung, -cell.cured, cell.change)))


def _headline(found: Mapping[str, Mapping[str, Mapping[str, Sequence[int]]]]) -> Sentence:
    """The fault group that most jobs had."""
    counts: defaultdict[str, int] = defaultdict(int)
    for parts in found.values():
        for word, jobs in parts[FAULT_GROUP].items():
            counts[word] += len(jobs)
    first = pareto(counts)[0]
    return Sentence(
        "Most often it was {group}: {count} of {n}",
        {"group": Sentence(first.label), "count": first.count, "n": sum(counts.values())},
    )
