"""Changes that part a run of readings."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from app.trade.bench import line_breaks
from app.trade.bench.line_breaks import change_parts, renewal_parts
from app.trade.bench.modifications import Circuit

CATALOGUE = Path(__file__).parents[3] / "assets/bench/quantities.json"


@pytest.mark.parametrize(
    ("quantity", "circuit", "parted"),
    [
        ("laser_current", Circuit.LASER_SUPPLY, True),
        ("laser_current", Circuit.RADIAL_COIL, False),
        ("radial_drive", Circuit.RADIAL_COIL, True),
        ("focus_coil_r", Circuit.FOCUS_COIL, False),  # a resistor outside leaves the coil as it is
        ("tilt_rad", Circuit.MECHANICS, True),
        ("seek_time", Circuit.FUSE, False),
    ],
)
def test_a_modification_parts_what_it_acts_on(quantity: str, circuit: Circuit, parted: bool) -> None:
    assert change_parts(quantity, circuit) is parted


def test_a_new_diode_has_its_own_story_and_a_new_motor_leaves_it() -> None:
    assert renewal_parts("laser_current", new_label=True)
    assert not renewal_parts("laser_current", new_label=False)
    assert renewal_parts("motor_current", new_label=False)


def test_every_quantity_named_is_one_that_the_bench_knows() -> None:
    known = {row["id"] for row in json.loads(CATALOGUE.read_text(encoding="utf-8"))}
    named = set().union(*line_breaks._ACTS_ON.values()) | line_breaks.LASER
    assert named - known == set()
