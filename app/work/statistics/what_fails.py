"""What fails on what: fault groups and causes by how often, per group of jobs, and which cure met which rung."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sqlalchemy import Text, select, type_coerce

from app.book.bench.knowledge_data import knowledge_of
from app.book.door import Book
from app.book.tables import Job, Trial
from app.trade.bench.stages import TrialOutcome
from app.trade.sentence import Sentence, Value, words
from app.trade.statistics.comebacks import UNKNOWN
from app.trade.statistics.pareto import pareto
from app.work.statistics.answer import Answer, Why, nothing_found, set_aside
from app.work.statistics.ground import ground_of
from app.work.statistics.question import Question
from app.work.statistics.steps import Step, Steps

FAULT_GROUP, CAUSE = words("fault group"), words("cause found")
TO_THE_END = Sentence("played to the end")  # its fault was none of the start-up


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
    ground = ground_of(book, question, Steps(step, 4))
    with book.ask() as session:
        asked = select(Job.id, type_coerce(Job.cause, Text)).where(Job.cause.is_not(None))
        causes: dict[int, str] = dict(session.execute(asked).all())
        cures = session.execute(
            select(Trial.job_id, Trial.rung_before, Trial.change, Trial.words)
            .where(
                Trial.struck_at.is_(None),
                Trial.outcome == TrialOutcome.CURED,
            )
            .order_by(Trial.job_id, Trial.number)
        ).all()
        known = knowledge_of(session)
        names = {key: change.name for key, change in known.knowledge.changes.items()}
        rungs = {rung.number: rung.name(question.arrangement) for rung in known.ladder.rungs}
    found: defaultdict[str, dict[str, defaultdict[str, list[int]]]] = defaultdict(
        lambda: {FAULT_GROUP: defaultdict(list), CAUSE: defaultdict(list)}
    )
    sizes: defaultdict[str, int] = defaultdict(int)
    inside = set()
    for one in ground.each:
        label = ground.label(one)
        sizes[label] += 1
        inside.add(one.job_id)
        found[label][FAULT_GROUP][UNKNOWN if one.group is None else one.group.value].append(one.job_id)
        found[label][CAUSE][causes.get(one.job_id) or UNKNOWN].append(one.job_id)
    rows = tuple(
        row
        for label in sorted(sizes, key=lambda label: (-sizes[label], label))
        for of, jobs in found[label].items()
        for row in _bars(label, ground.name(label), of, jobs)
    )
    cured = [
        (job, rung, change, typed) for job, rung, change, typed in cures if rung is not None and job in inside
    ]
    grid = _grid(cured, names, rungs)
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


def _bars(label: str, name: Value, of: str, jobs: Mapping[str, Sequence[int]]) -> list[ParetoRow]:
    return [
        ParetoRow(
            label, name, of, Sentence(bar.label), bar.count, bar.share, bar.reached, tuple(jobs[bar.label])
        )
        for bar in pareto({word: len(keys) for word, keys in jobs.items()})
    ]


def _grid(
    cures: Sequence[tuple[int, int, str, str]], names: Mapping[str, Sentence], rungs: Mapping[int, Sentence]
) -> tuple[CureCell, ...]:
    cells: defaultdict[tuple[int, str], set[int]] = defaultdict(set)
    for job, before, change, typed in cures:
        cells[before + 1, change or typed].add(job)
    return tuple(
        CureCell(
            rung,
            rungs.get(rung, TO_THE_END),
            change,
            names.get(change, change),
            len(jobs),
            tuple(sorted(jobs)),
        )
        for (rung, change), jobs in sorted(
            cells.items(), key=lambda one: (one[0][0], -len(one[1]), one[0][1])
        )
    )


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
