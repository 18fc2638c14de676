"""What to read or try next: gains worked by hand and by a joint table, the order, and what is barred."""

from datetime import UTC
from math import log2

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import entropy

from app.trade.bench.changes import Leaves
from app.trade.bench.next_step import (
    Gain,
    NextSteps,
    comes_last,
    next_steps,
    out_of_order,
    reading_gain,
    reading_name,
    still_to_try,
    trial_gain,
)
from app.trade.bench.ranking import Ranking
from app.trade.sentence import Sentence
from app.trade.wording import plain
from tests.trade.bench.ranked import (
    BETTER,
    CASE_A,
    CASE_B,
    CASE_C,
    CHANGES,
    COUNTS_A,
    COUNTS_B,
    COUNTS_C,
    CURED,
    HIGH,
    KNOWLEDGE,
    LADDER,
    LIKELIHOODS,
    LOW,
    NONE,
    QUANTITIES,
    READ_FULL,
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
    within,
)

SAY = plain(UTC)
A = ranked(WEIGHTS_A, CASE_A, COUNTS_A)
B = ranked(WEIGHTS_B, CASE_B, COUNTS_B)
C = ranked(WEIGHTS_C, CASE_C, COUNTS_C)
TRIED_A = {"flex_dress", "radial_set", "coil_current"}
STEPS_A = next_steps(A, CASE_A, KNOWLEDGE, QUANTITIES, TRIED_A)


def by_reading(ranking: Ranking, reading: str) -> Gain:
    return reading_gain(ranking, LIKELIHOODS.readings[reading])


def by_trial(ranking: Ranking, change: str) -> Gain:
    return trial_gain(ranking, CHANGES[change], KNOWLEDGE)


def of(steps: NextSteps) -> list[str]:
    return [offer.id for offer in steps.offers]


@pytest.mark.parametrize(
    ("ranking", "reading", "verdict", "chance", "bits"),
    [
        # Reference data, section 10, examples A, B and C.
        (A, "wobble_amp", LOW, 0.208775, 0.199766),
        (A, "arm_emf", LOW, 0.183932, 0.135347),
        (A, "coil_current", LOW, 0.160287, 0.036254),
        (A, "arm_start_current", None, None, 0.139591),
        (A, "tilt_lines", None, None, 0),
        (B, "tilt_lines", HIGH, 0.527335, 0.386915),
        (B, "sled_current", HIGH, 0.255206, 0.165678),
        (C, "optical_power", None, None, 0.135212),
        (C, "tilt_lines", None, None, 0.107882),
        (C, "arm_start_current", None, None, 0.101525),
    ],
)
def test_what_a_reading_is_expected_to_tell(
    ranking: Ranking, reading: str, verdict: object, chance: float | None, bits: float
) -> None:
    gain = by_reading(ranking, reading)
    assert gain.bits == pytest.approx(bits, abs=5.5e-7)
    if chance is not None:
        assert gain.chances[verdict] == pytest.approx(chance, abs=5.5e-7)  # type: ignore[index]


def test_what_a_trial_is_expected_to_tell() -> None:
    arm_clean = by_trial(A, "arm_clean")
    assert arm_clean.bits == pytest.approx(0.345185, abs=5e-7)
    assert [arm_clean.chances[one] for one in (CURED, BETTER, NONE)] == pytest.approx(
        [0.321758, 0.147868, 0.530374], abs=6e-7
    )
    assert by_trial(B, "sled_grease").bits == pytest.approx(0.304085, abs=5e-7)


def test_a_trial_that_leaves_a_modification_is_expected_to_tell_nothing() -> None:
    assert by_trial(A, "coil_current").bits == pytest.approx(0, abs=1e-12)
    assert "coil_current" not in [
        offer.id for offer in next_steps(A, CASE_A, KNOWLEDGE, QUANTITIES).offers if offer.trial
    ]


