"""Start-up results: states of the rungs, what is said, and what two climbs prove."""

import json
from datetime import UTC
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import fisher_exact

from app.trade.bench.kinds import Arrangement, HowSeen, Warmth
from app.trade.bench.ladder import read_ladder
from app.trade.bench.start_up import (
    RungState,
    StartUpResult,
    fields_refused,
    fisher_p,
    ladder_sentence,
    named_suspects,
    tries_sentence,
)
from app.trade.wording import plain

SAY = plain(UTC)
LADDER = read_ladder(
    json.loads((Path(__file__).parents[3] / "assets/bench/ladder.json").read_text(encoding="utf-8"))
)
S, T = Arrangement.SWING_ARM, Arrangement.SLED
LONG_SEEK = StartUpResult(rung=10, tries=3, stopped_in=3, warmth=Warmth.WARM, disc="reference disc R2")


def test_rungs_are_reached_stopped_at_or_not_reached() -> None:
    assert LONG_SEEK.states == (*[RungState.REACHED] * 10, RungState.STOPPED, RungState.NOT_REACHED)
    assert StartUpResult(rung=12, stopped_in=0).states == tuple([RungState.REACHED] * 12)
    assert StartUpResult(rung=0).states[0] is RungState.STOPPED


@pytest.mark.parametrize(
    ("rung", "swing_arm", "sled"),
    [
        (0, "It shows no sign of power.", None),
        (1, "It has power, but tray or clamp does not work.", None),
        (
            2,
            "Tray and clamp work, but the arm does not swing home.",
            "Tray and clamp work, but the sled does not run home.",
        ),
        (
            3,
            "The arm swings home, but the laser does not come on.",
            "The sled runs home, but the laser does not come on.",
        ),
        (4, "The laser is on, but the lens does not search for focus.", None),
        (5, "The lens searches, but finds no focus.", None),
        (6, "It finds focus, but the disc does not come up to speed.", None),
        (7, "The disc spins, but the light does not stay on the track.", None),
        (8, "It follows the track, but does not read the lead-in.", None),
        (9, "It reads the lead-in, but does not play the first track.", None),
        (10, "It plays, but stalls on a long seek.", None),
        (11, "It seeks, but does not play the outer tracks.", None),
    ],
)
def test_where_the_job_stands_in_one_sentence(rung: int, swing_arm: str, sled: str | None) -> None:
    result = StartUpResult(rung=rung)
    assert SAY(result.headline(LADDER, S)) == swing_arm
    assert SAY(result.headline(LADDER, T)) == (sled or swing_arm)


def test_a_player_that_reaches_the_top_plays_to_the_end_or_nearly_always() -> None:
    assert SAY(StartUpResult(rung=12, tries=5, stopped_in=0).headline(LADDER, S)) == "It plays to the end."
    assert SAY(StartUpResult(rung=12, tries=5, stopped_in=1).headline(LADDER, S)) == (
        "It plays to the end, but stops in 1 of 5 tries."
    )


@pytest.mark.parametrize(
    ("result", "said"),
    [
        (
            LONG_SEEK,
            "Reached rung 10 of 12, stopped at 11 in 3 of 3 tries. Rungs 1 to 10 work to that extent.",
        ),
        (
            StartUpResult(rung=1),
            "Reached rung 1 of 12, stopped at 2 in 1 of 1 tries. It works to that extent.",
        ),
        (StartUpResult(rung=0, tries=2, stopped_in=2), "Reached no rung, stopped at 1 in 2 of 2 tries."),
        (StartUpResult(rung=12, tries=5, stopped_in=0), "Reached all 12 rungs in 5 tries."),
        (StartUpResult(rung=12, stopped_in=0), "Reached all 12 rungs in the one try."),
        (
            StartUpResult(rung=5, seen=HowSeen.TEST_MODE),
            "Reached rung 5 of 12 in test mode: it works when told to.",
        ),
    ],
)
def test_reached_and_stopped_in_figures(result: StartUpResult, said: str) -> None:
    assert SAY(result.detail) == said


