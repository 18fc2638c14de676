"""What helped before, from a real book: other jobs of the transport type that had stopped at the same rung."""

from __future__ import annotations

from datetime import UTC
from typing import Any

import pytest

from app.trade.bench.changes import Leaves
from app.trade.bench.kinds import ComebackStanding, FaultGroup
from app.trade.bench.stages import Outcome, TrialOutcome
from app.trade.wording import plain
from app.work.bench.transports import take_out
from app.work.bench.trials import TrialEntry, record_trial
from app.work.bench.what_helped import NO_CLIMB, NO_TRANSPORT, PLAYS, WhatHelped, jobs_helped, what_helped
from tests.work.bench.past_jobs import Past

SAY = plain(UTC)
LIGHT = FaultGroup.LIGHT
CURED, BETTER, NONE, WORSE = (
    TrialOutcome.CURED,
    TrialOutcome.BETTER,
    TrialOutcome.NO_DIFFERENCE,
    TrialOutcome.WORSE,
)


@pytest.fixture
def past(bench: Any) -> Past:
    return Past(bench)


def answer(bench: Any, group: FaultGroup | None = None) -> WhatHelped:
    found = what_helped(bench.book, bench.job, group)
    assert isinstance(found, WhatHelped), found
    return found


def counts(bench: Any, group: FaultGroup | None = None) -> dict[str, tuple[int, int, int]]:
    return {
        line.counts.key: (line.counts.tried, line.counts.cured, line.counts.better)
        for line in answer(bench, group).lines
    }


def comebacks(bench: Any, key: str = "arm_clean") -> tuple[int, int]:
    line = next(line for line in answer(bench).lines if line.counts.key == key)
    return line.counts.came_back, line.counts.could


def test_it_says_why_there_is_nothing_to_compare(bench: Any) -> None:
    assert what_helped(bench.book, bench.job) == NO_CLIMB
    bench.climb(12)
    assert what_helped(bench.book, bench.job) == PLAYS
    bench.climb(10)
    assert "No trial of another job" in SAY(answer(bench).ground)
    take_out(bench.book, bench.tobbe, bench.job)
    assert what_helped(bench.book, bench.job) == NO_TRANSPORT


def test_only_judged_trials_of_this_type_and_rung_count_and_none_of_this_job(bench: Any, past: Past) -> None:
    past.job(past.player(), 300, ("flex_dress", NONE), ("arm_clean", CURED))
    past.job(past.player(), 290, ("arm_clean", BETTER))
    past.job(past.player(), 280, ("arm_clean", CURED), rung=9)
    past.job(past.player(past.other_type), 270, ("arm_clean", CURED))
    past.job(past.player(), 260, ("arm_clean", None))
    past.job(past.player(), 250, ("arm_clean", CURED), struck=True)
    bench.climb(10)
    entry = TrialEntry(change="flex_dress", words="Flex led anew", outcome=NONE)
    record_trial(bench.book, bench.tobbe, bench.job, entry)
    found = answer(bench)
    assert counts(bench) == {"arm_clean": (2, 1, 1), "flex_dress": (1, 0, 0)}
    assert (found.type_name, found.stop.key, found.window) == ("Velk A1", "long seek", 180)
    assert [(SAY(line.name), line.leaves, line.here) for line in found.lines] == [
        ("arm bearing cleaned", Leaves.NOTHING, False),
        ("flex led differently", Leaves.NOTHING, True),
    ]
    assert SAY(found.ground) == "Only 3 trials in 2 jobs: too few to lean on."


def test_the_same_change_twice_in_a_job_counts_once_by_its_last_outcome(bench: Any, past: Past) -> None:
    past.job(past.player(), 300, ("arm_clean", NONE), ("spring bent", NONE), ("arm_clean", CURED))
    past.job(past.player(), 200, ("Spring bent", WORSE))
    bench.climb(10)
    assert counts(bench) == {"arm_clean": (1, 1, 0), "words spring bent": (2, 0, 0)}
    own = answer(bench).lines[1]
    assert (SAY(own.name).casefold(), own.leaves) == ("spring bent", None)


def test_only_the_fault_group_asked_for(bench: Any, past: Past) -> None:
    past.job(past.player(), 300, ("arm_clean", CURED))
    past.job(past.player(), 290, ("clean_lens", CURED), group=LIGHT)
    bench.climb(10)
    assert counts(bench, LIGHT) == {"clean_lens": (1, 1, 0)}


def test_what_left_a_modification_is_counted(bench: Any, past: Past) -> None:
    past.job(past.player(), 300, ("coil_current", BETTER), modified=True, outcome=Outcome.MENDED_MODIFIED)
    bench.climb(10)
    (line,) = answer(bench).lines
    assert (line.counts.left, line.leaves) == (1, Leaves.MODIFICATION)


def test_comebacks_are_counted_as_on_their_own_page(bench: Any, past: Past) -> None:
    bench.climb(10)
    held = past.player()
    past.job(held, 400, ("arm_clean", CURED))
    assert comebacks(bench) == (0, 1)
    back = past.player()
    past.job(back, 390, ("arm_clean", CURED))
    past.job(back, 300, rung=11)
    assert comebacks(bench) == (1, 2)
    # too young, not mended, still here, no help: none of them counts
    past.job(past.player(), 100, ("arm_clean", CURED))
    young = past.player()
    past.job(young, 120, ("arm_clean", CURED))
    past.job(young, 60)
    past.job(past.player(), 410, ("arm_clean", CURED), outcome=Outcome.DECLINED)
    past.job(past.player(), 50, ("arm_clean", CURED), left=None)
    past.job(past.player(), 395, ("arm_clean", NONE))
    assert comebacks(bench) == (1, 2)
    # another fault, and a return after the window
    other = past.player()
    past.job(other, 385, ("arm_clean", CURED))
    past.job(other, 300, group=LIGHT)
    past.job(other, 290, group=LIGHT)
    late = past.player()
    past.job(late, 380, ("arm_clean", CURED))
    past.job(late, 192)
    assert comebacks(bench) == (1, 4)


def test_a_visit_that_is_open_counts_by_the_customer_s_words_unless_it_was_denied(
    bench: Any, past: Past
) -> None:
    bench.climb(10)
    open_, denied, silent = past.player(), past.player(), past.player()
    past.job(open_, 260, ("arm_clean", CURED))
    past.job(open_, 80, left=None, group=None, words=("skips",))
    former = past.job(denied, 260, ("arm_clean", CURED))
    past.job(
        denied,
        80,
        left=None,
        group=None,
        words=("skips",),
        comeback_of_id=former,
        comeback=ComebackStanding.DENIED,
    )
    past.job(silent, 260, ("arm_clean", CURED), group=None)
    past.job(silent, 80, left=None, group=None)
    assert comebacks(bench) == (1, 3)


def test_the_jobs_behind_a_row_those_that_came_back_first(bench: Any, past: Past) -> None:
    bench.climb(10)
    back = past.player()
    first = past.job(back, 390, ("arm_clean", CURED))
    past.job(back, 300)
    second = past.job(past.player(), 200, ("arm_clean", NONE), ("flex_dress", NONE))
    lines = jobs_helped(bench.book, answer(bench).question, "arm_clean")
    assert [(line.id, line.outcome, line.came_back) for line in lines] == [
        (first, CURED, True),
        (second, NONE, False),
    ]
    assert (lines[0].player, lines[0].customer) == ("Quellmar Larch 2", "Benedikt Arnsvik")
    assert lines[0].closed is Outcome.MENDED
    assert lines[0].words == "arm_clean"
