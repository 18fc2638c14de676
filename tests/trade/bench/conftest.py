"""Facts of one job as the rules are given them: everything ordinary, until a test says otherwise."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.facts import CaseEvent, FailedStep, JobFacts, ReadingFact, SafetyTestFact
from app.trade.bench.modifications import Circuit, Kind, Law, Modification, Reversal
from app.trade.bench.stages import CaseStep, MainsClass, Moment, Stage
from app.trade.sentence import Measure, Sentence
from app.trade.wording import Wording, plain

START = datetime(2026, 11, 24, 9, 0, tzinfo=UTC)
JOB = 2131

Facts = Callable[..., JobFacts]
Make = Callable[..., Any]


@pytest.fixture
def at() -> Callable[[float], datetime]:
    """So many hours after the job was taken in."""
    return lambda hours: START + timedelta(hours=hours)


@pytest.fixture
def english() -> Wording:
    """Sentences as they stand."""
    return plain(UTC)


@pytest.fixture
def job() -> Facts:
    """A job on the bench with nothing to say about it."""

    def make(**given: Any) -> JobFacts:
        return JobFacts(
            **{
                "number": JOB,
                "today": date(2026, 11, 24),
                "stage": Stage.ON_THE_BENCH,
                "taken_in": START,
                "mains_class": MainsClass.II,
                "powered": True,
                "rung_final": 12,
            }
            | given
        )

    return make


@pytest.fixture
def modification(at: Callable[[float], datetime]) -> Make:
    """R314 5.6 for 6.8 ohm, our own, agreed and named on paper."""

    def make(**given: Any) -> Modification:
        return Modification(
            **{
                "number": 1,
                "job": JOB,
                "kind": Kind.REPLACED,
                "circuit": Circuit.RADIAL_COIL,
                "where": "R314",
                "law": Law.CURRENT,
                "maker_value": Decimal("6.8"),
                "new_value": Decimal("5.6"),
                "at": at(4),
                "agreed": "24 Nov 2026, telephone, Mirr",
                "named_on": "invoice 2026-0412",
            }
            | given
        )

    return make


@pytest.fixture
def unlawful(modification: Make) -> Make:
    """A change without numbers: fuse, wiring, interlock and the like."""

    def make(kind: Kind, circuit: Circuit, **given: Any) -> Modification:
        without: dict[str, Any] = {"law": Law.NEITHER, "maker_value": None, "new_value": None}
        made: Modification = modification(kind=kind, circuit=circuit, **(without | given))
        return made

    return make


@pytest.fixture
def put_back(at: Callable[[float], datetime]) -> Make:
    """The change was put back after so many hours."""
    return lambda hours=6.0, note="", tried=False: Reversal(at(hours), "Tobbe", note, tried)


@pytest.fixture
def reading(at: Callable[[float], datetime]) -> Make:
    """A reading of this job: quantity, value and unit; the rest as given."""

    def make(quantity: str, value: str, unit: str = "", hours: float = 1, **given: Any) -> ReadingFact:
        return ReadingFact(
            **{
                "quantity": quantity,
                "name": Sentence(quantity),
                "value": Measure(Decimal(value), unit),
                "moment": Moment.DURING,
                "at": at(hours),
            }
            | given
        )

    return make


@pytest.fixture
def final(reading: Make) -> Make:
    """A final reading."""
    return lambda *args, **given: reading(*args, **({"moment": Moment.FINAL, "hours": 8} | given))


@pytest.fixture
def opened(at: Callable[[float], datetime]) -> Make:
    """The case was opened after so many hours."""
    return lambda hours=1.0, number=JOB: CaseEvent(CaseStep.OPENED, at(hours), "Tobbe", number)


@pytest.fixture
def closed(at: Callable[[float], datetime]) -> Make:
    """The case was closed after so many hours."""
    return lambda hours=7.0, number=JOB: CaseEvent(CaseStep.CLOSED, at(hours), "Tobbe", number)


@pytest.fixture
def passed(at: Callable[[float], datetime]) -> Make:
    """A safety test passed after so many hours, by a competent person."""
    return lambda hours=9.0, **given: SafetyTestFact(
        **({"at": at(hours), "by": "Sanna", "passed": True, "edition": "EN 50678:2020"} | given)
    )


@pytest.fixture
def failed(passed: Make) -> Make:
    """A safety test that failed with these steps."""
    return lambda hours, *steps: passed(hours, passed=False, failed=steps)


@pytest.fixture
def earth_too_high() -> FailedStep:
    """Protective conductor 0.31 ohm against 0.30."""
    return FailedStep(
        "pe_resistance",
        Sentence("Protective conductor"),
        Measure(Decimal("0.31"), "Ω"),
        Measure(Decimal("0.30"), "Ω"),
    )
