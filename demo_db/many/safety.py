"""Safety tests of a large book, judged by the rules; few values are ever typed, so each is judged once."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from decimal import Decimal
from functools import cache
from typing import Any

from app.book.bench.catalogue import shipped_quantities
from app.trade.bench.safety_limits import SafetyLimits
from app.trade.bench.safety_test import Meets, Step, StepReading, TestResult, evaluate_test
from app.trade.bench.stages import MainsClass
from app.trade.bench.typed_value import parse_value
from demo_db.plan import PlannedJob

CORD = Decimal(2)
Typed = tuple[tuple[Step, str], ...]


def typed_of(job: PlannedJob, mains: MainsClass) -> Typed:
    """What the tester types for a player of this class."""
    if mains is MainsClass.I:
        return (
            (Step.PE_RESISTANCE, job.earth),
            (Step.INSULATION, job.insulation),
            (Step.PE_CURRENT, job.leakage),
            (Step.TOUCH_CURRENT, "0.02"),
        )
    return (Step.INSULATION, job.insulation), (Step.TOUCH_CURRENT, job.leakage)


class Tester:
    """Tests under the standard that the shop entered."""

    def __init__(self, limits: SafetyLimits, by: int, instrument: int) -> None:
        self._limits = limits
        self._by = by
        self._instrument = instrument
        self._judged = cache(self._judge)

    def test(self, mains: MainsClass, typed: Typed, closed: datetime) -> tuple[dict[str, Any], TestResult]:
        """The columns of the test but for job and unit, and what it says."""
        result = self._judged(mains, typed)
        columns = {
            "mains_class": mains,
            "standard": self._limits.standard.strip(),
            "edition": self._limits.edition.strip(),
            "instrument_id": self._instrument,
            "result": result.overall.value,
            "case_closed_at": closed,
            "cord_metres": CORD,
            "cord_mm2": None,
            "at": closed,
            "by": self._by,
        }
        return columns, result

    def _judge(self, mains: MainsClass, typed: Typed) -> TestResult:
        readings = [StepReading(step, in_order=True) for step in (Step.VISUAL, Step.FUNCTION)]
        for step, text in typed:
            quantity = shipped_quantities()[step.value]
            value = parse_value(text, quantity.entry)
            assert value.value is not None
            readings.append(
                StepReading(step, value.value, quantity.uncertainty([value.value]).u, value.bound)
            )
        return evaluate_test(mains, self._limits, readings, cord_metres=CORD)


def steps_of(result: TestResult, typed: Typed) -> Iterator[dict[str, Any]]:
    """The columns of each step but for its test."""
    words = dict(typed)
    for position, step in enumerate(result.steps):
        if step.meets is Meets.NOT_APPLICABLE:
            continue
        reading = step.reading
        yield {
            "position": position,
            "step": step.step.value,
            "typed": words.get(step.step, ""),
            "value": reading.value if reading else None,
            "bound": reading.bound.value if reading else "",
            "uncertainty": float(reading.u) if reading and reading.value is not None else None,
            "limit_low": step.limit.low if step.limit else None,
            "limit_high": step.limit.high if step.limit else None,
            "meets": {Meets.YES: True, Meets.NO: False}.get(step.meets),
            "shop_verdict": step.verdict.word.value if step.verdict else "",
            "probability": step.verdict.probability if step.verdict else None,
        }