def test_only_normal_use_counts() -> None:
    assert LONG_SEEK.counts
    assert not StartUpResult(rung=5, seen=HowSeen.SINGLE_STEP).counts


def test_conditions_stand_beside_the_ladder() -> None:
    assert SAY(LONG_SEEK.conditions) == "warm, normal use, reference disc R2"
    assert SAY(StartUpResult(rung=3, warmth=Warmth.COLD).conditions) == "cold, normal use"
    told = StartUpResult(rung=3, warmth=Warmth.WARM, warm_minutes=40, room=Decimal(21)).conditions
    assert SAY(told) == "warm after 40 min, room 21\N{NO-BREAK SPACE}°C, normal use"


@pytest.mark.parametrize(
    ("result", "field"),
    [
        (StartUpResult(rung=13), "rung"),
        (StartUpResult(rung=-1), "rung"),
        (StartUpResult(rung=10, tries=0, stopped_in=0), "tries"),
        (StartUpResult(rung=10, tries=51, stopped_in=51), "tries"),
        (StartUpResult(rung=10, tries=3, stopped_in=4), "stopped_in"),
        (StartUpResult(rung=10, tries=5, stopped_in=2), "stopped_in"),
        (StartUpResult(rung=12, tries=4, stopped_in=2), "stopped_in"),
    ],
)
def test_what_cannot_be_right_is_said_under_its_field(result: StartUpResult, field: str) -> None:
    refused = fields_refused(result)
    assert list(refused) == [field]
    assert SAY(refused[field])


def test_the_ladder_alone_names_several_and_never_one() -> None:
    assert SAY(ladder_sentence(LONG_SEEK, LADDER, S)) == (
        "Laser, lens, focus, spindle, decoder and sound work to that extent; still suspect: arm bearing, "
        "radial motor, stiff flex, radial driver, servo capacitors."
    )
    assert SAY(ladder_sentence(StartUpResult(rung=0), LADDER, S)) == (
        "Suspect: fuse or transformer, supply capacitors, regulator, joints."
    )
    assert SAY(ladder_sentence(StartUpResult(rung=12, stopped_in=0), LADDER, S)).startswith("No fault shown")
    testable = ladder_sentence(StartUpResult(rung=7), LADDER, S, frozenset({8}))
    assert "radial motor" in SAY(testable)


def test_of_no_group_is_it_said_that_it_works_while_one_of_it_is_suspect() -> None:
    for arrangement in (S, T):
        for rung in range(1, 12):
            words = SAY(ladder_sentence(StartUpResult(rung=rung), LADDER, arrangement))
            works, _, suspects = words.lower().partition("suspect")
            for part in ("laser", "lens", "spindle", "focus", "decoder", "clamp"):
                assert part not in works or part not in suspects, words
    assert SAY(ladder_sentence(StartUpResult(rung=1), LADDER, S)).startswith(
        "Power works to that extent; still"
    )
    alone = {"belt": Decimal("0.9"), "regulator": Decimal("0.09")}
    assert SAY(ladder_sentence(StartUpResult(rung=2), LADDER, S, shares=alone)) == (
        "Still suspect: loading belt, regulator."
    )
    both = {"regulator": Decimal("0.9")}
    assert SAY(ladder_sentence(StartUpResult(rung=2), LADDER, S, shares=both)) == (
        "Tray and clamp work to that extent; still suspect: regulator."
    )


def test_where_the_next_rung_cannot_be_tested_nobody_says_that_it_stops_there() -> None:
    result = StartUpResult(rung=7)
    assert SAY(result.headline(LADDER, S, {8})) == (
        "It stops before radial lock or before lead-in read: the first of them cannot be tested on this type."
    )
    assert SAY(result.headline(LADDER, S, {9})) == SAY(result.headline(LADDER, S))
    assert SAY(StartUpResult(rung=11).headline(LADDER, S, {12})) == SAY(LADDER.rung(12).stop(S))
    refused = fields_refused(StartUpResult(rung=8), {8})
    assert SAY(refused["rung"]) == (
        "Rung 8 cannot be tested on this type: give the highest one that was seen."
    )
    assert not fields_refused(StartUpResult(rung=9), {8})


