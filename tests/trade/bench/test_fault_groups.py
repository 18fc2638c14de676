"""Fault groups as shipped: what they hold, and which one a stopped start-up proposes."""

import copy
import json
from collections.abc import Callable
from datetime import UTC
from pathlib import Path
from typing import Any

import pytest

from app.trade.bench.fault_groups import read_fault_groups
from app.trade.bench.kinds import FaultGroup
from app.trade.refusal import Refusal
from app.trade.wording import plain

SHIPPED = json.loads((Path(__file__).parents[3] / "assets/bench/lists.json").read_text(encoding="utf-8"))
GROUPS = read_fault_groups(SHIPPED)


def test_thirteen_groups_each_with_what_it_holds() -> None:
    assert list(GROUPS.meaning) == list(FaultGroup)
    assert GROUPS.meaning[FaultGroup.GEOMETRY] == "tilt and height"


def test_the_group_follows_from_the_first_rung_not_reached() -> None:
    # Common practice, no source.
    proposed = [GROUPS.proposed(rung) for rung in range(1, 13)]
    assert [group.value for group in proposed] == [
        "power", "loading", "radial", "light", "focus", "light", "spindle", "radial", "signal", "sound", "radial",
        "geometry",
    ]  # fmt: skip
    assert GROUPS.proposed(10, time_runs=False) is FaultGroup.SIGNAL
    assert GROUPS.proposed(9, time_runs=False) is FaultGroup.SIGNAL
    assert GROUPS.proposed(None) is FaultGroup.OTHER


@pytest.mark.parametrize(
    ("spoil", "what"),
    [
        (lambda d: d["fault_groups"].pop(), "the fault groups are not the thirteen in their order"),
        (lambda d: d["fault_groups"].append(d["fault_groups"][0]), "the fault groups are not the thirteen in their order"),
        (lambda d: d["fault_groups"][0].update(id="nowhere"), "nowhere is no fault group"),
        (lambda d: d["default_groups"].pop(), "the rungs are not 1 to 12 in their order"),
        (lambda d: d["default_groups"][0].update(group="nowhere"), "nowhere is no fault group"),
    ],
)  # fmt: skip
def test_lists_that_cannot_be_right_are_refused(spoil: Callable[[Any], None], what: str) -> None:
    data = copy.deepcopy(SHIPPED)
    spoil(data)
    with pytest.raises(Refusal) as refused:
        read_fault_groups(data)
    assert plain(UTC)(refused.value.sentence).endswith(f": {what}.")
