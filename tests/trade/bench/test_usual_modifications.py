"""Where the entry of a modification begins, by the change that left it."""

from __future__ import annotations

import pytest

from app.trade.bench.changes import Leaves
from app.trade.bench.modifications import Circuit, Kind
from app.trade.bench.usual_modifications import USUAL, usual_of
from tests.trade.bench.test_changes import CHANGES


@pytest.mark.parametrize("change", [c for c in CHANGES.values() if c.leaves is not Leaves.NOTHING])
def test_each_change_that_may_stay_says_where_its_entry_begins(change: object) -> None:
    assert usual_of(change.id) is not None  # type: ignore[attr-defined]


def test_every_change_named_is_one_that_ships() -> None:
    assert set(USUAL) <= set(CHANGES)


def test_raised_coil_current_is_a_resistor_of_the_radial_coil_and_laser_power_a_trimmer() -> None:
    assert (usual_of("coil_current").kind, usual_of("coil_current").circuit) == (  # type: ignore[union-attr]
        Kind.REPLACED,
        Circuit.RADIAL_COIL,
    )
    assert usual_of("laser_set").kind is Kind.TRIMMER  # type: ignore[union-attr]


def test_cleaning_or_a_change_of_the_shop_s_own_begins_with_nothing() -> None:
    assert usual_of("clean_lens") is None
    assert usual_of("") is None
