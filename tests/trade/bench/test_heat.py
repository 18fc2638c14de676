"""Power and warmth around a changed circuit. Sums: common practice, no source, except where one is named."""

from datetime import UTC
from decimal import Decimal

import pytest

from app.trade.bench.difference import Between, difference_by
from app.trade.bench.heat import (
    added_part_load,
    coil_power,
    dissipation,
    part_load,
    regulator_power,
    supply_change,
    warming,
)
from app.trade.bench.modifications import Kind
from app.trade.bench.uncertainty import Accuracy, Repeatability
from app.trade.refusal import FieldRefusal
from app.trade.wording import plain

D = Decimal

SAY = plain(UTC)


def milli(value: D) -> float:
    return float(value) * 1000


@pytest.mark.parametrize(
    ("current", "milliwatt"),
    [("0.080", 89.60), ("0.116267", 189.251), ("0.132752", 246.722), ("0.097143", 132.114)],
)
def test_heat_of_a_14_ohm_coil(current: str, milliwatt: float) -> None:
    assert milli(coil_power(D(current), D(14))) == pytest.approx(milliwatt, abs=2e-3)


def test_heat_of_a_12_5_ohm_coil_found_with_more_current() -> None:
    assert milli(coil_power(D("0.075"), D("12.5"))) == pytest.approx(70.3, abs=0.05)
    assert milli(coil_power(D("0.075") * D("1.582984"), D("12.5"))) == pytest.approx(176.2, abs=0.05)


def test_the_driver_takes_more_as_well() -> None:
    as_made = dissipation(D(8), D("0.080"), D(14), D("6.8"))
    now = dissipation(D(8), D("0.0971428571"), D(14), D("5.6"))
    more = dissipation(D(8), D("0.1162666667"), D(14), D("4.678899"))
    assert milli(as_made.driver) == pytest.approx(506.9, abs=0.05)
    assert milli(now.driver) == pytest.approx(592.2, abs=0.05)
    assert float(now.driver / as_made.driver) == pytest.approx(1.1683, abs=5e-5)
    assert milli(more.driver) == pytest.approx(677.6, abs=0.05)
    assert float(more.driver / as_made.driver) == pytest.approx(1.3369, abs=5e-5)
    assert float(as_made.needed) == pytest.approx(1.664)
    assert float(more.needed) == pytest.approx(2.1717, abs=5e-5)
    assert SAY(now.summary) == "Driver 592\u00a0mW, coil 132\u00a0mW"


def test_a_driver_without_voltage_left_is_refused() -> None:
    with pytest.raises(FieldRefusal) as refused:
        dissipation(D(2), D("0.116267"), D(14), D("4.678899"))
    assert "2.17" in SAY(refused.value.fields["supply"])


def test_load_of_the_added_resistor() -> None:
    load = added_part_load(D("0.080"), D("6.8"), D(15), D("0.125"))
    assert milli(load.power) == pytest.approx(19.729, abs=5e-4)
    assert float(load.percent) == pytest.approx(15.78, abs=5e-3)
    assert not load.warm
    assert milli(part_load(D("0.544"), D("6.8"), D("0.125")).power) == pytest.approx(43.520, abs=5e-4)
    assert SAY(load.sentence) == "19.7\u00a0mW of 125\u00a0mW (15.8 %)"


def test_a_resistor_in_series_shares_the_voltage_with_the_makers() -> None:
    # 0.544 V over 6.8 + 1.5 ohm: 65.54 mA, 6.44 mW in the 1.5 ohm.
    load = added_part_load(D("0.080"), D("6.8"), D("1.5"), D("0.125"), Kind.SERIES)
    assert milli(load.power) == pytest.approx(6.4437, abs=5e-4)


def test_heat_split_between_2_2_ohm_and_5_6_ohm() -> None:
    # 100 mA as made: 0.22 V across the pair.
    assert milli(part_load(D("0.22"), D("2.2"), D(1)).power) == pytest.approx(22.00, abs=5e-3)
    assert milli(added_part_load(D("0.1"), D("2.2"), D("5.6"), D(1)).power) == pytest.approx(8.64, abs=5e-3)


def test_an_overload_is_told_from_a_warm_part() -> None:
    over = part_load(D("1.2"), D(10), D("0.125"))
    assert milli(over.power) == pytest.approx(144)
    assert float(over.percent) == pytest.approx(115.2)
    assert (over.warm, over.overloaded) == (True, True)
    full = part_load(D("1.0"), D(10), D("0.1"))
    assert (full.percent, full.warm, full.overloaded) == (D(100), True, False)


@pytest.mark.parametrize(("ohms", "rating", "field"), [("0", "1", "ohms"), ("1", "0", "rating")])
def test_a_part_has_resistance_and_rating(ohms: str, rating: str, field: str) -> None:
    with pytest.raises(FieldRefusal) as refused:
        part_load(D(1), D(ohms), D(rating))
    assert list(refused.value.fields) == [field]


@pytest.mark.parametrize(
    ("cold", "hot", "room", "kelvin"),
    [
        ("14.0", "15.2", "23", 22.0714),
        ("14.0", "14.5", "22", 9.16),
        ("12.5", "13.6", "23", 22.7),
    ],
)
def test_warming_of_copper_by_its_resistance(cold: str, hot: str, room: str, kelvin: float) -> None:
    # 234.5: practice of electrical machines, from memory.
    assert float(warming(D(cold), D(hot), D(room)).kelvin) == pytest.approx(kelvin, abs=0.05)


@pytest.mark.parametrize(("between", "u"), [(Between.LEFT_ON, 0.75), (Between.SEATED_ANEW, 2.7)])
def test_warming_is_known_far_better_with_the_clips_left_on(between: Between, u: float) -> None:
    coil = Accuracy(D("0.5"), D(2), D("0.1"))
    step = difference_by(coil, Repeatability(D(0), D("0.1")), D("14.0"), D("14.5"), between)
    found = warming(D("14.0"), D("14.5"), D(22), step.u)
    assert float(found.u) == pytest.approx(u, abs=5e-3)
    assert SAY.measure(found.measure) == "+9.2\u00a0K"


@pytest.mark.parametrize(("cold", "room"), [("0", "20"), ("14", "-234.5")])
def test_no_warming_without_a_cold_resistance(cold: str, room: str) -> None:
    with pytest.raises(FieldRefusal):
        warming(D(cold), D(14), D(room))


def test_supply_moved() -> None:
    found = supply_change(D("9.0"), D("10.2"))
    assert float(found.ratio) == pytest.approx(1.133333, abs=5e-7)
    assert float(found.heat) == pytest.approx(1.284444, abs=5e-7)
    assert float(found.percent) == pytest.approx(13.3333, abs=5e-5)
    assert SAY(found.summary) == "Supply ×1.133, heat in a resistive load ×1.284"
    assert supply_change(D(-8), D("-8.4")).percent == D(5)


@pytest.mark.parametrize(("maker", "now"), [("0", "5"), ("8", "-8"), ("8", "0")])
def test_a_rail_keeps_its_sign(maker: str, now: str) -> None:
    with pytest.raises(FieldRefusal):
        supply_change(D(maker), D(now))


def test_heat_of_a_linear_regulator() -> None:
    before, after = (regulator_power(D(v), D(5), D("0.220")) for v in ("9.0", "10.2"))
    assert (before, after) == (D("0.880"), D("1.144"))
    assert after / before == D("1.3")
