"""What fails on what, drawn: fault groups and causes from the most frequent down, and which cure met which rung."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence

from app.trade.sentence import Sentence
from app.trade.statistics.comeback_rates import per_cent
from app.trade.statistics.comebacks import UNKNOWN
from app.trade.statistics.pareto import pareto
from app.trade.statistics.picture import Axis, Bar, Bars, Cell, Grid, Panel, Scale
from app.work.statistics.pictures.said_of_marks import MOST_BARS, faint, first_of, jobs_counted
from app.work.statistics.what_fails import CAUSE, FAULT_GROUP, TO_THE_END, CureCell, ParetoRow, WhatFails

MOST_GROUPS = 4  # of jobs, each with bars of its own
MOST_CURES = 10  # columns of the grid


def panels_of_what_fails(answer: WhatFails) -> tuple[Panel, ...]:
    """Fault groups and causes of all jobs, the fault groups of each group of jobs, the grid of cures."""
    if not answer.rows:
        return ()
    labels = list(dict.fromkeys(row.label for row in answer.rows))
    panels: list[Panel] = [
        _bars(Sentence("Fault groups"), [row for row in answer.rows if row.of == FAULT_GROUP]),
        _bars(Sentence("Causes found"), [row for row in answer.rows if row.of == CAUSE]),
    ]
    if len(labels) > 1:
        for at, label in enumerate(labels[:MOST_GROUPS], start=1):
            rows = [row for row in answer.rows if row.label == label and row.of == FAULT_GROUP]
            values = {"name": rows[0].name, "at": at, "all": len(labels)}
            title = Sentence("Fault groups of {name} ({at} of {all})", values)
            panels.append(_bars(title, rows, f"{label} {FAULT_GROUP} "))
    if answer.grid:
        panels.append(_grid(answer.grid))
    return tuple(panels)


def _bars(title: Sentence, rows: Iterable[ParetoRow], before: str = "") -> Bars:
    """Counts over all rows; ``before`` stands before the keys of one group's bars."""
    jobs: defaultdict[str, list[int]] = defaultdict(list)
    counts: Counter[str] = Counter()
    for row in rows:
        jobs[row.found.key] += row.jobs
        counts[row.found.key] += row.count
    found = pareto(counts)
    bars = []
    for one in found[:MOST_BARS]:
        values = {"found": Sentence(one.label), "jobs": jobs_counted(one.count)}
        shares = {
            "share": per_cent(one.share, 1 if one.share < 0.01 else 0),
            "reached": per_cent(one.reached),
        }
        told = Sentence(
            "{found}: {jobs}, {share} of all; together with those before it {reached}.", {**values, **shares}
        )
        bars.append(
            Bar(
                key=before + one.label,
                name=Sentence(one.label),
                value=float(one.count),
                told=told,
                reached=one.reached,
                beside=Sentence("{count} ({share})", {"count": one.count, "share": shares["share"]}),
                ink=faint(one.label == UNKNOWN),
                jobs=tuple(jobs[one.label]),
            )
        )
    return Bars(
        title=first_of(title, len(bars), len(found)),
        axis=Axis(name=Sentence("jobs"), scale=Scale.COUNT, least=0.0),
        bars=tuple(bars),
    )


def _grid(cells: Sequence[CureCell]) -> Grid:
    """Rungs as on the ladder, the lowest at the foot; cures by how many jobs they cured."""
    cured: Counter[str] = Counter()
    for cell in cells:
        cured[cell.change] += cell.cured
    order = sorted(cured, key=lambda change: (-cured[change], change))
    columns = order[:MOST_CURES]
    inside = [cell for cell in cells if cell.change in columns]
    rungs = sorted({cell.rung for cell in inside}, reverse=True)
    names = {cell.change: cell.name for cell in inside}
    row_names = {cell.rung: _rung(cell) for cell in inside}
    return Grid(
        title=first_of(
            Sentence("Cures by the rung at which the player had stopped"), len(columns), len(order)
        ),
        rows_are=Sentence("stopped at"),
        columns_are=Sentence("cured by"),
        rows=tuple(row_names[rung] for rung in rungs),
        columns=tuple(names[change] for change in columns),
        cells=tuple(
            Cell(
                row=rungs.index(cell.rung),
                column=columns.index(cell.change),
                count=cell.cured,
                told=_told(cell),
                jobs=cell.jobs,
            )
            for cell in inside
        ),
    )


def _rung(cell: CureCell) -> Sentence:
    if cell.rung_name == TO_THE_END:
        return cell.rung_name
    return Sentence("{rung} {name}", {"rung": cell.rung, "name": cell.rung_name})


def _told(cell: CureCell) -> Sentence:
    values = {"jobs": jobs_counted(cell.cured), "cure": cell.name}
    if cell.rung_name == TO_THE_END:
        return Sentence("{cure}: {jobs} cured that had played to the end.", values)
    return Sentence("{cure}: {jobs} cured that had stopped at rung {rung}.", {**values, "rung": _rung(cell)})