@given(
    st.sampled_from([A, B, C]),
    st.sampled_from(sorted(LIKELIHOODS.readings) + sorted(CHANGES)),
)
def test_the_gain_is_the_mutual_information_of_the_joint_table(ranking: Ranking, candidate: str) -> None:
    shares = np.array([float(line.share) for line in ranking.lines])
    if candidate in CHANGES:
        gain = by_trial(ranking, candidate)
        likely = [
            [
                float(one)
                for one in KNOWLEDGE.likelihoods.trial_chances(
                    CHANGES[candidate], line.suspect.id
                ).all.values()
            ]
            for line in ranking.lines
        ]
    else:
        gain = by_reading(ranking, candidate)
        likely = [
            [float(one) for one in LIKELIHOODS.readings[candidate].chances(line.suspect.id)]
            for line in ranking.lines
        ]
    if candidate in CHANGES and candidate in LIKELIHOODS.readings:
        return  # one id for a reading and a change: coil_current
    joint = shares[:, None] * np.array(likely)
    outcome = joint.sum(axis=0)
    mutual = sum(
        joint[s, e] * log2(joint[s, e] / (shares[s] * outcome[e]))
        for s in range(len(shares))
        for e in range(3)
        if joint[s, e] > 0
    )
    expected_fall = entropy(shares, base=2) - sum(
        chance * entropy(joint[:, e] / chance, base=2) for e, chance in enumerate(outcome) if chance > 0
    )
    assert gain.bits == pytest.approx(mutual, abs=1e-12)
    assert gain.bits == pytest.approx(expected_fall, abs=1e-12)
    assert list(gain.chances.values()) == pytest.approx(list(outcome), abs=1e-12)
    assert ranking.entropy == pytest.approx(float(entropy(shares, base=2)), abs=1e-12)


def test_example_a_offers_the_wobble_first_and_bars_what_says_the_same() -> None:
    assert [offer.id for offer in STEPS_A.offers if not offer.trial] == [
        "wobble_amp",
        "arm_emf",
        "coil_current",
    ]
    first = STEPS_A.offers[0]
    assert (first.id, round(first.per_minute, 4), first.minutes) == ("wobble_amp", 0.04, 5)
    assert {
        o.id: round(o.per_minute, 4)
        for o in STEPS_A.offers
        if o.id in ("arm_emf", "coil_current", "arm_clean")
    } == {
        "arm_emf": 0.0135,
        "coil_current": 0.0073,
        "arm_clean": 0.0077,
    }
    assert (
        SAY(first.reason) == "wobble, 5 min: tells most about wobble signal, radial offset or gain control."
    )
    barred = {one.id: SAY(one.reason) for one in STEPS_A.barred}
    assert barred["arm_start_current"] == (
        "arm start current is not offered: it says nearly the same as radial_drive, which is read already."
    )
    # What was read is neither offered nor barred, nor is what would tell nothing.
    assert not {"radial_drive", "c1_inner", "tilt_lines", "seek_time"} & ({*of(STEPS_A)} | set(barred))


def test_example_a_in_full_offers_quick_steps_first() -> None:
    known = evidence(S, 11, READ_FULL, **WORDS_FULL)
    steps = next_steps(ranked(WEIGHTS_FULL, known), known, KNOWLEDGE, QUANTITIES)
    assert of(steps)[:5] == ["other_disc", "flex_dress", "wobble_amp", "coil_current", "arm_emf"]
    by_id = {offer.id: offer for offer in steps.offers}
    named = ["other_disc", "flex_dress", "wobble_amp", "coil_current", "arm_emf", "arm_clean"]
    assert [round(by_id[one].gain.bits, 4) for one in named] == [
        0.0444,
        0.2217,
        0.0994,
        0.0949,
        0.1259,
        0.2901,
    ]
    assert [round(by_id[one].per_minute, 4) for one in named] == [
        0.0222,
        0.0222,
        0.0199,
        0.0190,
        0.0126,
        0.0064,
    ]
    quick = [offer.quick for offer in steps.offers]
    assert quick == sorted(quick, reverse=True)


def test_example_b_offers_the_two_lines_first() -> None:
    steps = next_steps(B, CASE_B, KNOWLEDGE, QUANTITIES, {"other_disc"})
    by_id = {offer.id: offer for offer in steps.offers}
    assert of(steps)[0] == "tilt_lines"
    assert [round(by_id[one].per_minute, 4) for one in ("tilt_lines", "sled_current", "sled_grease")] == [
        0.0387,
        0.0331,
        0.0101,
    ]
    assert "other_disc" not in by_id


