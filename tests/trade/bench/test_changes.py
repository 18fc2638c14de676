"""The catalogue of changes as shipped, and what is refused in it."""

import json
from datetime import UTC
from pathlib import Path
from typing import Any

import pytest

from app.trade.bench.changes import Grade, Leaves, read_changes
from app.trade.bench.ladder import read_ladder
from app.trade.refusal import Refusal
from app.trade.wording import plain

ASSETS = Path(__file__).parents[3] / "assets/bench"
SHIPPED = json.loads((ASSETS / "changes.json").read_text(encoding="utf-8"))
SUSPECTS = read_ladder(json.loads((ASSETS / "ladder.json").read_text(encoding="utf-8"))).suspects
CHANGES = read_changes(SHIPPED, SUSPECTS)


def test_all_thirty_seven_changes_are_there() -> None:
    assert len(CHANGES) == 37
    assert plain(UTC)(CHANGES["flex_dress"].name) == "flex led differently"
    assert CHANGES["flex_dress"].addresses == {"flex_drag": Grade.AIMS, "flex": Grade.BY_THE_WAY}
    assert CHANGES["clean_clamp"].addresses["clamp"] is Grade.OFTEN


def test_every_suspect_but_other_is_addressed_by_something() -> None:
    addressed = {suspect for change in CHANGES.values() for suspect in change.addresses}
    assert set(SUSPECTS) - addressed == {"other"}


def test_more_coil_current_is_a_modification_and_establishes_no_cause() -> None:
    raised = CHANGES["coil_current"]
    assert raised.leaves is Leaves.MODIFICATION
    assert set(raised.addresses.values()) == {None}
    assert [change.id for change in CHANGES.values() if change.leaves is Leaves.MODIFICATION] == [
        "coil_current"
    ]
    assert CHANGES["transport_swap"].leaves is Leaves.FITTING


def test_what_leaves_nothing_and_is_done_in_ten_minutes_comes_first() -> None:
    quick = [change.id for change in CHANGES.values() if change.quick]
    assert quick == ["other_disc", "reseat", "clean_lens", "clean_clamp", "flex_dress"]


def changed(**more: Any) -> list[dict[str, Any]]:
    return [{**SHIPPED[0], **more}]


@pytest.mark.parametrize(
    ("rows", "what"),
    [
        (changed(leaves="a mess"), "a mess is nothing that a change leaves"),
        (changed(addresses={"nobody": "A"}), "nobody is no suspect"),
        (changed(addresses={"disc": "D"}), "the grade of disc is none of A, B and C"),
        (changed(leaves="modification"), "a change that leaves a modification has no grade"),
        (changed(minutes=0), "minutes is no whole number from 1 to 600"),
        ([SHIPPED[0], SHIPPED[0]], "the id other_disc stands there twice"),
    ],
)  # fmt: skip
def test_changes_that_cannot_be_right_are_refused(rows: list[dict[str, Any]], what: str) -> None:
    with pytest.raises(Refusal) as refused:
        read_changes(rows, SUSPECTS)
    assert plain(UTC)(refused.value.sentence).endswith(f": {what}.")


def test_what_turns_the_grating_or_opens_the_pick_up_is_kept_for_last() -> None:
    assert {change.id for change in CHANGES.values() if change.last} == {
        "clean_behind",
        "grating_set",
        "pickup_renew",
    }
