"""The numbers at which rules speak, and that safety can only be made stricter."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from app.trade.bench.thresholds import DEFAULTS, Thresholds, loosened, thresholds_refused


def test_the_shipped_numbers_are_taken() -> None:
    assert thresholds_refused(DEFAULTS) == {}
    assert loosened(DEFAULTS) is None


@pytest.mark.parametrize(
    ("field", "looser", "stricter"),
    [
        ("coil_up", Decimal("1.11"), Decimal("1.05")),
        ("coil_up_big", Decimal("1.51"), Decimal("1.30")),
        ("coil_hot", Decimal(41), Decimal(30)),
        ("laser_up", Decimal(111), Decimal(105)),
        ("laser_up_big", Decimal(121), Decimal(115)),
        ("part_warm", Decimal(51), Decimal(40)),
        ("supply_changed", Decimal("5.1"), Decimal(3)),
        ("supply_changed_big", Decimal(11), Decimal(8)),
        ("beyond_agreed_from", Decimal(90), Decimal(70)),
        ("pile", 4, 2),
    ],
)
def test_what_guards_people_can_be_made_stricter_only(
    field: str, looser: Decimal | int, stricter: Decimal | int
) -> None:
    assert list(thresholds_refused(replace(DEFAULTS, **{field: looser}))) == [field]
    assert loosened(replace(DEFAULTS, **{field: looser})) is not None
    assert thresholds_refused(replace(DEFAULTS, **{field: stricter})) == {}


def test_a_number_that_makes_no_sense_is_refused() -> None:
    wrong = Thresholds(coil_up=Decimal("0.9"), pile=1, comeback_days=0)
    assert set(thresholds_refused(wrong)) == {"coil_up", "pile", "comeback_days"}


def test_a_window_may_be_longer() -> None:
    assert thresholds_refused(Thresholds(comeback_days=365, calibration_grace_days=30)) == {}
