"""What fails on what as tables: fault groups and causes by how often, and which change cured at which rung."""

from __future__ import annotations

from collections import defaultdict

from app.trade.sentence import Sentence
from app.trade.statistics.pareto import pareto
from app.trade.statistics.table import Column, Line, Shape, Table
from app.work.statistics.tables.heads import named
from app.work.statistics.what_fails import CAUSE, FAULT_GROUP, TO_THE_END, CureCell, WhatFails

_OF = (
    (FAULT_GROUP, Sentence("Fault groups"), Sentence("Fault group")),
    (CAUSE, Sentence("Causes found"), Sentence("Cause found")),
)


def failing_tables(answer: WhatFails) -> tuple[Table, ...]:
    """Fault groups and causes of all jobs, the same of each group, and cures by the rung at which a player had
    stopped."""
    whole = [_whole(answer, of, title, head) for of, title, head in _OF]
    parted = [_parted(answer, of, title, head) for of, title, head in _OF]
    several = len({row.label for row in answer.rows}) > 1
    return (*whole, *(parted if several else ()), _cures(answer))


def _columns(head: Sentence) -> tuple[Column, ...]:
    return (
        Column("found", head, Shape.WORDS),
        Column("count", Sentence("Jobs"), Shape.COUNT),
        Column("share", Sentence("Share"), Shape.SHARE),
        Column("reached", Sentence("Together"), Shape.SHARE, 1),
    )


def _whole(answer: WhatFails, of: str, title: Sentence, head: Sentence) -> Table:
    jobs: defaultdict[str, list[int]] = defaultdict(list)
    for row in answer.rows:
        if row.of == of:
            jobs[row.found.key] += row.jobs
    bars = pareto({word: len(keys) for word, keys in jobs.items()})
    lines = tuple(
        Line(bar.label, (Sentence(bar.label), bar.count, bar.share, bar.reached), tuple(jobs[bar.label]))
        for bar in bars
    )
    return Table(title, _columns(head), lines)


def _parted(answer: WhatFails, of: str, title: Sentence, head: Sentence) -> Table:
    lines = tuple(
        Line(
            f"{row.label} {row.of} {row.found.key}",
            (row.name, row.found, row.count, row.share, row.reached),
            row.jobs,
        )
        for row in answer.rows
        if row.of == of
    )
    by = Sentence("{what}, by {group}", {"what": title, "group": Sentence(answer.question.by.value)})
    return Table(by, (named(answer.question.by), *_columns(head)), lines)


def _cures(answer: WhatFails) -> Table:
    columns = (
        Column("rung", Sentence("Had stopped before"), Shape.WORDS),
        Column("change", Sentence("Cured by"), Shape.WORDS),
        Column("cured", Sentence("Jobs"), Shape.COUNT),
    )
    lines = tuple(
        Line(f"cure {cell.rung} {cell.change}", (_rung(cell), cell.name, cell.cured), cell.jobs)
        for cell in answer.grid
    )
    return Table(Sentence("What cured it"), columns, lines)


def _rung(cell: CureCell) -> Sentence:
    if cell.rung_name == TO_THE_END:
        return cell.rung_name
    return Sentence("{number}, {rung}", {"number": cell.rung, "rung": cell.rung_name})
