"""Shares of the suspects: the worked examples to the last digit, a brute-force oracle, and what must always hold."""

import itertools
import random
from collections.abc import Mapping
from datetime import UTC
from fractions import Fraction
from math import isclose
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import dirichlet

from app.trade.bench.evidence import Asked, ReadingSeen, TrialSeen
from app.trade.bench.ladder import OTHER
from app.trade.bench.likelihoods import Entrants
from app.trade.bench.ranking import Ranking, entropy, with_entrants
from app.trade.bench.weighing import Evidence
from app.trade.wording import plain
from tests.trade.bench.ranked import (
    BETTER,
    CASE_A,
    CASE_B,
    CASE_C,
    CHANGES,
    CLOSE,
    COUNTS_A,
    COUNTS_B,
    COUNTS_C,
    CURED,
    HIGH,
    LADDER,
    LIKELIHOODS,
    LOW,
    NONE,
    READ_A,
    READ_B,
    READ_C,
    READ_FULL,
    TRIED_A,
    WEIGHTS_A,
    WEIGHTS_B,
    WEIGHTS_C,
    WEIGHTS_FULL,
    WITHIN,
    WORDS_FULL,
    S,
    T,
    evidence,
    ranked,
    seen,
    shipped,
    tried,
    within,
)

SAY = plain(UTC)
ORDER_A = ("arm_drag", "radial_magnet", "flex_drag", "wobble", "other")

FEW = 100  # a ranking in exact fractions takes its time; the long check draws no more


def shares(ranking: Ranking, *suspects: str) -> list[Fraction]:
    found = ranking.shares
    assert sum(found.values()) == 1
    return [found[suspect] for suspect in suspects]


def fractions(line: str) -> list[Fraction]:
    return [Fraction(one) for one in line.split()]


@pytest.mark.parametrize(
    ("readings", "trials", "exact"),
    [
        (0, 0, "2/5 1/4 1/5 1/10 1/20"),
        (1, 0, "7/19 5/19 4/19 2/19 1/19"),
        (2, 0, "259/787 125/787 148/787 170/787 85/787"),
        (2, 1, "4403/11455 425/2291 592/11455 578/2291 289/2291"),
        (2, 2, "4403/10095 425/2019 592/10095 102/673 289/2019"),
        # coil_current better, left inside: moves no share
        (2, 3, "4403/10095 425/2019 592/10095 102/673 289/2019"),
    ],
)
def test_example_a_step_by_step(readings: int, trials: int, exact: str) -> None:
    # Reference data, section 10, example A: exact fractions, computed by script there.
    known = evidence(S, 11, READ_A[:readings], TRIED_A[:trials])
    assert shares(ranked(WEIGHTS_A, known), *ORDER_A) == fractions(exact)


def test_example_a_with_the_jobs_of_the_shop() -> None:
    bare = ranked(WEIGHTS_A, evidence(S, 11), COUNTS_A)
    assert shares(bare, *ORDER_A) == fractions("11/25 1/5 1/5 3/25 1/25")
    whole = ranked(WEIGHTS_A, CASE_A, COUNTS_A)
    assert shares(whole, *ORDER_A) == fractions(
        "48433/101273 17000/101273 5920/101273 18360/101273 11560/101273"
    )
    assert whole.entropy == pytest.approx(1.984623, abs=5e-7)
    assert [line.suspect.id for line in whole.lines] == [
        "arm_drag",
        "wobble",
        "radial_magnet",
        "other",
        "flex_drag",
    ]


def full(readings: tuple[ReadingSeen, ...] = READ_FULL, *trials: TrialSeen) -> Ranking:
    return ranked(WEIGHTS_FULL, evidence(S, 11, readings, trials, **WORDS_FULL))


