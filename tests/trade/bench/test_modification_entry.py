"""What cannot be right in a modification as it was entered."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from app.trade.bench.modification_entry import fields_refused
from app.trade.bench.modifications import Circuit, Kind, Law


def test_a_plain_change_is_taken_as_it_is(modification: Any) -> None:
    assert fields_refused(modification()) == {}


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"where": "  "}, "where"),
        ({"new_value": None}, "new_value"),
        ({"maker_value": None}, "maker_value"),  # no factor without it
        ({"new_value": Decimal(0)}, "new_value"),
        ({"new_value": Decimal("-5.6")}, "new_value"),
        ({"maker_value": Decimal("1e9")}, "maker_value"),
        ({"new_value": Decimal("6.80")}, "new_value"),  # the maker's own value
        ({"circuit": Circuit.LASER_SUPPLY}, "law"),  # a power loop answers to light
        ({"rating": Decimal(0), "power": Decimal("0.02")}, "rating"),
        ({"rating": Decimal("0.125"), "power": Decimal(-1)}, "power"),
        ({"power": Decimal("0.02")}, "rating"),
    ],
)
def test_a_slip_is_named_at_its_field(given: dict[str, Any], field: str, modification: Any) -> None:
    assert list(fields_refused(modification(**given))) == [field]


def test_a_found_resistor_without_the_makers_value_is_taken_without_a_law(modification: Any) -> None:
    assert fields_refused(modification(maker_value=None, law=Law.NEITHER)) == {}


def test_a_parallel_part_may_have_the_makers_value(modification: Any) -> None:
    assert fields_refused(modification(kind=Kind.PARALLEL, new_value=Decimal("6.8"))) == {}


def test_a_part_far_below_its_rating_is_fine(modification: Any) -> None:
    assert fields_refused(modification(power=Decimal("0.02"), rating=Decimal("0.125"))) == {}


def test_a_law_belongs_to_resistors_only(unlawful: Any) -> None:
    trimmer = unlawful(Kind.TRIMMER, Circuit.SERVO_GAIN, law=Law.GAIN)
    assert list(fields_refused(trimmer)) == ["law"]
    assert fields_refused(unlawful(Kind.TRIMMER, Circuit.SERVO_GAIN)) == {}


@pytest.mark.parametrize(
    ("kind", "circuit", "fields"),
    [
        (Kind.FUSE, Circuit.FUSE, ["now", "was"]),
        (Kind.OTHER_TYPE, Circuit.SIGNAL, ["now", "was"]),
        (Kind.WIRING, Circuit.MAINS, ["now"]),
        (Kind.INTERLOCK, Circuit.INTERLOCK, ["now"]),
        (Kind.MECHANICAL, Circuit.MECHANICS, ["now"]),
        (Kind.OTHER, Circuit.OTHER, ["now"]),
    ],
)
def test_a_change_without_numbers_needs_words(
    kind: Kind, circuit: Circuit, fields: list[str], unlawful: Any
) -> None:
    assert list(fields_refused(unlawful(kind, circuit))) == fields
    assert fields_refused(unlawful(kind, circuit, now="foil", was="T 315 mA")) == {}


def test_a_fuse_is_at_home_in_the_fuse_circuit(unlawful: Any) -> None:
    assert list(fields_refused(unlawful(Kind.FUSE, Circuit.MAINS, now="foil", was="T 1 A"))) == ["circuit"]


def test_a_changed_rail_needs_both_voltages(unlawful: Any) -> None:
    rail = {"kind": Kind.SUPPLY, "circuit": Circuit.SUPPLY_RAIL}
    assert list(fields_refused(unlawful(**rail))) == ["maker_value", "new_value"]
    assert fields_refused(unlawful(**rail, maker_value=Decimal(-12), new_value=Decimal("-11.4"))) == {}
    wrong = unlawful(**rail, maker_value=Decimal(0), new_value=Decimal(230))
    assert list(fields_refused(wrong)) == ["maker_value", "new_value"]


@pytest.mark.parametrize("kind", [Kind.FIRMWARE, Kind.JUMPER])
def test_firmware_and_jumpers_are_told_by_what_was_and_what_is(kind: Kind, unlawful: Any) -> None:
    assert set(fields_refused(unlawful(kind, Circuit.OTHER))) == {"was", "now"}
    assert fields_refused(unlawful(kind, Circuit.OTHER, was="1.02", now="1.10")) == {}
    same = fields_refused(unlawful(kind, Circuit.OTHER, was="A-B", now="a-b "))
    assert list(same) == ["now"]
