"""Springs, shims and screws. Sums: common practice, no source."""

from decimal import Decimal

import pytest

from app.trade.bench.mechanics import lines_shift, screw_tilt, shim_tilt, spring_force
from app.trade.refusal import FieldRefusal

D = Decimal


def test_a_shim_under_a_spring() -> None:
    before, after = spring_force(D("0.80"), D("2.5")), spring_force(D("0.80"), D("2.8"))
    assert (before, after, after / before) == (D("2.000"), D("2.240"), D("1.12"))


def test_a_shim_tilts_and_the_lines_move() -> None:
    tilt = shim_tilt(D("0.10"), D(42))
    assert tilt == pytest.approx(0.136418, abs=5e-7)
    assert lines_shift(tilt, D(300)) == pytest.approx(1.4286, abs=5e-5)


def test_a_quarter_turn_of_a_fine_screw() -> None:
    assert screw_tilt(D("0.5"), D("0.25"), D(42)) == pytest.approx(0.170523, abs=5e-7)


def test_a_pivot_is_somewhere_else_than_the_shim() -> None:
    with pytest.raises(FieldRefusal) as refused:
        shim_tilt(D("0.1"), D(0))
    assert list(refused.value.fields) == ["distance"]