def test_example_a_in_full() -> None:
    # The player of job 1 on the whole row; reference data, section 10, three decimals.
    four = ("arm_drag", "radial_magnet", "flex_drag", "radial_driver")
    assert len(full().lines) == 11
    assert [f"{float(s):.3f}" for s in shares(full(()), *four)] == ["0.253", "0.173", "0.141", "0.108"]
    assert [f"{float(s):.3f}" for s in shares(full(), *four)] == ["0.292", "0.152", "0.169", "0.109"]
    steps = [tried(1, "flex_dress"), tried(2, "resolder"), tried(3, "radial_set")]
    leads = [f"{float(shares(full(READ_FULL, *steps[:n]), 'arm_drag')[0]):.3f}" for n in (1, 2, 3)]
    assert leads == ["0.336", "0.346", "0.360"]
    last = full(READ_FULL, *steps)
    named = ("arm_drag", "radial_magnet", "radial_driver", "other", "servo_caps")
    assert list(last.shares)[:5] == list(named)
    assert [f"{float(s):.3f}" for s in shares(last, *named)] == ["0.360", "0.187", "0.134", "0.074", "0.073"]
    modified = full(READ_FULL, *steps, tried(4, "coil_current", BETTER, modifies=True))
    assert modified.shares == last.shares
    assert [SAY(why).partition(" ")[0] for why in modified.moves_nothing] == ["seek_time", "coil_current"]


@pytest.mark.parametrize(
    ("readings", "trials", "exact"),
    [
        (1, (), "48/115 6/23 18/115 3/23 4/115"),
        (2, (), "336/775 42/155 126/775 3/31 28/775"),
        (2, CASE_B.trials, "5712/11537 3570/11537 504/11537 1275/11537 476/11537"),
    ],
)
def test_example_b_step_by_step(readings: int, trials: tuple[TrialSeen, ...], exact: str) -> None:
    known = evidence(T, 12, READ_B[:readings], trials)
    found = shares(ranked(WEIGHTS_B, known), "tilt", "sled_rail", "disc", "spindle_bearing", "other")
    assert found == fractions(exact)


def test_example_b_with_the_jobs_of_the_shop() -> None:
    order = ("tilt", "sled_rail", "disc", "spindle_bearing", "other")
    bare = ranked(WEIGHTS_B, evidence(T, 12), COUNTS_B)
    assert shares(bare, *order) == fractions("11/32 9/32 3/16 1/8 1/16")
    whole = ranked(WEIGHTS_B, CASE_B, COUNTS_B)
    assert shares(whole, *order) == fractions("10472/19011 1785/6337 336/6337 1700/19011 476/19011")
    assert whole.entropy == pytest.approx(1.658101, abs=5e-7)


def test_example_c_on_the_mean_of_two_rows() -> None:
    start = ranked(WEIGHTS_C, evidence(S, 8))
    assert len(start.lines) == 18
    assert shares(start, "radial_magnet", "lens_dirt", "arm_drag", "laser_worn") == fractions(
        "0.15 0.14 0.14 0.095"
    )
    eye = ranked(WEIGHTS_C, evidence(S, 8, READ_C[:1]))
    assert shares(eye, "lens_dirt", "laser_worn", "radial_magnet") == fractions("168/655 133/655 12/131")
    laser = ranked(WEIGHTS_C, evidence(S, 8, READ_C))
    assert shares(laser, "lens_dirt", "radial_magnet", "arm_drag", "hf_path", "laser_worn") == fractions(
        "3/10 3/28 1/10 1/14 19/280"
    )
    clean = ranked(WEIGHTS_C, CASE_C)
    assert shares(clean, "radial_magnet", "arm_drag", "hf_path", "lens_dirt", "laser_worn") == fractions(
        "255/1834 17/131 85/917 12/131 323/3668"
    )
    whole = ranked(WEIGHTS_C, CASE_C, COUNTS_C)
    named = ("radial_magnet", "lens_dirt", "servo_caps", "laser_worn", "arm_drag", "hf_path", "tilt", "other")
    assert shares(whole, *named) == fractions("25/147 8/49 11/98 29/294 2/21 10/147 3/49 5/147")
    assert whole.entropy == pytest.approx(3.620546, abs=5e-7)


