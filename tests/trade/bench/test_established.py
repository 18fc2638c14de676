"""Which closed jobs count, and for whom."""

import pytest

from app.trade.bench.established import established_suspect
from app.trade.bench.evidence import TrialSeen
from app.trade.bench.stages import CauseFound, Outcome
from tests.trade.bench.ranked import BETTER, CHANGES, CURED, NONE, tried


def found(
    *trials: tuple[TrialSeen, str],
    outcome: Outcome | None = Outcome.MENDED,
    cause: CauseFound | None = CauseFound.GREASE,
) -> str | None:
    return established_suspect(outcome, cause, trials, CHANGES)


ARM = (tried(1, "arm_clean", CURED), "")


def test_the_change_that_cured_names_the_only_suspect_it_aims_at() -> None:
    assert found(ARM) == "arm_drag"
    assert found((tried(2, "clean_lens", CURED), ""), ARM) == "lens_dirt"


def test_who_was_named_goes_before_what_the_change_aims_at() -> None:
    assert found((tried(1, "transport_swap", CURED), "radial_magnet")) == "radial_magnet"
    assert found((tried(1, "", CURED), "tilt")) == "tilt"


def test_a_change_that_aims_at_several_or_is_not_listed_establishes_nobody() -> None:
    assert found((tried(1, "transport_swap", CURED), "")) is None
    assert found((tried(1, "reseat", CURED), "")) is None
    assert found((tried(1, "", CURED), "")) is None


def test_what_only_helped_establishes_nobody() -> None:
    assert found((tried(1, "arm_clean", BETTER), "arm_drag"), (tried(2, "flex_dress", NONE), "")) is None
    assert found() is None


def test_a_cure_by_a_modification_establishes_no_cause() -> None:
    assert found(ARM, (tried(2, "coil_current", CURED), "radial_magnet")) is None
    assert found((tried(1, "laser_set", CURED, modifies=True), "laser_set")) is None


@pytest.mark.parametrize("outcome", [None, Outcome.MENDED_MODIFIED, Outcome.DECLINED, Outcome.KEPT_AS_DONOR])
def test_only_jobs_that_ended_without_a_modification_count(outcome: Outcome | None) -> None:
    assert found(ARM, outcome=outcome) is None


@pytest.mark.parametrize("cause", [None, CauseFound.NOT_ESTABLISHED, CauseFound.NO_FAULT])
def test_only_jobs_with_an_established_cause_count(cause: CauseFound | None) -> None:
    assert found(ARM, cause=cause) is None


def test_a_disc_counts_though_the_player_had_no_fault() -> None:
    disc = (tried(1, "other_disc", CURED), "")
    assert found(disc, outcome=Outcome.NO_FAULT_SHOWN, cause=CauseFound.DISC) == "disc"
