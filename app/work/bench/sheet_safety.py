"""Safety tests on the job sheet."""

from __future__ import annotations

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.bench.safety_facts import safety_tests_of as facts_of_tests
from app.book.tables import SafetyStep, SafetyTest
from app.trade.bench.bound import Bound
from app.trade.bench.safety_test import Step, shown, shown_limit
from app.trade.bench.verdict import Limit
from app.work.bench.job_sheet import SafetyStepLine, SafetyTestLine


def safety_tests_of(session: Session, unit_id: int, staff: dict[int, str]) -> tuple[SafetyTestLine, ...]:
    """Every test of the unit with its steps, and whether it counts."""
    facts = facts_of_tests(session, unit_id, staff)
    rows = session.scalars(
        select(SafetyTest).where(SafetyTest.unit_id == unit_id).order_by(SafetyTest.at, SafetyTest.id)
    ).all()
    steps: dict[int, list[SafetyStepLine]] = {row.id: [] for row in rows}
    for step in session.scalars(
        select(SafetyStep).where(SafetyStep.test_id.in_(steps)).order_by(SafetyStep.position)
    ):
        steps[step.test_id].append(_line(step))
    return tuple(
        SafetyTestLine(
            row.id,
            row.job_id,
            row.at,
            staff[row.by],
            fact.edition,
            row.result,
            fact.counts,
            tuple(steps[row.id]),
        )
        for row, fact in zip(rows, facts, strict=True)
    )


def _line(row: SafetyStep) -> SafetyStepLine:
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