def test_a_family_says_less_than_its_readings_one_by_one() -> None:
    # Reference data, section 10: plain product .430493, .340807, .038437; family rule as below.
    both = ranked(WEIGHTS_C, evidence(S, 8, (seen("hf_eye", LOW), seen("s_curve", LOW))))
    found = shares(both, "lens_dirt", "laser_worn", "radial_magnet")
    assert [f"{float(one):.6f}" for one in found] == ["0.292594", "0.214454", "0.090498"]


def test_the_comeback_of_job_1() -> None:
    # Reference data, section 12, job 3: an outsider comes in by a word and leaves again by two readings.
    words = {"cold": Asked.SAID, "tap": Asked.DENIED}
    told = ranked(WEIGHTS_FULL, evidence(S, 11, **words))
    assert [f"{float(s):.3f}" for s in list(told.shares.values())[:3]] == ["0.393", "0.175", "0.142"]
    assert list(told.shares)[:3] == ["arm_drag", "servo_caps", "flex_drag"]
    assert [line.suspect.id for line in told.lines if line.entered] == ["rail_caps"]
    read = (
        *within("rail_dc", "rail_ripple"),
        seen("arm_start_current", HIGH),
        seen("radial_drive", CLOSE, 0.862),
    )
    measured = ranked(WEIGHTS_FULL, evidence(S, 11, read, **words))
    assert "rail_caps" not in measured.shares
    assert [f"{float(s):.3f}" for s in list(measured.shares.values())[:3]] == ["0.588", "0.190", "0.110"]
    assert list(measured.shares)[:3] == ["arm_drag", "flex_drag", "radial_magnet"]
    mended = ranked(WEIGHTS_FULL, evidence(S, 11, read, (tried(1, "arm_clean", CURED),), **words))
    assert f"{float(mended.shares['arm_drag']):.3f}" == "0.907"


def test_who_comes_in_takes_a_hundredth_of_other_and_four_at_most() -> None:
    # Denied words and readings aside: regulator 8, mains_side 4, rail_caps 5 by a low rail; joints are in the row.
    low = ranked(WEIGHTS_FULL, evidence(S, 11, (seen("rail_dc", LOW),)))
    assert {line.suspect.id for line in low.lines if line.entered} == {"regulator", "rail_caps", "mains_side"}
    by_id = {line.suspect.id: line for line in low.lines}
    assert by_id["regulator"].prior == Fraction(1, 100)
    assert by_id["other"].prior == Fraction(2, 100)
    counts = {"belt": 1, "clamp": 1, "regulator": 1, "laser_supply": 2, "logic": 1}
    many = ranked(WEIGHTS_FULL, evidence(S, 11, (seen("rail_dc", LOW),)), counts)
    # The largest products first, then by id: 8, 5, 4, and belt before clamp. Who stays out counts as other.
    entered = {line.suspect.id: line.jobs for line in many.lines if line.entered}
    assert entered == {"regulator": 1, "rail_caps": 0, "mains_side": 0, "belt": 1}
    by_id = {line.suspect.id: line for line in many.lines}
    assert (by_id["other"].jobs, by_id["other"].all_jobs, by_id["other"].weight) == (4, 6, Fraction(1, 100))


def test_the_shop_says_who_comes_in_how_many_and_with_how_much() -> None:
    row = {OTHER: Fraction(5, 100), "arm_drag": Fraction(95, 100)}
    products = {OTHER: Fraction(1), "belt": Fraction(3), "clamp": Fraction(2), "flex": Fraction(5, 2)}
    assert with_entrants(row, products, {}, LIKELIHOODS.entrants) == row
    wider = with_entrants(row, products, {}, Entrants(Fraction(2, 100), Fraction(2), 2))
    assert wider == {
        OTHER: Fraction(1, 100),
        "arm_drag": Fraction(95, 100),
        "belt": Fraction(2, 100),
        "flex": Fraction(2, 100),
    }
    assert with_entrants(row, products, {"clamp": 9}, Entrants(Fraction(2, 100), Fraction(2), 0)) == row


