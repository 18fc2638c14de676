"""What moves the shares, by how much, and what moves nothing."""

from datetime import UTC
from fractions import Fraction
from math import isclose

import pytest

from app.trade.bench.evidence import Asked
from app.trade.bench.stages import TrialOutcome
from app.trade.bench.weighing import Evidence, Factor, Source, factors_of, moves_nothing, moving
from app.trade.wording import plain
from tests.trade.bench.ranked import (
    BETTER,
    CHANGES,
    CLOSE,
    CURED,
    HIGH,
    LIKELIHOODS,
    LOW,
    NONE,
    WITHIN,
    WORSE,
    S,
    T,
    evidence,
    seen,
    tried,
    within,
)

SAY = plain(UTC)


def factors(known: Evidence) -> tuple[Factor, ...]:
    return factors_of(known, LIKELIHOODS, CHANGES)


def idle(known: Evidence) -> list[str]:
    return [SAY(why) for why in moves_nothing(known, LIKELIHOODS, CHANGES)]


def test_nothing_seen_moves_nothing() -> None:
    assert factors(evidence(S, 11)) == ()
    assert idle(evidence(S, 11)) == []


def test_a_word_not_asked_is_no_evidence() -> None:
    assert factors(evidence(S, 11, warm=Asked.NOT_ASKED)) == ()
    (denied,) = factors(evidence(S, 11, warm=Asked.DENIED))
    assert denied.source is Source.WORD
    assert float(denied.ratio("joints")) == pytest.approx(0.590909, abs=5e-7)
    assert denied.ratio("arm_drag") == 1
    assert SAY(denied.reasons[0]) == (
        "“fails when warm” was denied: heat opens joints and raises laser current"
    )


def test_a_reading_alone_counts_whole_and_says_why() -> None:
    (factor,) = factors(evidence(S, 11, (seen("arm_start_current", HIGH),)))
    assert factor.source is Source.READING
    assert factor.ratios == {"arm_drag": 5, "flex_drag": 4, "radial_magnet": 3}
    assert SAY(factor.reasons[0]) == (
        "arm_start_current, above its limit: current at which the resting arm moves: "
        "friction first, motor strength second"
    )


def test_readings_of_one_family_count_as_their_geometric_mean() -> None:
    (factor,) = factors(evidence(S, 8, (seen("hf_eye", LOW), seen("s_curve", LOW))))
    assert len(factor.reasons) == 2
    assert isclose(factor.ratio("lens_dirt"), (3 * 4) ** 0.5)
    assert isclose(factor.ratio("tilt"), 1.8**0.5)
    assert factor.ratio("arm_drag") == 1
    # Also one that has nothing to say of a suspect takes its part: three readings, the third root.
    (factor,) = factors(
        evidence(S, 8, (seen("hf_eye", LOW), seen("s_curve", LOW), seen("radial_error", HIGH)))
    )
    assert isclose(factor.ratio("lens_dirt"), 12 ** (1 / 3))


def test_two_rails_are_two_readings_of_one_family() -> None:
    (factor,) = factors(evidence(S, 11, (seen("rail_dc", LOW), seen("rail_dc", WITHIN))))
    within_alone = LIKELIHOODS.readings["rail_dc"].ratio_within("regulator")
    assert isclose(factor.ratio("regulator"), (8 * within_alone) ** 0.5)


def test_readings_of_different_families_are_factors_of_their_own() -> None:
    both = factors(evidence(S, 11, within("hf_eye", "c1_inner")))
    assert [factor.source for factor in both] == [Source.READING, Source.READING]


def test_a_reading_close_to_its_limit_moves_little() -> None:
    (factor,) = factors(evidence(S, 9, (seen("hf_eye", CLOSE, 0.0, 0.747507),)))
    assert float(factor.ratio("lens_dirt")) == pytest.approx(2.362124, abs=2e-6)


def test_a_reading_of_the_other_arrangement_is_ignored() -> None:
    known = evidence(T, 11, within("wobble_amp", "hf_eye"))
    assert [one.evidence for one in moving(known, LIKELIHOODS)] == ["hf_eye"]
    assert idle(known) == []


