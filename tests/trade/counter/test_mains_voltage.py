"""The mains voltage as it stands on the plate."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.bench.stages import MainsClass
from app.trade.counter.mains_voltage import check_voltage, volts


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("230", [230]),
        ("230 V ~ 50 Hz", [230]),
        ("110/220 V, 50/60 Hz, 18 W", [110, 220]),
        ("100-240V 50-60Hz 0,2A", [100, 240]),
        ("AC 240 V 15VA", [240]),
        ("4,5 V 700 mA", [Decimal("4.5")]),
        ("mains", []),
        ("50 Hz", []),
    ],
)
def test_the_plate_is_read_without_frequency_power_and_current(text: str, named: list[Decimal]) -> None:
    assert list(volts(text)) == named


@pytest.mark.parametrize(
    ("text", "mains_class", "right"),
    [
        ("", MainsClass.I, True),
        ("230 V", MainsClass.I, True),
        ("110/220", MainsClass.II, True),
        ("12 V", MainsClass.II, False),
        ("400 V", MainsClass.I, False),
        ("6 V", MainsClass.BATTERY, True),
        ("230 V", MainsClass.BATTERY, False),
        ("9 V", MainsClass.EXTERNAL, True),
        ("230 V", MainsClass.EXTERNAL, True),  # the supply's own plate
        ("12 V", MainsClass.NOT_KNOWN, True),
        ("mains", MainsClass.NOT_KNOWN, False),
        ("230 V " + "x" * 40, MainsClass.I, False),
    ],
)
def test_a_voltage_fits_its_class(text: str, mains_class: MainsClass, right: bool) -> None:
    assert (check_voltage(text, mains_class) is None) is right


@given(st.text(max_size=50), st.sampled_from(MainsClass))
def test_no_text_breaks_the_check(text: str, mains_class: MainsClass) -> None:
    check_voltage(text, mains_class)
