"""Safety tests on the job sheet."""

from __future__ import annotations

from typing import Any

from app.book.bench.job_rows import JobRows
from app.trade.bench.bound import Bound
from app.trade.bench.facts import SafetyTestFact
from app.trade.bench.safety_test import Step, shown, shown_limit
from app.trade.bench.verdict import Limit
from app.work.bench.sheet_lines import SafetyStepLine, SafetyTestLine


def safety_tests_of(rows: JobRows, facts: tuple[SafetyTestFact, ...]) -> tuple[SafetyTestLine, ...]:
    """Every test of the unit with its steps, and whether it counts."""
    steps: dict[int, list[SafetyStepLine]] = {row.id: [] for row in rows.safety_tests}
    for step in rows.safety_steps:
        steps[step.test_id].append(_line(step))
    return tuple(
        SafetyTestLine(
            row.id,
            row.job_id,
            row.at,
            rows.staff[row.by],
            fact.edition,
            row.result,
            fact.counts,
            tuple(steps[row.id]),
            rows.instruments[row.instrument_id].name if row.instrument_id else "",
            _note(row),
        )
        for row, fact in zip(rows.safety_tests, facts, strict=True)
    )


def _note(row: Any) -> str:
    """The note, with the cord by which the limit was chosen; figures with units are the same in every language."""
    cord = [
        f"{figure.normalize():f}\u00a0{unit}"
        for figure, unit in ((row.cord_metres, "m"), (row.cord_mm2, "mm²"))
        if figure is not None
    ]
    return "; ".join(part for part in (row.note, ", ".join(cord)) if part)


def _line(row: Any) -> SafetyStepLine:
    step = Step(row.step)
    limit = None
    if row.limit_low is not None or row.limit_high is not None:
        limit = shown_limit(step, Limit(row.limit_low, row.limit_high))
    return SafetyStepLine(
        step.name_words,
        None if row.value is None else shown(step, row.value, Bound(row.bound)),
        limit,
        row.meets,
        row.shop_verdict,
        row.probability,
    )
