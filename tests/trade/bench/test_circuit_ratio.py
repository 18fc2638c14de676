"""k: all live changes of a circuit together, against the maker's values.

Worked numbers: common practice, no source; computed by hand beside each check.
"""

from __future__ import annotations

from datetime import UTC, datetime
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.bench.circuit_ratio import (
    CircuitRatio,
    circuit_ratios,
    gain_db,
    heat,
    shown_db,
    shown_k,
)
from app.trade.bench.modifications import Circuit, Kind, Law, Modification
from app.trade.sentence import Measure


def only(*modifications: Modification) -> CircuitRatio:
    (ratio,) = circuit_ratios(modifications)
    return ratio


def across(modification: Any, ohms: str, **given: Any) -> Modification:
    made: Modification = modification(kind=Kind.PARALLEL, new_value=Decimal(ohms), **given)
    return made


def k_of(ratio: CircuitRatio) -> float:
    assert ratio.k is not None
    return float(ratio.k)


def test_a_smaller_setting_resistor_raises_the_current(modification: Any) -> None:
    ratio = only(modification())
    assert k_of(ratio) == pytest.approx(6.8 / 5.6)  # 1.214286
    assert ratio.k is not None
    assert shown_k(ratio.k) == Decimal("1.214")
    assert shown_k(heat(ratio.k)) == Decimal("1.474")
    assert shown_db(ratio.k) == Measure(Decimal("1.69"), "dB", signed=True)


def test_two_resistors_across_one_are_judged_together(modification: Any) -> None:
    maker = {"maker_value": Decimal("8.2"), "where": "R21"}
    first = across(modification, "22", number=1, **maker)
    second = across(modification, "39", number=2, **maker)
    assert k_of(only(first, second)) == pytest.approx(1.582984, abs=5e-7)  # 1 + 8.2/22 + 8.2/39
    assert k_of(only(first)) == pytest.approx(1.372727, abs=5e-7)  # 1 + 8.2/22
    assert k_of(only(second)) == pytest.approx(1.210256, abs=5e-7)  # 1 + 8.2/39, never yesterday's 1.153


def test_the_second_step_looks_small_and_crosses_the_line(modification: Any) -> None:
    both = only(across(modification, "15", number=1), across(modification, "33", number=2))
    assert k_of(both) == pytest.approx(1.659394, abs=5e-7)  # 1.453333 x 1.141785
    assert both.k is not None
    assert float(heat(both.k)) == pytest.approx(2.753588, abs=5e-7)


def test_a_resistor_in_series_lowers_the_current(modification: Any) -> None:
    ratio = only(modification(kind=Kind.SERIES, new_value=Decimal("1.5")))
    assert k_of(ratio) == pytest.approx(0.819277, abs=5e-7)  # 6.8 / 8.3


def test_feedback_goes_the_other_way(modification: Any) -> None:
    change = across(
        modification, "180e3", law=Law.GAIN, maker_value=Decimal("47e3"), circuit=Circuit.SERVO_GAIN
    )
    ratio = only(change)
    assert k_of(ratio) == pytest.approx(0.792952, abs=5e-7)  # 37.2687k / 47k
    assert not ratio.of_current
    assert ratio.k is not None
    assert float(gain_db(ratio.k)) == pytest.approx(-2.0150, abs=5e-4)


def test_two_places_of_one_circuit_multiply(modification: Any) -> None:
    ratio = only(modification(number=1), modification(number=2, where="R315"))
    assert k_of(ratio) == pytest.approx((6.8 / 5.6) ** 2)
    assert ratio.places == ("R314", "R315")


def test_one_place_written_in_two_ways_is_one_place(modification: Any) -> None:
    ratio = only(across(modification, "15", where="R314"), across(modification, "33", where="r314 "))
    assert k_of(ratio) == pytest.approx(1.659394, abs=5e-7)
    assert ratio.places == ("R314",)


def test_a_factor_that_is_ten_per_cent_on_paper_is_not_more(modification: Any) -> None:
    assert only(across(modification, "10", maker_value=Decimal(1))).k == Decimal("1.1")
    # 1.21 / 1.1 and 1.1 / 1.21 of two places end at one again.
    up = modification(number=1, where="R1", maker_value=Decimal("1.21"), new_value=Decimal("1.1"))
    down = modification(number=2, where="R2", maker_value=Decimal("1.1"), new_value=Decimal("1.21"))
    assert only(up, down).k == Decimal(1)


def test_a_change_without_a_law_gets_no_number(modification: Any) -> None:
    ratio = only(modification(kind=Kind.TRIMMER, law=Law.NEITHER, maker_value=None, new_value=None))
    assert ratio.k is None
    assert ratio.without_law == 1
    mixed = only(modification(), modification(number=2, law=Law.NEITHER, maker_value=None))
    assert k_of(mixed) == pytest.approx(6.8 / 5.6)
    assert mixed.without_law == 1


def test_a_reversed_change_counts_no_longer(modification: Any, put_back: Any) -> None:
    assert circuit_ratios([modification(reversal=put_back())]) == ()


def test_each_circuit_is_judged_by_itself(modification: Any) -> None:
    radial, focus = circuit_ratios([modification(), modification(number=2, circuit=Circuit.FOCUS_COIL)])
    assert (radial.circuit, focus.circuit) == (Circuit.RADIAL_COIL, Circuit.FOCUS_COIL)


ohms = st.decimals(min_value="0.1", max_value="1000", places=2)


def all_across(maker: Decimal, added: list[Decimal]) -> list[Modification]:
    return [
        Modification(
            number=number,
            job=1,
            kind=Kind.PARALLEL,
            circuit=Circuit.RADIAL_COIL,
            where="R1",
            law=Law.CURRENT,
            maker_value=maker,
            new_value=value,
            at=datetime(2026, 11, 24, tzinfo=UTC),
        )
        for number, value in enumerate(added)
    ]


@given(ohms, st.lists(ohms, min_size=1, max_size=4))
def test_parallel_parts_add_up_whatever_their_order(maker: Decimal, added: list[Decimal]) -> None:
    forward, backward = only(*all_across(maker, added)), only(*all_across(maker, added[::-1]))
    assert forward.k == backward.k
    assert k_of(forward) == pytest.approx(float(1 + sum(maker / value for value in added)))