def test_nobody_comes_in_from_the_other_arrangement() -> None:
    known = evidence(T, 2, (seen("home_time", HIGH),))
    assert LIKELIHOODS.readings["home_time"].ratio_within("arm_drag") < 1
    ranking = ranked(LADDER.weights(2, T), known, {"arm_drag": 3})
    assert "arm_drag" not in ranking.shares
    assert {line.suspect.id for line in ranking.lines if line.entered} == {"sled_rail"}
    assert next(line.jobs for line in ranking.lines if line.suspect.id == OTHER) == 3


def test_a_line_tells_where_its_share_comes_from() -> None:
    line = ranked(WEIGHTS_A, CASE_A, COUNTS_A).lines[0]
    assert (line.suspect.id, line.weight, line.jobs, line.all_jobs) == ("arm_drag", Fraction(2, 5), 3, 5)
    assert line.prior == Fraction(11, 25)
    assert not line.entered
    assert sorted(ratio for _, ratio in line.factors) == [Fraction(37, 85), Fraction(7, 8)]


def test_where_all_are_equal_other_stands_last() -> None:
    third = {"belt": Fraction(1, 3), "other": Fraction(1, 3), "tray_switch": Fraction(1, 3)}
    assert list(ranked(third, evidence(S, 2)).shares) == ["belt", "tray_switch", "other"]


@settings(max_examples=FEW)
@given(st.dictionaries(st.sampled_from(sorted(WEIGHTS_A)), st.integers(0, 40)))
def test_the_prior_is_the_mean_that_scipy_gives_a_dirichlet_distribution(counts: dict[str, int]) -> None:
    ranking = ranked(WEIGHTS_A, evidence(S, 11), counts)
    ours = {line.suspect.id: float(line.prior) for line in ranking.lines}
    alpha = [float(20 * WEIGHTS_A[s]) + counts.get(s, 0) for s in ORDER_A]
    assert [ours[s] for s in ORDER_A] == pytest.approx(list(dirichlet.mean(alpha)), abs=1e-12)


def joint_table(known: Evidence, priors: Mapping[str, float]) -> dict[tuple[str, ...], float]:
    """Every combination of suspect, reading and trial outcome with its probability, from the data as they stand."""
    raw = shipped("likelihoods")
    readings = {row["id"]: row for row in raw["readings"]}
    events = []
    for one in known.readings:
        row = readings[one.evidence]

        def read(suspect: str, row: Any = row) -> dict[str, float]:
            high = float(row["background_high"]) * float(row["outside_high"].get(suspect, 1))
            low = float(row["background_low"]) * float(row["outside_low"].get(suspect, 1))
            return {HIGH.value: high, LOW.value: low, WITHIN.value: 1 - high - low}

        events.append(read)
    for trial in known.trials:
        addresses = CHANGES[trial.change].addresses

        def did(suspect: str, addresses: Any = addresses) -> dict[str, float]:
            grade = addresses.get(suspect)
            chances = raw["unaddressed"] if grade is None else raw["grades"][grade.value]
            return {key.replace("_", " "): float(chance) for key, chance in chances.items()}

        events.append(did)
    table = {}
    for suspect, prior in priors.items():
        for outcomes in itertools.product(*(list(event(suspect)) for event in events)):
            chance = prior
            for event, outcome in zip(events, outcomes, strict=True):
                chance *= event(suspect)[outcome]
            table[(suspect, *outcomes)] = chance
    return table


# One reading of each family, so that the model itself holds without the family rule.
FAMILIES = {ratios.family: ratios.id for ratios in reversed(LIKELIHOODS.readings.values())}
CLEAR = st.sampled_from([WITHIN, HIGH, LOW])


@st.composite
def cases(draw: Any) -> Evidence:
    chosen = draw(st.lists(st.sampled_from(sorted(FAMILIES.values())), unique=True, max_size=3))
    readings = []
    for one in chosen:
        ratios = LIKELIHOODS.readings[one]
        verdict = draw(CLEAR)
        never = (verdict is HIGH and not ratios.background_high) or (
            verdict is LOW and not ratios.background_low
        )
        verdict = WITHIN if never else verdict
        readings.append(seen(one, verdict))
    changes = draw(
        st.lists(st.sampled_from(["flex_dress", "arm_clean", "clean_lens"]), unique=True, max_size=2)
    )
    trials = tuple(
        tried(n, change, draw(st.sampled_from([CURED, BETTER, NONE]))) for n, change in enumerate(changes)
    )
    return evidence(S, 9, tuple(readings), trials)


