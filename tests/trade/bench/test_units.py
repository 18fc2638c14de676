"""Units: their way to SI and back, and the prefix they are shown with."""

from datetime import UTC
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.bench.units import PREFIXES, SIGNS, UNITS
from app.trade.wording import plain

D = Decimal

SAY = plain(UTC)


@pytest.mark.parametrize(
    ("unit", "shown", "si"),
    [
        ("mA", "51.2", "0.0512"),
        ("MΩ", "100", "1.00E+8"),
        ("%", "106.7", "1.067"),
        ("°C", "48", "48"),
        ("ns", "24", "2.4E-8"),
    ],
)
def test_to_si_and_back_with_the_digits_kept(unit: str, shown: str, si: str) -> None:
    assert UNITS[unit].to_si(D(shown)) == D(si)
    assert str(UNITS[unit].to_si(D(shown)).normalize()) == str(D(si).normalize())
    assert UNITS[unit].to_shown(D(si)) == D(shown)


def test_degrees_are_kept_as_radians() -> None:
    # pi/180, from memory.
    assert float(UNITS["°"].to_si(D(180))) == pytest.approx(3.141592653589793)
    assert float(UNITS["°"].to_shown(D("3.141592653589793"))) == pytest.approx(180)


@pytest.mark.parametrize(("unit", "scale"), [("mA", "0.001"), ("Ω", "1"), ("MΩ", "1E+6"), ("%", "0.01")])
def test_scale_is_one_of_the_shown_unit_in_si(unit: str, scale: str) -> None:
    assert UNITS[unit].scale == D(scale)


@pytest.mark.parametrize(
    ("unit", "value", "said"),
    [
        ("Ω", "4.7E+3", "4.7 kΩ"),
        ("Ω", "1.5E+6", "1.5 MΩ"),
        ("Ω", "999", "999 Ω"),
        ("Ω", "1E+3", "1 kΩ"),
        ("Ω", "0.1", "0.1 Ω"),
        ("Ω", "0.047", "47 mΩ"),
        ("MΩ", "2.0E+4", "20 GΩ"),
        ("MΩ", "0.0047", "4.7 kΩ"),
        ("mA", "0.0022", "2.2 µA"),
        ("mA", "-1500", "−1.500 A"),
        ("mVpp", "0.05", "50 µVpp"),
        ("mm", "9999", "9.999 m"),
        ("µF", "0.00047", "470 pF"),
        ("Ω", "0", "0 Ω"),
        ("Ω", "1E+15", "1000000000000000 Ω"),  # no prefix for it here
        ("%", "0.01", "0.01 %"),
        ("/s", "7350", "7350 /s"),
    ],
)
def test_the_prefix_fits_the_size(unit: str, value: str, said: str) -> None:
    assert SAY.measure(UNITS[unit].engineering(D(value))).replace("\u00a0", " ") == said


@given(st.sampled_from(sorted(UNITS)), st.decimals(-(10**6), 10**6, places=4))
def test_there_and_back_is_the_same_number(unit: str, shown: D) -> None:
    found = UNITS[unit]
    assert float(found.to_shown(found.to_si(shown))) == pytest.approx(float(shown), rel=1e-20, abs=1e-20)


def test_every_prefix_that_is_read_can_be_shown() -> None:
    assert set(PREFIXES.values()) <= set(SIGNS)
    assert all(name == unit.shown for name, unit in UNITS.items())