def test_example_c_bars_the_light_because_the_laser_was_read() -> None:
    steps = next_steps(C, CASE_C, KNOWLEDGE, QUANTITIES, {"clean_lens"})
    assert {"optical_power", "s_curve", "radial_error"} == {one.id for one in steps.barred}
    assert {"tilt_lines", "arm_start_current"} <= set(of(steps))


def test_a_reading_is_offered_only_when_its_rung_was_reached() -> None:
    # Before focus lock there is no S-curve to see on rung 5, and no eye before radial lock.
    known = evidence(S, 5)
    ranking = ranked(LADDER.weights(5, S), known)
    assert not {"s_curve", "hf_eye", "focus_offset"} & {
        *of(next_steps(ranking, known, KNOWLEDGE, QUANTITIES))
    }
    known = evidence(S, 6)
    ranking = ranked(LADDER.weights(6, S), known)
    assert "s_curve" in of(next_steps(ranking, known, KNOWLEDGE, QUANTITIES))


def test_a_reading_whose_quantity_the_shop_retired_is_not_offered() -> None:
    fewer = {one: quantity for one, quantity in QUANTITIES.items() if one != "tilt_tan"}
    assert "tilt_lines" not in of(next_steps(B, CASE_B, KNOWLEDGE, fewer))


def test_a_reading_of_the_other_arrangement_is_not_offered() -> None:
    known = evidence(T, 11)
    offered = {*of(next_steps(ranked(LADDER.weights(11, T), known), known, KNOWLEDGE, QUANTITIES))}
    assert not {"arm_emf", "wobble_amp", "arm_clean", "seek_time"} & offered
    assert {"sled_current", "radial_balance", "sled_grease"} <= offered


def test_what_is_hard_to_undo_waits_for_what_is_not() -> None:
    known = evidence(T, 8, (seen("radial_balance", HIGH),))
    ranking = ranked(LADDER.weights(8, T), known)
    steps = next_steps(ranking, known, KNOWLEDGE, QUANTITIES)
    waiting = [offer for offer in steps.offers if offer.first]
    assert {offer.id for offer in waiting} == {"grating_set", "clean_behind", "pickup_renew"}
    assert steps.offers[-len(waiting) :] == tuple(waiting)
    first = [change.id for change in waiting[0].first]
    assert {"clean_lens", "radial_set"} <= set(first)
    assert not {"grating_set", "clean_behind", "pickup_renew", "coil_current", "transport_swap"} & set(first)
    later = next_steps(ranking, known, KNOWLEDGE, QUANTITIES, set(first))
    assert not [offer for offer in later.offers if offer.first]
    assert "grating_set" in of(later)


def test_before_the_coil_current_is_raised_the_arm_is_freed() -> None:
    left = {change.id for change in still_to_try(A, CASE_A, KNOWLEDGE, TRIED_A)}
    assert "arm_clean" in left
    assert "flex_dress" not in left
    assert "sled_grease" not in left
    # Below 5 in 100, or by the way only, nothing has to be tried first.
    assert "clean_lens" not in left
    assert "tilt_set" not in left
    assert {change.id for change in CHANGES.values() if comes_last(change)} == {
        "clean_behind",
        "coil_current",
        "grating_set",
        "pickup_renew",
    }
    assert CHANGES["coil_current"].leaves is Leaves.MODIFICATION


def test_a_reading_has_its_own_words_or_those_of_its_quantity() -> None:
    readings = LIKELIHOODS.readings
    assert SAY(reading_name(readings["tilt_lines"], QUANTITIES)) == "tilt of the two lines"
    assert SAY(reading_name(readings["hf_eye"], QUANTITIES)) == "HF eye"


def test_a_step_that_speaks_of_nobody_here_names_nobody() -> None:
    assert by_reading(A, "audio_level").speaks_of == ""
    assert by_reading(A, "wobble_amp").speaks_of == "wobble"
    known = evidence(S, 11, within("hf_eye"))
    assert "return" not in of(next_steps(A, known, KNOWLEDGE, QUANTITIES))
    assert WITHIN in by_reading(A, "hf_eye").chances


def test_when_little_is_left_to_try_all_of_it_is_named() -> None:
    first = (Sentence("lens cleaned"), Sentence("plugs and flex reseated"))
    said = SAY(out_of_order(first))
    assert said == "First comes what can be undone: lens cleaned; plugs and flex reseated. Say why not."
