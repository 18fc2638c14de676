"""Climbs before and after a trial, those since the first one, and when a cure is shown."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from app.trade.bench.climbs import Climbed, ClimbsAround, TrialMade, climbs_around, since_first
from app.trade.bench.kinds import HowSeen, Warmth
from app.trade.bench.start_up import StartUpResult
from app.trade.wording import plain

SAY = plain(UTC)
MORNING = datetime(2026, 11, 24, 9, tzinfo=UTC)
COLD, WARM, BETWEEN = Warmth.COLD, Warmth.WARM, Warmth.BETWEEN


def climb(minute: int, rung: int, warmth: Warmth = BETWEEN, **more: Any) -> Climbed:
    trial, before = more.pop("trial", None), more.pop("before", False)
    result = StartUpResult(rung=rung, warmth=warmth, **{"tries": 1, "stopped_in": int(rung < 12), **more})
    return Climbed(at=MORNING + timedelta(minutes=minute), result=result, trial=trial, before=before)


def trial(number: int, minute: int, key: int | None = None) -> TrialMade:
    return TrialMade(id=key or number, number=number, at=MORNING + timedelta(minutes=minute))


FIRST, SECOND = trial(1, 10), trial(2, 60)
BOTH = [FIRST, SECOND]


def around(made: TrialMade, *climbs: Climbed) -> ClimbsAround:
    return climbs_around(made, BOTH, climbs)


def test_a_cure_is_shown_by_a_cold_start_and_half_an_hour_of_play() -> None:
    # bench.md section 4: after 30 minutes' play and a cold start.
    start = climb(0, 10, COLD)
    assert not around(FIRST, start, climb(20, 12, COLD)).held
    assert not around(FIRST, start, climb(20, 12, COLD), climb(30, 12, warm_minutes=29)).held
    assert around(FIRST, start, climb(20, 12, COLD), climb(30, 12, warm_minutes=30)).held
    assert around(FIRST, start, climb(20, 12, COLD), climb(30, 12, WARM)).held
    assert not around(FIRST, start, climb(20, 10, COLD), climb(30, 12, WARM)).held  # no further when cold


def test_what_is_climbed_behind_the_next_trial_shows_no_cure_of_this_one() -> None:
    start, cold, warm = climb(0, 10), climb(20, 12, COLD), climb(70, 12, WARM)
    assert not around(FIRST, start, cold, warm).held
    assert around(FIRST, start, cold, climb(70, 12, WARM, trial=1)).held  # said to be its own
    assert around(SECOND, start, climb(50, 10), climb(70, 12, COLD), climb(80, 12, WARM)).held


def test_a_later_stop_takes_a_shown_cure_back() -> None:
    seen = [climb(0, 10), climb(20, 12, COLD), climb(30, 12, WARM)]
    assert around(FIRST, *seen).held
    assert not around(FIRST, *seen, climb(40, 10, COLD)).held


def test_before_is_what_was_climbed_since_the_trial_before_it() -> None:
    climbs = [climb(0, 10), climb(20, 11), climb(50, 9, WARM), climb(70, 12)]
    found = around(SECOND, *climbs)
    assert (found.rung_before, found.rung_after) == (9, 12)
    assert around(SECOND, climbs[0], climbs[3]).rung_before == 10  # nothing since: the last one stands
    assert around(FIRST, climb(70, 12)).rung_before is None
    assert around(FIRST, climb(0, 10)).pairs == ()
    assert not around(FIRST, climb(20, 12, COLD)).held


def test_a_climb_of_a_trial_is_its_own_and_nobody_elses() -> None:
    own = climb(65, 7, trial=1, before=True)
    found = around(FIRST, climb(0, 10), own, climb(20, 8, trial=9))
    assert (found.rung_before, found.rung_after) == (7, None)
    unkept = TrialMade(id=None, number=2, at=SECOND.at)
    assert climbs_around(unkept, [FIRST], [climb(20, 11)]).rung_before == 11


def test_like_is_compared_with_like_else_the_last_with_the_last() -> None:
    alike = around(FIRST, climb(0, 10, COLD), climb(5, 12, WARM), climb(20, 11, COLD))
    assert [(pair.before.rung, pair.after.rung) for pair in alike.pairs] == [(10, 11)]
    unlike = around(FIRST, climb(0, 10, COLD), climb(5, 12, WARM), climb(20, 11))
    assert [(pair.before.rung, pair.after.rung) for pair in unlike.pairs] == [(12, 11)]


def told(*climbs: Climbed) -> tuple[int, str] | None:
    found = since_first([one.result for one in climbs])
    return None if found is None else (found[0], SAY(found[1]))


def test_the_last_test_of_a_job_stands_beside_the_first_one_alike_with_its_p() -> None:
    # bench.md section 2: 4 of 5 to 0 of 5 gives p 0.0238 (1/42), 3 of 3 to 0 of 3 gives 0.0500 (1/20).
    four = climb(0, 10, COLD, tries=5, stopped_in=4)
    assert told(climb(0, 9, WARM), four, climb(20, 12, COLD, tries=5)) == (
        1,
        "Rung 10 to 12 of 12. It stopped in 4 of 5 tries before, in 0 of 5 after (p 0.0238).",
    )
    three = climb(0, 10, tries=3, stopped_in=3)
    found = told(three, climb(10, 11, tries=3, stopped_in=3), climb(20, 12, tries=3))
    assert found is not None
    assert found[0] == 0
    assert found[1].endswith("(p 0.0500).")


@pytest.mark.parametrize(
    "climbs",
    [
        (),
        (climb(0, 10),),
        (climb(0, 10, COLD), climb(20, 12, WARM)),
        (climb(0, 10), climb(20, 12, seen=HowSeen.TEST_MODE)),
        (climb(0, 10, seen=HowSeen.SINGLE_STEP), climb(20, 12)),
    ],
)
def test_without_two_alike_in_normal_use_there_is_nothing_to_compare(climbs: tuple[Climbed, ...]) -> None:
    assert told(*climbs) is None
