"""Standard uncertainty of readings: instrument, counting, repeats, ratios."""

from decimal import Decimal
from statistics import mean, stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.bench.uncertainty import (
    Accuracy,
    Counted,
    Fixed,
    Propagated,
    Repeatability,
    combined,
    mean_of,
    model_u,
    ratio_u,
    reading_u,
    repeated_u,
)
from app.trade.refusal import FieldRefusal

D = Decimal


def near(value: D, expected: float, within: float = 5e-7) -> bool:
    return float(value) == pytest.approx(expected, abs=within)


def test_gauge_block_of_the_gum() -> None:
    # JCGM 100, H.1: components 25, 9.7, 2.9 and 16.6 nm; printed 32 nm.
    assert near(combined(D(25), D("9.7"), D("2.9"), D("16.6")), 31.67, 5e-3)


def test_ten_resistors_of_the_gum() -> None:
    # JCGM 100, 5.2.2: ten independent resistors of 1 kohm, 0.1 ohm each, in series: 0.316 ohm.
    assert near(combined(*[D("0.1")] * 10), 0.316, 5e-4)


@pytest.mark.parametrize(
    ("model", "repeat", "value", "u"),
    [
        # Common practice, no source: sums worked by hand.
        (Accuracy(D(1), D(0), D("0.2")), Repeatability(), "48.6", 1.013336),
        (Accuracy(D(1), D(0), D("0.2")), Repeatability(), "54.3", 1.131818),
        (Accuracy(D(5), D(2), D("0.01")), Repeatability(), "0.31", 0.0216),
        (Accuracy(D(3), D(0), D("0.02")), Repeatability(), "0.61", 0.0171),
        (Accuracy(D(1), D(0), D(5)), Repeatability(), "253", 5.4608),
        # Class 1.5 on a range of 100 mA: 1.5 mA wherever the pointer stands (IEC 60051, from memory).
        (Accuracy(D(0), D(0), D("0.2"), D("1.5")), Repeatability(), "51.2", 1.342345),
        (Accuracy(D(0), D(0), D("0.2"), D("1.5")), Repeatability(D(0)), "10.0", 0.867949),
        (Accuracy(D(0), D(0), D("0.2"), D("1.5")), Repeatability(D(0)), "90.0", 0.867949),
        (Fixed(D("0.09")), Repeatability(), "4.8", 0.1316),
        (Fixed(D(0), D("0.01")), Repeatability(D("0.002")), "1.3", 0.013257),
        (Fixed(D("1.5")), Repeatability(D(0), D(1)), "48", 1.802776),
        (Accuracy(D("0.5"), D(2), D("0.1")), Repeatability(D(0), D("0.1")), "-14.0", 0.187439),
    ],
)
def test_instrument_and_repeatability_join_in_quadrature(
    model: Accuracy | Fixed, repeat: Repeatability, value: str, u: float
) -> None:
    assert near(reading_u(model, repeat, D(value)).u, u, 5e-5)


def test_mean_of_three_repeats() -> None:
    # Common practice, no source: arm start current 28.4, 30.4, 32.4 mA.
    readings = [D("28.4"), D("30.4"), D("32.4")]
    repeats = mean_of(readings)
    assert (repeats.mean, repeats.deviation, repeats.count) == (D("30.4"), D(2), 3)
    assert near(repeats.u_mean, 1.1547, 5e-5)
    found = repeated_u(Accuracy(D(3), D(0), D(1)), readings)
    assert near(found.model, 0.6005, 5e-5)
    assert near(found.repeatability, 1.1547, 5e-5)
    assert near(found.u, 1.3015, 5e-5)
    assert found.value == D("30.4")


def test_three_later_repeats_of_the_same_quantity() -> None:
    found = repeated_u(Accuracy(D(3), D(0), D(1)), [D(40), D(41), D(42)])
    assert near(found.u, 0.96, 5e-3)


def test_one_reading_has_no_spread_of_its_own() -> None:
    with pytest.raises(ValueError):
        mean_of([D(1)])


@given(st.lists(st.decimals(-1000, 1000, places=2), min_size=2, max_size=8))
def test_mean_and_deviation_agree_with_the_standard_library(readings: list[D]) -> None:
    found = mean_of(readings)
    assert float(found.mean) == pytest.approx(float(mean(readings)), abs=1e-9)
    assert float(found.deviation) == pytest.approx(stdev(float(r) for r in readings), abs=1e-6)


@pytest.mark.parametrize(
    ("rate", "seconds", "u"), [("310", 30, 31.2), ("24", 30, 2.56), ("12", None, 1.6248), ("0", 10, 0.0)]
)
def test_counted_errors(rate: str, seconds: int | None, u: float) -> None:
    # u = sqrt(C/T), with 10 % for seating the disc anew. Common practice, no source.
    time = None if seconds is None else D(seconds)
    found = reading_u(Counted(), Repeatability(D("0.1")), D(rate), time)
    assert near(found.u, u, 0.05)


def test_counting_for_less_than_ten_seconds_is_refused() -> None:
    with pytest.raises(FieldRefusal) as refused:
        model_u(Counted(), D(10), D(9))
    assert list(refused.value.fields) == ["seconds"]


def test_a_worked_out_quantity_has_no_model_of_its_own() -> None:
    with pytest.raises(ValueError):
        model_u(Propagated(), D(1))


def test_ratio_with_relative_uncertainties_in_quadrature() -> None:
    ratio, u = ratio_u(D("54.3"), D("1.131818"), D("48.6"), D("1.013336"))
    assert near(ratio, 1.117284)
    assert near(u, 0.032940, 5e-6)


@pytest.mark.parametrize(("value", "reference"), [("0", "1"), ("1", "0")])
def test_a_ratio_with_nothing_has_no_relative_uncertainty(value: str, reference: str) -> None:
    with pytest.raises(ValueError):
        ratio_u(D(value), D(1), D(reference), D(1))


def test_repeatability_is_never_below_nothing() -> None:
    assert Repeatability(D(0), D(1)).at(D(-48)) == 1
    assert Repeatability().at(D(-50)) == 1
    assert model_u(Fixed(D(0), D("0.01")), D(-130)) == D("1.30")