@settings(max_examples=FEW)
@given(cases())
def test_the_shares_are_those_of_the_whole_joint_table(known: Evidence) -> None:
    ranking = ranked(LADDER.weights(9, S), known)
    priors = {line.suspect.id: float(line.prior) for line in ranking.lines}
    table = joint_table(known, priors)
    assert isclose(sum(table.values()), 1)
    happened = tuple(one.verdict.value for one in known.readings) + tuple(
        one.outcome.value for one in known.trials
    )
    whole = sum(chance for key, chance in table.items() if key[1:] == happened)
    for line in ranking.lines:
        assert float(line.share) == pytest.approx(table[(line.suspect.id, *happened)] / whole, abs=1e-12)


@settings(max_examples=FEW)
@given(
    st.permutations(READ_FULL),
    st.permutations([tried(1, "flex_dress"), tried(2, "arm_clean", BETTER), tried(3, "flex_dress", BETTER)]),
    st.permutations(["warm", "cold", "tap"]),
)
def test_the_order_of_entry_never_matters(readings: Any, trials: Any, symptoms: Any) -> None:
    asked = {"warm": Asked.DENIED, "cold": Asked.SAID, "tap": Asked.NOT_ASKED}
    known = evidence(S, 11, tuple(readings), tuple(trials), **{word: asked[word] for word in symptoms})
    usual = evidence(
        S,
        11,
        READ_FULL,
        (tried(1, "flex_dress"), tried(2, "arm_clean", BETTER), tried(3, "flex_dress", BETTER)),
        **asked,
    )
    assert ranked(WEIGHTS_FULL, known).shares == ranked(WEIGHTS_FULL, usual).shares


@settings(max_examples=FEW)
@given(
    st.integers(1, 12),
    st.sampled_from([S, T]),
    st.dictionaries(st.sampled_from(sorted(LIKELIHOODS.symptoms)), st.sampled_from(list(Asked))),
    st.integers(0, 2**32),
)
def test_the_shares_sum_to_one_whatever_was_seen(
    rung: int, arrangement: Any, symptoms: dict[str, Asked], seed: int
) -> None:
    pick = random.Random(seed)
    readings = tuple(
        seen(one, CLOSE, pick.random() / 2, pick.random() / 2)
        for one in pick.sample(sorted(LIKELIHOODS.readings), pick.randint(0, 9))
    )
    trials = tuple(
        tried(n, pick.choice(sorted(CHANGES)), pick.choice([CURED, BETTER, NONE]))
        for n in range(pick.randint(0, 4))
    )
    counts = {suspect: pick.randint(0, 3) for suspect in pick.sample(sorted(LADDER.suspects), 5)}
    not_testable = {rung} if pick.random() < 0.5 else set[int]()
    weights = LADDER.weights(rung, arrangement, not_testable)
    ranking = ranked(weights, evidence(arrangement, rung, readings, trials, **symptoms), counts)
    assert sum(line.share for line in ranking.lines) == 1
    assert sum(line.prior for line in ranking.lines) == 1
    assert sum(line.weight for line in ranking.lines) == 1
    assert all(line.share > 0 and line.weight > 0 for line in ranking.lines)
    assert sum(line.entered for line in ranking.lines) <= 4
    assert ranking.entropy >= 0
    answered = {word: one for word, one in symptoms.items() if one is not Asked.NOT_ASKED}
    without = ranked(weights, evidence(arrangement, rung, readings, trials, **answered), counts)
    assert without.shares == ranking.shares


def test_entropy_is_in_bits_and_nothing_for_certainty() -> None:
    assert entropy([0.5, 0.5]) == 1
    assert entropy([1.0, 0.0]) == 0
