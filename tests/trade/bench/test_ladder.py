"""The start-up ladder as shipped, and what is refused in it."""

import copy
import json
from collections.abc import Callable
from datetime import UTC
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from app.trade.bench.changes import read_changes
from app.trade.bench.kinds import Arrangement, FaultGroup
from app.trade.bench.ladder import read_ladder
from app.trade.bench.quantities import catalogue_of
from app.trade.refusal import Refusal
from app.trade.wording import plain

SAY = plain(UTC)
ASSETS = Path(__file__).parents[3] / "assets/bench"


def shipped(name: str) -> Any:
    return json.loads((ASSETS / f"{name}.json").read_text(encoding="utf-8"))


LADDER = read_ladder(shipped("ladder"))
QUANTITIES = catalogue_of(shipped("quantities"))
CHANGES = read_changes(shipped("changes"), LADDER.suspects)
S, T = Arrangement.SWING_ARM, Arrangement.SLED


def test_twelve_rungs_twenty_two_rows_and_all_suspects() -> None:
    assert [rung.number for rung in LADDER.rungs] == list(range(1, 13))
    assert len(LADDER.rows) == 22
    assert len(LADDER.suspects) == 43
    assert {suspect.group for suspect in LADDER.suspects.values()} == set(FaultGroup)


def test_the_arm_and_the_sled_have_their_own_words() -> None:
    third = LADDER.rung(3)
    assert [SAY(third.name(a)) for a in (S, T, None)] == ["arm home", "sled home", "arm or sled home"]
    assert SAY(third.stop(S)) == "Tray and clamp work, but the arm does not swing home."
    assert [SAY(LADDER.rung(11).name(a)) for a in (S, T, None)] == ["long seek"] * 3


def test_a_swing_arm_is_never_suspected_of_a_sleds_parts() -> None:
    for row in LADDER.rows:
        for suspect in row.weights:
            assert LADDER.suspects[suspect].arrangement in (None, row.arrangement)
    assert "sled_rail" not in LADDER.row(11, S).weights
    assert LADDER.row(1, S) is LADDER.row(1, T)


def test_readings_and_changes_of_each_row_exist_fit_and_can_be_read_there() -> None:
    for row in LADDER.rows:
        for separating in row.readings:
            quantity = QUANTITIES[separating.quantity]
            assert quantity.fits(row.arrangement)
            assert quantity.readable(row.rung - 1), (row.rung, quantity.id)
        assert set(row.changes) <= set(CHANGES)
        assert row.readings
        assert row.changes


def test_a_rung_that_cannot_be_tested_takes_the_mean_with_the_next() -> None:
    # Common practice, no source: swing arm, rung 8 not testable, 18 suspects, worked by hand.
    weights = LADDER.weights(8, S, {8})
    assert len(weights) == 18
    assert sum(weights.values()) == 1
    assert [weights[s] for s in ("radial_magnet", "lens_dirt", "arm_drag", "laser_worn")] == [
        Decimal("0.15"), Decimal("0.14"), Decimal("0.14"), Decimal("0.095"),
    ]  # fmt: skip
    assert LADDER.weights(8, S) == dict(LADDER.row(8, S).weights)
    assert LADDER.weights(12, S, {12}) == dict(LADDER.row(12, S).weights)


def test_how_to_read_where_it_matters() -> None:
    assert [(r.quantity, r.how) for r in LADDER.row(11, T).readings] == [
        ("seek_time", "both ways"),
        ("sled_current", "over the stroke"),
    ]


def test_suspects_are_named_in_words() -> None:
    assert SAY(LADDER.suspects["arm_drag"].name) == "arm bearing or stop: dust, dried oil, dropped adhesive"


def _without(key: str, index: int) -> Callable[[Any], None]:
    return lambda data: data[key].pop(index)


def _weight(suspect: str, weight: str) -> Callable[[Any], None]:
    return lambda data: data["rows"][0]["priors"].__setitem__(suspect, weight)


def _suspect(**more: str) -> Callable[[Any], None]:
    return lambda data: data["suspects"][0].update(more)


def _other_weight(data: Any) -> None:
    data["rows"][0]["priors"].update(other="0.06", logic="0.04")


@pytest.mark.parametrize(
    ("spoil", "what"),
    [
        (_without("rungs", 0), "the rungs are not 1 to 12 in their order"),
        (_without("rows", 0), "rung 1 has 0 rows for swing-arm single-beam, not one"),
        (lambda data: data["rows"].append(data["rows"][0]), "rung 1 has 2 rows for swing-arm single-beam, not one"),
        (_weight("regulator", "0.21"), "the weights do not sum to 1"),
        (_weight("regulator", "0"), "the weight of regulator is not between 0 and 1"),
        (_weight("nobody", "0.01"), "nobody is no suspect here"),
        (_weight("sled_rail", "0.01"), "sled_rail is no suspect here"),
        (_other_weight, "the weight of other is not 0.05"),
        (_suspect(group="nowhere"), "nowhere is no fault group"),
        (lambda data: data["rows"][0]["works"].append("nowhere"), "nowhere is no fault group"),
        (_suspect(id="rail_caps"), "the id rail_caps stands there twice"),
        (lambda data: data["rungs"][0]["words"].update(X="x"), "nobody knows X"),
        (lambda data: data.update(more=[]), "nobody knows more"),
    ],
)  # fmt: skip
def test_a_ladder_that_cannot_be_right_is_refused(spoil: Callable[[Any], None], what: str) -> None:
    data = copy.deepcopy(shipped("ladder"))
    spoil(data)
    with pytest.raises(Refusal) as refused:
        read_ladder(data)
    assert SAY(refused.value.sentence).endswith(f": {what}.")
