"""Sentences of the effect sheets. Worked numbers: common practice, no source, except where one is named."""

from __future__ import annotations

from datetime import UTC
from decimal import Decimal

import pytest

from app.trade.bench.effect_sheet import (
    design_words,
    driver_words,
    gain_words,
    label_words,
    lawless_words,
    non_inverting_words,
    rating_words,
    shim_words,
    spring_words,
    supply_words,
    trimmer_law_words,
    trimmer_words,
    voltage_driven_words,
)
from app.trade.sentence import Measure, Sentence
from app.trade.wording import plain

D = Decimal
SAY = plain(UTC)


def test_more_coil_current_warms_the_driver_and_leaves_it_less_voltage() -> None:
    # 8 V, 80 mA, 14 ohm: 6.8 to 5.6 ohm 506.9 to 592.2 mW; 4.678899 ohm 677.6 mW, needed 2.1717 V.
    words, besides = driver_words(D(8), D("0.080"), D(14), D("6.8"), D("5.6"))
    assert SAY(words).startswith("The driver takes 592 mW instead of 507 mW".replace(" mW", "\u00a0mW"))
    assert "dropout passed" in SAY(besides)
    words, _ = driver_words(D(8), D("0.080"), D(14), D("6.8"), D("4.678899"))
    assert "678\u00a0mW" in SAY(words)
    assert "need 2.17\u00a0V of 8\u00a0V" in SAY(words)


def test_without_voltage_left_the_law_does_not_hold_and_that_is_said() -> None:
    (words,) = driver_words(D(2), D("0.080"), D(14), D("6.8"), D("4.678899"))
    assert "no voltage left" in SAY(words)


def test_a_wanted_ratio_gives_the_nearest_value_one_can_buy() -> None:
    # k 1.25 on 6.8 ohm: 27.2, E24 27 gives 1.251852 (IEC 60063).
    assert SAY(design_words(D("6.8"), D("1.25"))).startswith(
        "27.2\u00a0Ω would give it; with 27\u00a0Ω: Current ×1.252"
    )
    assert "only raises" in SAY(design_words(D("6.8"), D("0.9")))


def test_where_neither_law_holds_both_numbers_are_set_beside_each_other() -> None:
    # 14 ohm coil driven by a voltage: 1.113556, not 1.453333; 47k/10k to 56k/10k: 1.157895, not 1.191489.
    assert "×1.114, not ×1.453" in SAY(voltage_driven_words(D("6.8"), D("4.678899"), D(14)))
    assert "×1.158, not ×1.191" in SAY(non_inverting_words(D(47_000), D(56_000), D(10_000)))


def test_a_moved_rail_warms_its_loads_and_asks_for_the_capacitors() -> None:
    # 9.0 to 10.2 V: k 1.133333, heat 1.284444; 5 V regulator at 220 mA 0.880 to 1.144 W (+30 %).
    ratio, regulator, capacitors = supply_words(D("9.0"), D("10.2"), D(5), D("0.220"))
    assert SAY(ratio) == "Supply ×1.133, heat in a resistive load ×1.284"
    assert SAY(regulator) == ("A linear regulator takes 1144\u00a0mW instead of 880\u00a0mW (+30\u00a0%).")
    assert "capacitor" in SAY(capacitors)
    assert len(supply_words(D("9.0"), D("10.2"))) == 2
    assert "needs more" in SAY(supply_words(D("9.0"), D("4.8"), D(5), D("0.220"))[1])
    assert "one sign" in SAY(supply_words(D(9), D(-9))[0])


def test_a_trimmer_is_told_by_its_readings() -> None:
    # 48.6 to 54.3 mA, u 1.013336 and 1.131818: ratio 1.117284 +- 0.032940, z 3.75, a real change.
    said = trimmer_words(
        Sentence("laser current"), Measure(D("48.6"), "mA"), D("1.013336"), Measure(D("54.3"), "mA"), D("1.131818")
    )  # fmt: skip
    assert SAY(said) == ("laser current 48.6\u00a0mA to 54.3\u00a0mA: Reading ×1.117 ± 0.033: a real change.")


@pytest.mark.parametrize(
    ("thick", "said"),
    [("0.10", "Tilts by 0.136\u00a0°; the two lines move 1.43\u00a0mm"), ("0.125", "Tilts by 0.171\u00a0°")],
)
def test_a_shim_or_a_quarter_turn_of_a_screw_tilts(thick: str, said: str) -> None:
    # 0.10 mm at 42 mm: 0.136418 degrees, 1.4286 mm at L 300; a quarter turn of 0.5 mm pitch: 0.170523.
    assert SAY(shim_words(D(thick), D(42))).startswith(said)


def test_a_spring_pressed_further_presses_more() -> None:
    # 0.80 N/mm, 2.5 mm 2.000 N; shim 0.3 mm 2.240 N (x 1.12).
    assert "2.00\u00a0N to 2.24\u00a0N (×1.12)" in SAY(spring_words(D("0.80"), D("2.5"), D("0.3")))


def test_without_a_formula_readings_are_asked_for() -> None:
    assert "dropout passed" in SAY(gain_words())
    assert "which readings stand in" in SAY(lawless_words())


def test_a_moved_rail_is_set_against_the_lowest_capacitor_rating() -> None:
    # 10.2 V on 16 V is 63.75 %; on 10 V 102 % (plain division).
    said = [SAY(sentence) for sentence in supply_words(D("9.0"), D("10.2"), lowest=D(16))]
    assert said[1] == "The rail is 64\u00a0% of the lowest capacitor rating, 16\u00a0V."
    assert "Compare" not in " ".join(said)
    over = SAY(supply_words(D("-9.0"), D("-10.2"), lowest=D(10))[1])
    assert over.startswith(
        "The rail, 10.2\u00a0V, is over what a capacitor on it is rated for, 10\u00a0V (102\u00a0%)"
    )


def test_a_laser_is_set_against_its_label_with_its_uncertainty() -> None:
    # 48.6 and 54.3 mA of 46.0: 105.65 % and 118.04 +- 2.46 % (u 1.131818 mA), common practice, no source.
    said = SAY(
        label_words(
            Measure(D("46.0"), "mA"), Measure(D("48.6"), "mA"), Measure(D("54.3"), "mA"), D("1.131818")
        )
    )
    assert said == ("Of the label, 46.0\u00a0mA: 105.7\u00a0% before, 118.0\u00a0% ± 2.5\u00a0% after.")


def test_a_trimmer_has_no_law_and_the_light_of_a_laser_is_measured() -> None:
    assert "measure the light" in SAY(trimmer_law_words(laser=True))
    assert "light" not in SAY(trimmer_law_words(laser=False))


def test_a_capacitor_of_another_type_is_set_against_the_voltage_on_it() -> None:
    # 17 on 16 V is 106.25 %, 12 on 16 V 75 % (plain division).
    assert "is over its rating (106\u00a0%)" in SAY(rating_words(D(17), D(16)))
    assert "stands at 75\u00a0% of its rating" in SAY(rating_words(D(-12), D(16)))
