"""Preferred values and changes designed backwards."""

from datetime import UTC
from decimal import Decimal

import eseries
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.bench.preferred_values import E24, added_for, nearest_e24
from app.trade.refusal import FieldRefusal
from app.trade.wording import plain

D = Decimal


def test_the_list_is_that_of_iec_60063() -> None:
    # IEC 60063 as `eseries` carries it; eight values differ from the rounded formula.
    assert list(eseries.series(eseries.ESeries.E24)) == list(E24)
    formula = [round(10 * 10 ** (n / 24)) for n in range(24)]
    assert [value for value, by_formula in zip(E24, formula, strict=True) if value != by_formula] == [
        27, 30, 33, 36, 39, 43, 47, 82,
    ]  # fmt: skip


@given(st.decimals("0.01", "1000000", places=3).filter(lambda ohms: ohms > 0))
def test_nearest_value_is_as_near_as_the_one_of_eseries(ohms: D) -> None:
    ours = nearest_e24(ohms)
    theirs = eseries.find_nearest(eseries.ESeries.E24, float(ohms))
    assert abs(float(ours) - float(ohms)) <= abs(theirs - float(ohms)) * (1 + 1e-9) + 1e-12
    scaled = ours.scaleb(1 - ours.adjusted())
    assert scaled in [D(value) for value in E24]


@pytest.mark.parametrize(
    ("ohms", "value"),
    [("27.2", "27"), ("9.6", "10"), ("9.5", "9.1"), ("10", "10"), ("0.46", "0.47"), ("95.5", "91")],
)
def test_nearest_across_the_decades(ohms: str, value: str) -> None:
    assert nearest_e24(D(ohms)) == D(value)


def test_designed_backwards_for_a_quarter_more_current() -> None:
    # Common practice, no source.
    found = added_for(D("6.8"), D("1.25"))
    assert (found.exact, found.preferred) == (D("27.2"), D(27))
    assert float(found.effect.ratio) == pytest.approx(1.251852, abs=5e-7)
    assert plain(UTC)(found.summary).replace("\u00a0", " ") == (
        "27.2 Ω would give it; with 27 Ω: Current ×1.252, loop gain +1.95 dB, coil heat ×1.567"
    )


@pytest.mark.parametrize("ratio", ["1", "0.9", "NaN"])
def test_a_resistor_across_only_raises_the_current(ratio: str) -> None:
    with pytest.raises(FieldRefusal) as refused:
        added_for(D("6.8"), D(ratio))
    assert list(refused.value.fields) == ["ratio"]


@pytest.mark.parametrize("ohms", ["0", "-1", "Infinity"])
def test_no_preferred_value_for_no_resistance(ohms: str) -> None:
    with pytest.raises(FieldRefusal):
        nearest_e24(D(ohms))
