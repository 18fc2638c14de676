"""What the fault turned out to be."""

from __future__ import annotations

from typing import Any

import pytest

from app.trade.bench.kinds import FaultGroup
from app.trade.bench.stages import CauseFound, Outcome
from app.trade.refusal import FieldRefusal, Refusal, StaleRow
from app.work.bench.findings import Findings, findings_of, record_findings


def decide(bench: Any, findings: Findings, version: int | None = None) -> Any:
    seen = findings_of(bench.book, bench.job).version if version is None else version
    return record_findings(bench.book, bench.tobbe, bench.job, findings, version=seen)


def test_nothing_is_decided_and_nothing_proposed_before_the_first_test(bench: Any) -> None:
    page = findings_of(bench.book, bench.job)
    assert page.findings == Findings()
    assert page.proposed is None
    assert [group for group, _ in page.meanings] == list(FaultGroup)


def test_the_first_rung_not_reached_on_arrival_proposes_the_group(bench: Any) -> None:
    # bench.md section 6: rung 11 (long seek) is radial; common practice, no source.
    bench.climb(10)
    bench.climb(12)
    assert findings_of(bench.book, bench.job).proposed is FaultGroup.RADIAL


def test_a_player_that_plays_to_the_end_proposes_other(bench: Any) -> None:
    bench.climb(12)
    assert findings_of(bench.book, bench.job).proposed is FaultGroup.OTHER


def test_what_is_decided_stands_on_the_sheet_and_in_history(bench: Any) -> None:
    decided = Findings(
        fault_group=FaultGroup.RADIAL,
        cause=CauseFound.DIRT,
        cause_note="dust in the arm bearing",
        outcome=Outcome.MENDED,
        finals_reason="meter is away for calibration",
    )
    changes = decide(bench, decided).changes
    assert bench.job in changes.jobs
    sheet = bench.sheet
    assert (sheet.fault_group, sheet.cause, sheet.outcome) == (
        FaultGroup.RADIAL,
        CauseFound.DIRT,
        Outcome.MENDED,
    )
    assert findings_of(bench.book, bench.job).findings == decided
    assert bench.gate("final_missing").done


def test_what_was_decided_can_be_taken_back(bench: Any) -> None:
    decide(bench, Findings(fault_group=FaultGroup.LIGHT))
    decide(bench, Findings())
    assert bench.sheet.fault_group is None


def test_the_second_saver_is_told_and_overwrites_nothing(bench: Any) -> None:
    seen = findings_of(bench.book, bench.job).version
    decide(bench, Findings(fault_group=FaultGroup.LIGHT))
    with pytest.raises(StaleRow):
        decide(bench, Findings(fault_group=FaultGroup.SOUND), version=seen)
    assert bench.sheet.fault_group is FaultGroup.LIGHT


@pytest.mark.parametrize("field", ["cause_note", "finals_reason"])
def test_a_text_that_is_too_long_is_refused_at_its_field(bench: Any, field: str) -> None:
    with pytest.raises(FieldRefusal) as refused:
        decide(bench, Findings(**{field: "x" * 500}))
    assert list(refused.value.fields) == [field]


def test_the_findings_of_a_closed_job_stand(bench: Any) -> None:
    bench.close()
    with pytest.raises(Refusal, match="closed"):
        decide(bench, Findings(fault_group=FaultGroup.LIGHT))
