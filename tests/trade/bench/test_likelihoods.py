"""What one reading, one word or one trial says of one suspect."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.bench.ladder import OTHER
from app.trade.bench.likelihoods import LEAST, MOST, ReadingRatios, SymptomWord, clipped
from tests.trade.bench.ranked import (
    BETTER,
    CHANGES,
    CURED,
    LADDER,
    LIKELIHOODS,
    NONE,
    S,
    T,
)

READINGS = list(LIKELIHOODS.readings.values())
SUSPECTS = st.sampled_from(sorted(LADDER.suspects))

# The column "within (worked)" of the trade's reference data, section 4; common practice, no source.
WORKED = {
    "rail_dc": "regulator .13, rail_caps .64, mains_side .73, joints .91",
    "rail_ripple": "rail_caps .22, regulator .78, servo_caps .89, joints .94",
    "laser_rel": "laser_worn .29, laser_set .52, laser_supply .86, flex .95",
    "optical_power": "laser_set .20, laser_supply .26, laser_worn .26, dust_behind .44, lens_dirt .63, flex .81",
    "focus_coil_r": "focus_coil .32, flex .73, joints .89",
    "radial_coil_r": "radial_coil .32, flex .73, joints .89",
    "s_curve": "lens_dirt .45, dust_behind .45, laser_worn .45, detector .45, laser_set .56, disc .91",
    "focus_offset": "focus_offset .32, detector .45, dust_behind .93, servo_caps .93",
    "radial_error": "grating .26, lens_dirt .54, dust_behind .63, laser_worn .63, detector .63, tilt .91",
    "radial_balance": "grating .24, detector .43, lens_susp .81, lens_dirt .85",
    "wobble_amp": "wobble .30, servo_caps .77, radial_driver .88",
    "radial_drive": "radial_magnet .29, arm_drag .44, flex_drag .44, sled_rail .44, lens_susp .58, "
    "sled_gear .72, radial_driver .82, radial_coil .86, joints .96",
    "arm_start_current": "arm_drag .45, flex_drag .59, radial_magnet .73",
    "arm_emf": "radial_magnet .44, radial_coil .78",
    "coil_current": "radial_driver .45, radial_magnet .73, servo_caps .86, joints .86",
    "hf_eye": "laser_set .26, laser_worn .34, lens_dirt .47, dust_behind .47, detector .47, hf_path .61, "
    "tilt .79, height .87, disc .87",
    "jitter": "tilt .37, spindle_bearing .50, focus_offset .50, lens_dirt .62, laser_worn .62, pll_clock .62, "
    "height .75, hf_path .75, disc .75, arm_drag .87",
    "c1_inner": "height .62, disc .62, tilt .75, lens_dirt .75, laser_worn .75, spindle_bearing .75, arm_drag .87",
    "c1_outer": "tilt .47, flex_drag .65, disc .65, spindle_bearing .74, sled_rail .74, arm_drag .82, "
    "laser_worn .96, lens_dirt 1.07",
    "tilt_lines": "tilt .18, spindle_bearing .86, height .93, lens_susp .93",
    "spindle_height": "height .18, spindle_bearing .73, clamp .93",
    "motor_current": "spindle_motor .29, spindle_bearing .71, spindle_drive .76, joints .90, clamp .93, height .93",
    "sled_current": "sled_rail .45, sled_drive .73, sled_gear .80",
    "load_time": "belt .29, load_drive .58, tray_switch .86",
    "home_time": "sled_rail .47, arm_drag .47, sled_drive .56, sled_gear .65, flex_drag .65, home_switch .74, "
    "radial_driver .82",
    "focus_drive": "focus_driver .36, servo_caps .82, joints .82, focus_coil .86, flex .86, lens_susp .95",
    "audio_level": "audio_out .28, decoder .82",
    "seek_time": "sled_rail .34, arm_drag .45, sled_gear .45, radial_magnet .56, flex_drag .56, sled_drive .56, "
    "wobble .78, lens_susp .89, lens_dirt .93",
}  # fmt: skip


def test_what_a_reading_within_its_limit_says_is_worked_out_as_tabled() -> None:
    assert set(WORKED) == set(LIKELIHOODS.readings)
    for reading, line in WORKED.items():
        ratios = LIKELIHOODS.readings[reading]
        tabled = dict(re.findall(r"(\w+) (\d?\.\d+)", line))
        assert set(tabled) == ratios.suspects
        for suspect, worked in tabled.items():
            # Some of the table's halves are rounded down (0.625 to .62).
            assert float(ratios.ratio_within(suspect)) == pytest.approx(float(worked), abs=0.00501), (
                reading,
                suspect,
            )


@given(st.sampled_from(READINGS), SUSPECTS)
def test_the_three_verdicts_of_one_reading_always_sum_to_one(ratios: ReadingRatios, suspect: str) -> None:
    chances = ratios.chances(suspect)
    assert sum(chances) == 1
    assert all(0 <= chance < 1 for chance in chances)


@given(st.sampled_from(READINGS), SUSPECTS, st.fractions(0, 1), st.fractions(0, 1))
def test_no_reading_says_more_than_ten_to_one(
    ratios: ReadingRatios, suspect: str, beyond: Fraction, share: Fraction
) -> None:
    assert LEAST <= ratios.ratio(suspect, beyond * share, beyond * (1 - share)) <= MOST


@given(st.sampled_from(READINGS))
def test_none_of_these_is_moved_by_no_reading(ratios: ReadingRatios) -> None:
    assert ratios.ratio_within(OTHER) == 1
    assert ratios.ratio(OTHER, Fraction(1, 3), Fraction(1, 7)) == 1


def test_a_reading_close_to_its_limit_is_graded_and_does_not_jump() -> None:
    hf_eye = LIKELIHOODS.readings["hf_eye"]
    # 0.78 V with u 0.03 V against 0.80 to 1.40 V; worked in the reference data, section 4.
    low = Fraction("0.747507")
    assert float(hf_eye.ratio_within("lens_dirt")) == pytest.approx(0.473684, abs=5e-7)
    graded = [float(hf_eye.ratio(s, Fraction(0), low)) for s in ("lens_dirt", "laser_worn", "radial_magnet")]
    assert graded == pytest.approx([2.362124, 2.702655, 1], abs=2e-6)


def test_a_reading_fits_its_own_arrangement_only() -> None:
    assert LIKELIHOODS.readings["wobble_amp"].fits(S)
    assert not LIKELIHOODS.readings["wobble_amp"].fits(T)
    assert LIKELIHOODS.readings["hf_eye"].fits(S)
    assert LIKELIHOODS.readings["hf_eye"].fits(T)


def test_a_word_denied_speaks_against_those_for_whom_it_would_speak() -> None:
    warm = LIKELIHOODS.symptoms["warm"]
    assert warm.name.key == "fails when warm"
    assert warm.ratio("joints", said=True) == 4
    assert float(warm.ratio("joints", said=False)) == pytest.approx(0.590909, abs=5e-7)
    assert warm.ratio("belt", said=True) == Fraction(3, 5)
    assert warm.ratio("belt", said=False) > 1
    assert warm.ratio(OTHER, said=True) == warm.ratio(OTHER, said=False) == 1


@given(st.sampled_from(list(LIKELIHOODS.symptoms.values())), SUSPECTS)
def test_said_and_denied_weighed_by_how_often_cancel_out(word: SymptomWord, suspect: str) -> None:
    b = word.background
    assert b * word.ratio(suspect, True) + (1 - b) * word.ratio(suspect, False) == 1


def test_a_trial_says_what_its_grade_says() -> None:
    # Grades A, B and C; reference data, section 4.
    clean, flex = CHANGES["clean_lens"], CHANGES["reseat"]
    ratio = LIKELIHOODS.trial_ratio
    assert [ratio(clean, "lens_dirt", one) for one in (CURED, BETTER, NONE)] == [
        10,
        Fraction(20, 9),
        Fraction(4, 17),
    ]
    assert [ratio(flex, "flex", one) for one in (CURED, BETTER, NONE)] == [
        5,
        Fraction(25, 9),
        Fraction(9, 17),
    ]
    assert [ratio(flex, "joints", one) for one in (CURED, BETTER, NONE)] == [2, 2, Fraction(14, 17)]
    assert [ratio(clean, "belt", one) for one in (CURED, BETTER, NONE)] == [1, 1, 1]
    # Overcoming without mending is no grade.
    assert ratio(CHANGES["coil_current"], "arm_drag", CURED) == 1


def test_a_ratio_beyond_ten_is_held_at_ten() -> None:
    assert [clipped(Fraction(one)) for one in ("30", "10", "2", "0.1", "0.01")] == [
        10,
        10,
        2,
        Fraction(1, 10),
        Fraction(1, 10),
    ]
