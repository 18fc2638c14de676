"""Case events and safety tests of a unit's whole life here, as facts for the rules."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from sqlalchemy import Row

from app.book.bench.job_rows import JobRows
from app.trade.bench import facts
from app.trade.bench.safety_test import Overall, Step
from app.trade.bench.stages import CaseStep, Mark
from app.trade.sentence import Measure

_SHOWN = {
    Step.PE_RESISTANCE: (Decimal(1), "Ω"),
    Step.INSULATION: (Decimal("1e6"), "MΩ"),
    Step.PE_CURRENT: (Decimal("1e-3"), "mA"),
    Step.TOUCH_CURRENT: (Decimal("1e-3"), "mA"),
}


def case_events_of(rows: JobRows) -> tuple[facts.CaseEvent, ...]:
    """Opened and closed, over all jobs of the unit, in the order of time."""
    return tuple(
        facts.CaseEvent(
            CaseStep.OPENED if row.opened else CaseStep.CLOSED,
            row.at,
            rows.staff[row.by],
            row.job_number,
            row.assumed,
        )
        for row in rows.case_events
    )


def safety_tests_of(rows: JobRows) -> tuple[facts.SafetyTestFact, ...]:
    """Every electrical safety test of the unit, in the order of time."""
    if not rows.safety_tests:
        return ()
    failed: dict[int, list[facts.FailedStep]] = {test.id: [] for test in rows.safety_tests}
    all_passed = all(test.result == Overall.PASSED for test in rows.safety_tests)
    for step in () if all_passed else rows.safety_steps:
        if step.meets is False:
            failed[step.test_id].append(_failed(step))
    competent = [mark for mark in rows.marks if mark.mark is Mark.COMPETENT]
    return tuple(
        facts.SafetyTestFact(
            at=test.at,
            by=rows.staff[test.by],
            passed=test.result == Overall.PASSED,
            edition=f"{test.standard}:{test.edition}".strip(":"),
            competent=any(
                mark.staff_id == test.by
                and mark.dated <= test.at.date()
                and (mark.ends is None or test.at.date() <= mark.ends)
                for mark in competent
            ),
            instrument_overdue=test.instrument_overdue,
            failed=tuple(failed[test.id]),
        )
        for test in rows.safety_tests
    )


def _failed(step: Row[Any]) -> facts.FailedStep:
    kind = Step(step.step)
    limit = step.limit_high if step.limit_high is not None else step.limit_low
    if kind not in _SHOWN or step.value is None:
        return facts.FailedStep(step.step, kind.name_words)
    scale, unit = _SHOWN[kind]
    return facts.FailedStep(
        step.step,
        kind.name_words,
        Measure(step.value / scale, unit),
        None if limit is None else Measure(limit / scale, unit),
    )
