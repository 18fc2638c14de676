"""What closed jobs of the same type that stopped at the same rung showed to be the cause."""

from __future__ import annotations

from typing import Any

import pytest

from app.trade.bench.modifications import Circuit, Kind
from app.trade.bench.stages import CauseFound, Outcome, TrialOutcome
from app.work.bench.findings import Findings, findings_of, record_findings
from app.work.bench.modifications import ModificationEntry, record_modification, reverse_modification
from tests.work.bench.test_ranking import SAY, card, tried


def closed(bench: Any, change: str, cause: CauseFound, outcome: Outcome, *, modified: bool = False) -> None:
    """The job ends, cured by a change; the same player comes again."""
    bench.climb(10)
    trial = tried(bench, change, TrialOutcome.CURED)
    if modified:
        entry = ModificationEntry(
            kind=Kind.MECHANICAL, circuit=Circuit.MECHANICS, where="arm stop", was="as made", now="shim of 0.1 mm",
            trial_id=trial,
        )  # fmt: skip
        number = record_modification(bench.book, bench.tobbe, bench.job, entry).value.id
        reverse_modification(bench.book, bench.tobbe, number, bench.job)
        bench.make_safe()
    page = findings_of(bench.book, bench.job)
    found = Findings(cause=cause, finals_reason="seen by Tobbe")
    record_findings(bench.book, bench.tobbe, bench.job, found, version=page.version)
    bench.close(outcome)
    bench.come_again(days=30)


def test_the_closed_jobs_of_the_shop_count(bench: Any) -> None:
    closed(bench, "arm_clean", CauseFound.GREASE, Outcome.MENDED)
    bench.climb(10)
    found = card(bench)
    assert found.jobs == 1
    line = found.lines[0]
    assert line.id == "arm_drag"
    assert SAY(line.why[0]) == (
        "The ladder gives it 24 in 100; it was the cause in 1 of 1 closed jobs of this type that stopped here: "
        "together 28 in 100."
    )
    assert (line.jobs, line.all_jobs) == (1, 1)
    # Newcombe 1998, method 3: 1 of 1 lies between 20.7 % and 100 %.
    assert [round(end, 3) for end in line.interval] == [0.207, 1.0]
    # On another rung they say nothing.
    for rung in (11, 9):
        bench.later(minutes=1)
        bench.climb(rung)
        assert card(bench).jobs == 0
    assert card(bench).lines[0].interval == (0.0, 1.0)


@pytest.mark.parametrize(
    ("change", "cause", "modified"),
    [
        ("arm_clean", CauseFound.NOT_ESTABLISHED, False),
        ("arm_clean", CauseFound.GREASE, True),
        ("transport_swap", CauseFound.WORN, False),
    ],
)
def test_a_job_that_established_nobody_does_not_count(
    bench: Any, change: str, cause: CauseFound, modified: bool
) -> None:
    closed(bench, change, cause, Outcome.MENDED, modified=modified)
    bench.climb(10)
    assert card(bench).jobs == 0


def test_of_several_cures_the_last_one_tells_the_cause(bench: Any) -> None:
    bench.climb(10)
    tried(bench, "flex_renew", TrialOutcome.CURED)
    closed(bench, "arm_clean", CauseFound.GREASE, Outcome.MENDED)
    bench.climb(10)
    found = card(bench)
    assert found.jobs == 1
    assert [line.id for line in found.lines if line.jobs] == ["arm_drag"]
