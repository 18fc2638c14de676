"""Differences of two readings, and when they are a real change. Sums: common practice, no source."""

from datetime import UTC
from decimal import Decimal

import pytest

from app.trade.bench.difference import Between, difference, difference_by, ratio_between
from app.trade.bench.uncertainty import Accuracy, Counted, Fixed, Repeatability, reading_u
from app.trade.wording import plain

D = Decimal

SAY = plain(UTC)
LASER = Accuracy(D(1), D(0), D("0.2"))
SEEK = Fixed(D("0.09"))


@pytest.mark.parametrize(
    ("model", "repeat", "before", "after", "z", "real"),
    [
        (SEEK, Repeatability(), "4.8", "4.7", -0.54, False),
        (SEEK, Repeatability(), "4.7", "4.8", 0.54, False),
        (SEEK, Repeatability(), "4.7", "1.3", -21.2, True),
        (Accuracy(D(1), D(0), D(5)), Repeatability(), "228", "188", -6.17, True),
        (Accuracy(D("0.5"), D(2), D(1)), Repeatability(D(0), D(2)), "-38", "-4", 10.2, True),
        (Fixed(D("0.2")), Repeatability(), "7.4", "2.6", -14.8, True),
        (LASER, Repeatability(), "48.6", "54.3", 3.7521, True),
    ],
)
def test_a_change_is_real_beyond_two_uncertainties(
    model: Accuracy | Fixed, repeat: Repeatability, before: str, after: str, z: float, real: bool
) -> None:
    u_before, u_after = (reading_u(model, repeat, D(y)).u for y in (before, after))
    found = difference(D(before), u_before, D(after), u_after)
    assert found.z is not None
    assert float(found.z) == pytest.approx(z, abs=0.05)
    assert found.real is real
    assert SAY(found.sentence) == ("a real change" if real else "no difference shown")


def test_counted_errors_before_and_after_a_tilt_was_set() -> None:
    u_before, u_after = (
        reading_u(Counted(), Repeatability(D("0.1")), D(rate), D(30)).u for rate in (310, 24)
    )
    found = difference(D(310), u_before, D(24), u_after)
    assert found.z is not None
    assert float(found.z) == pytest.approx(-9.1, abs=0.05)


@pytest.mark.parametrize(
    ("between", "u", "z"),
    [
        (Between.OTHER_INSTRUMENT, 1.519165, 3.7521),
        (Between.SEATED_ANEW, 1.4601, 3.90),
        (Between.LEFT_ON, 0.0880, 64.7),
    ],
)
def test_what_one_instrument_adds_to_both_readings_cancels(between: Between, u: float, z: float) -> None:
    found = difference_by(LASER, Repeatability(), D("48.6"), D("54.3"), between)
    assert float(found.u) == pytest.approx(u, abs=5e-5)
    assert found.z is not None
    assert float(found.z) == pytest.approx(z, abs=0.06)


def test_fixed_digits_of_a_meter_drop_out_of_the_difference_of_a_coil() -> None:
    coil = Accuracy(D("0.5"), D(2), D("0.1"))
    left_on = difference_by(coil, Repeatability(D(0), D("0.1")), D("14.0"), D("14.5"), Between.LEFT_ON)
    assert float(left_on.u) == pytest.approx(0.0408, abs=1e-4)  # two steps of 0.1 ohm
    anew = difference_by(coil, Repeatability(D(0), D("0.1")), D("14.0"), D("14.5"), Between.SEATED_ANEW)
    assert float(anew.u) == pytest.approx(0.1472, abs=1e-4)


def test_of_a_stopwatch_nothing_cancels() -> None:
    found = difference_by(SEEK, Repeatability(), D("4.8"), D("4.7"), Between.LEFT_ON)
    assert float(found.u) == pytest.approx(0.09 * 2**0.5)


def test_without_any_uncertainty_every_difference_is_real_and_z_has_no_meaning() -> None:
    found = difference(D(1), D(0), D(2), D(0))
    assert (found.z, found.real) == (None, True)
    assert not difference(D(1), D(0), D(1), D(0)).real


def test_ratio_of_after_to_before() -> None:
    ratio, u = ratio_between(D("48.6"), D("1.013336"), D("54.3"), D("1.131818"))
    assert (float(ratio), float(u)) == (pytest.approx(1.117284, abs=5e-7), pytest.approx(0.03294, abs=5e-6))
