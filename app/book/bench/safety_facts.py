"""Case events and safety tests of a unit's whole life here, as facts for the rules."""

from __future__ import annotations

from decimal import Decimal

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.tables import CaseEvent, Job, SafetyStep, SafetyTest, StaffMark
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


def case_events_of(session: Session, unit_id: int, staff: dict[int, str]) -> tuple[facts.CaseEvent, ...]:
    """Opened and closed, over all jobs of the unit, in the order of time."""
    return tuple(
        facts.CaseEvent(
            CaseStep.OPENED if row.opened else CaseStep.CLOSED, row.at, staff[row.by], number, row.assumed
        )
        for row, number in session.execute(
            select(CaseEvent, Job.number)
            .join(Job, Job.id == CaseEvent.job_id)
            .where(Job.unit_id == unit_id)
            .order_by(CaseEvent.at, CaseEvent.id)
        )
    )


def safety_tests_of(
    session: Session, unit_id: int, staff: dict[int, str]
) -> tuple[facts.SafetyTestFact, ...]:
    """Every electrical safety test of the unit, in the order of time."""
    tests = session.scalars(
        select(SafetyTest).where(SafetyTest.unit_id == unit_id).order_by(SafetyTest.at, SafetyTest.id)
    ).all()
    if not tests:
        return ()
    failed: dict[int, list[facts.FailedStep]] = {test.id: [] for test in tests}
    for step in session.scalars(
        select(SafetyStep)
        .where(SafetyStep.test_id.in_(failed), SafetyStep.meets.is_(False))
        .order_by(SafetyStep.position)
    ):
        failed[step.test_id].append(_failed(step))
    marks = session.scalars(select(StaffMark).where(StaffMark.mark == Mark.COMPETENT)).all()
    return tuple(
        facts.SafetyTestFact(
            at=test.at,
            by=staff[test.by],
            passed=test.result == Overall.PASSED,
            edition=f"{test.standard} {test.edition}".strip(),
            competent=any(
                mark.staff_id == test.by
                and mark.dated <= test.at.date()
                and (mark.ends is None or test.at.date() <= mark.ends)
                for mark in marks
            ),
            instrument_overdue=test.instrument_overdue,
            failed=tuple(failed[test.id]),
        )
        for test in tests
    )


def _failed(step: SafetyStep) -> facts.FailedStep:
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