def test_named_are_at_most_five_above_five_in_a_hundred() -> None:
    shares = {"belt": Decimal("0.5"), "clamp": Decimal("0.05"), "other": Decimal("0.45")}
    assert [suspect.id for suspect in named_suspects(shares, LADDER.suspects)] == ["belt"]
    even = {suspect: Decimal("0.05") for suspect in ("flex", "disc", "belt", "clamp", "tilt", "height")}
    assert [suspect.id for suspect in named_suspects(even, LADDER.suspects)] == [
        "belt",
        "clamp",
        "disc",
        "flex",
        "height",
    ]


@pytest.mark.parametrize(
    ("before", "after", "p"),
    [((3, 3), (0, 3), 0.05), ((4, 5), (0, 5), 0.0238), ((2, 3), (0, 3), 0.2), ((0, 3), (3, 3), 1.0)],
)
def test_how_much_fewer_stops_say(before: tuple[int, int], after: tuple[int, int], p: float) -> None:
    assert fisher_p(*before, *after) == pytest.approx(p, abs=5e-5)


@given(st.integers(1, 9), st.integers(1, 9), st.data())
def test_fishers_exact_test_agrees_with_scipy(before: int, after: int, data: st.DataObject) -> None:
    stopped_before, stopped_after = data.draw(st.integers(0, before)), data.draw(st.integers(0, after))
    table = [[stopped_before, before - stopped_before], [stopped_after, after - stopped_after]]
    theirs = fisher_exact(table, alternative="greater").pvalue
    assert fisher_p(stopped_before, before, stopped_after, after) == pytest.approx(float(theirs))


@pytest.mark.parametrize(("stopped", "tries"), [(4, 3), (-1, 3)])
def test_stops_lie_between_none_and_all(stopped: int, tries: int) -> None:
    with pytest.raises(ValueError):
        fisher_p(stopped, tries, 0, 3)
    with pytest.raises(ValueError):
        fisher_p(0, 3, stopped, tries)


def test_how_often_it_stopped_is_told_with_what_the_test_says_of_it() -> None:
    assert SAY(tries_sentence(4, 5, 0, 5)) == (
        "It stopped in 4 of 5 tries before, in 0 of 5 after (p 0.0238)."
    )
    assert SAY(tries_sentence(3, 3, 0, 3)) == (
        "It stopped in 3 of 3 tries before, in 0 of 3 after (p 0.0500)."
    )
    assert SAY(tries_sentence(2, 3, 0, 3)) == (
        "It stopped in 2 of 3 tries before, in 0 of 3 after (p 0.2000): that says little."
    )


def test_the_shares_of_a_ranking_go_before_the_ladder() -> None:
    shares = {
        "arm_drag": Decimal("0.5"),
        "flex": Decimal("0.3"),
        "tilt": Decimal("0.01"),
        "other": Decimal("0.19"),
    }
    sentence = ladder_sentence(StartUpResult(rung=10), LADDER, S, shares=shares)
    assert SAY(sentence).endswith(
        "Laser, lens, focus, spindle, decoder and sound work to that extent; still suspect: arm bearing, flex or plug."
    )


def test_no_name_stands_alone_while_the_second_has_more_than_half_of_it() -> None:
    shares = {
        "belt": Decimal("0.06"),
        "clamp": Decimal("0.04"),
        "flex": Decimal("0.03"),
        "other": Decimal("0.87"),
    }
    assert [s.id for s in named_suspects(shares, LADDER.suspects)] == ["belt", "clamp"]
    assert [s.id for s in named_suspects(shares | {"clamp": Decimal("0.03")}, LADDER.suspects)] == ["belt"]
    assert [s.id for s in named_suspects({"belt": Decimal("0.06")}, LADDER.suspects)] == ["belt"]