def test_the_seek_time_moves_nothing_where_seeking_is_the_rung() -> None:
    known = evidence(S, 11, (seen("seek_time", HIGH),))
    assert factors(known) == ()
    assert idle(known) == ["seek_time is the rung itself: judged, but it moves nothing."]
    (factor,) = factors(evidence(S, 12, (seen("seek_time", HIGH),)))
    assert factor.ratio("arm_drag") == Fraction(7, 2)


def test_outer_errors_speak_only_while_inner_ones_are_within() -> None:
    outer = seen("c1_outer", HIGH)
    assert len(factors(evidence(S, 12, (outer,)))) == 1
    assert len(factors(evidence(S, 12, (outer, seen("c1_inner", WITHIN))))) == 2
    both = evidence(S, 12, (outer, seen("jitter", HIGH), seen("c1_inner", HIGH)))
    (factor,) = factors(both)
    assert len(factor.reasons) == 2
    assert idle(both) == ["c1_outer moves nothing: c1_inner is outside as well."]
    # Few errors at the outer end say what they say, whatever the inner ones do.
    assert len(factors(evidence(S, 12, (seen("c1_outer", WITHIN), seen("c1_inner", HIGH))))) == 2


def test_a_trial_speaks_of_those_it_addresses() -> None:
    (factor,) = factors(evidence(S, 11, (), (tried(1, "flex_dress"),)))
    assert factor.source is Source.TRIAL
    assert factor.ratios == {"flex_drag": Fraction(4, 17), "flex": Fraction(14, 17)}
    assert SAY(factor.reasons[0]) == "flex_dress: no difference"


def test_the_same_change_again_counts_once_by_what_it_did_last() -> None:
    twice = (tried(2, "flex_dress", BETTER), tried(1, "flex_dress", NONE))
    for trials in (twice, twice[::-1]):
        (factor,) = factors(evidence(S, 11, (), trials))
        assert factor.ratio("flex_drag") == Fraction(20, 9)


def test_a_cure_not_shown_yet_counts_as_better() -> None:
    (shown,) = factors(evidence(S, 11, (), (tried(1, "arm_clean", CURED),)))
    (yet,) = factors(evidence(S, 11, (), (tried(1, "arm_clean", CURED, shown=False),)))
    assert (shown.ratio("arm_drag"), yet.ratio("arm_drag")) == (10, Fraction(20, 9))
    assert SAY(yet.reasons[0]) == (
        "arm_clean: cured, but not shown by 30 minutes’ play and a cold start, so it counts as better"
    )
    (better,) = factors(evidence(S, 11, (), (tried(1, "arm_clean", BETTER, shown=False),)))
    assert SAY(better.reasons[0]) == "arm_clean: better"


@pytest.mark.parametrize("outcome", list(TrialOutcome))
def test_a_change_that_leaves_a_modification_moves_nothing_whatever_it_did(outcome: TrialOutcome) -> None:
    # By its kind, though it was put back; and by what it left, though its kind may leave nothing.
    for trial in (tried(1, "coil_current", outcome), tried(1, "laser_set", outcome, modifies=True)):
        known = evidence(S, 11, (), (trial,))
        assert factors(known) == ()
        assert idle(known) == [
            (
                f"{trial.change} moves nothing: a modification also overcomes what it does not mend, "
                "so even a cure by it establishes no cause."
            )
        ]
    free = evidence(S, 11, (), (tried(1, "", outcome, modifies=True),))
    assert factors(free) == ()
    assert len(idle(free)) == 1


def test_worse_moves_nothing_and_is_put_back_first() -> None:
    known = evidence(S, 11, (), (tried(1, "flex_dress", WORSE), tried(2, "", WORSE)))
    assert factors(known) == ()
    assert idle(known)[0] == "flex_dress moves nothing: it made things worse, so put it back first."


def test_a_change_in_free_words_moves_nothing() -> None:
    known = evidence(S, 11, (), (tried(1, "", CURED), tried(2, "of_the_shop_once")))
    assert factors(known) == ()
    assert idle(known)[1] == "of_the_shop_once moves nothing: it is not on the list of changes."
