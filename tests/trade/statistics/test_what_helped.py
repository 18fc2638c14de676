"""Which changes helped before: counted by kind, ordered by the lower end of the interval, few said to be few."""

from __future__ import annotations

from datetime import UTC

import pytest
from statsmodels.stats.proportion import proportion_confint

from app.trade.bench.stages import TrialOutcome
from app.trade.statistics.comebacks import Standing
from app.trade.statistics.what_helped import Tried, ground, helped
from app.trade.wording import plain

SAY = plain(UTC)
CURED, BETTER, NONE, WORSE = (
    TrialOutcome.CURED,
    TrialOutcome.BETTER,
    TrialOutcome.NO_DIFFERENCE,
    TrialOutcome.WORSE,
)


def trials(change: str, cured: int, tried: int, better: int = 0) -> list[Tried]:
    outcomes = [CURED] * cured + [BETTER] * better
    return [Tried(change, "", one) for one in outcomes + [NONE] * (tried - len(outcomes))]


def test_the_table_of_the_drawing_is_ordered_by_the_lower_end() -> None:
    # look/screens/job-sheet-trials-light.png: 4 of 4 is 51 to 100 %, 8 of 13 36 to 82, 4 of 9 19 to 73,
    # 1 of 2 9 to 91, 2 of 9 6 to 55, 0 of 6 0 to 39, 0 of 5 0 to 43.
    counts = {
        "radial_set": (0, 5, 0, 43),
        "resolder": (0, 6, 0, 39),
        "flex_dress": (2, 9, 6, 55),
        "driver_renew": (1, 2, 9, 91),
        "coil_current": (4, 9, 19, 73),
        "arm_clean": (8, 13, 36, 82),
        "transport_swap": (4, 4, 51, 100),
    }
    found = helped(
        one for change, (cured, tried, *_) in counts.items() for one in trials(change, cured, tried)
    )
    assert [line.change for line in found] == [*[*reversed(list(counts))][:5], "radial_set", "resolder"]
    for line in found:
        low, high = counts[line.change][2:]
        assert (round(line.low * 100), round(line.high * 100)) == (low, high)
    assert [line.change for line in found if line.few] == ["transport_swap", "driver_renew"]


@pytest.mark.parametrize(("cured", "tried"), [(0, 1), (1, 1), (3, 7), (97, 1392), (1419, 1419)])
def test_the_interval_is_that_of_statsmodels(cured: int, tried: int) -> None:
    (line,) = helped(trials("arm_clean", cured, tried))
    assert (line.low, line.high) == pytest.approx(
        proportion_confint(cured, tried, method="wilson"), abs=1e-12
    )
    assert line.share == cured / tried


def test_what_at_least_became_better_stands_before_what_did_nothing() -> None:
    found = helped([*trials("a", 0, 6), *trials("b", 0, 6, better=4)])
    assert [(line.key, line.better) for line in found] == [("b", 4), ("a", 0)]


def test_own_words_are_one_kind_however_they_are_spaced_and_cased() -> None:
    found = helped([Tried("", "Spring  bent", CURED), Tried("", "spring bent ", WORSE)])
    assert [(line.tried, line.cured, line.words, line.change) for line in found] == [
        (2, 1, "Spring  bent", "")
    ]


def test_comebacks_count_only_among_what_was_watched_and_modifications_are_counted() -> None:
    standings = (
        Standing.CAME_BACK,
        Standing.HELD,
        Standing.HELD,
        Standing.TOO_YOUNG,
        Standing.NOT_MENDED,
        None,
    )
    (line,) = helped(Tried("coil_current", "", BETTER, at > 2, one) for at, one in enumerate(standings))
    assert (line.came_back, line.could, line.left) == (1, 3, 3)


def test_small_numbers_say_so() -> None:
    assert "No trial" in SAY(ground([], 0))
    assert SAY(ground(helped(trials("a", 1, 4)), 3)) == "Only 4 trials in 3 jobs: too few to lean on."
    assert "Open mark: fewer than 5" in SAY(ground(helped(trials("a", 1, 4) + trials("b", 1, 6)), 8))
    assert SAY(ground(helped(trials("b", 1, 6)), 6)) == "6 trials in 6 jobs, sorted by the lower end."
