"""The shop's own quantities beside those that ship."""

from __future__ import annotations

from decimal import Decimal

import pytest

from app.trade.refusal import FieldRefusal, StaleRow
from app.work.office.quantity_list import (
    code_for,
    own_quantities,
    quantity_list,
    save_quantity,
    shipped_content,
)

HUM = {
    "words": "hum on the output",
    "unit": "mV",
    "decimals": 1,
    "range": ["0", "500"],
    "example": "0.8",
    "model": {"percent": "1", "digits": "2", "step": "0.1"},
    "repeatability": {"share": "0.05"},
    "arrangement": "B",
    "needs": 1,
}


def by_code(shop):
    return {quantity.id: quantity for quantity in quantity_list(shop.book)}


def test_the_shipped_ones_are_all_there(shop):
    assert len(quantity_list(shop.book)) == 50
    assert own_quantities(shop.book) == {}


def test_a_quantity_of_its_own_stands_behind_them(shop):
    code = code_for(shop.book, "Hum on the Output, left")
    assert code == "own_hum_on_the_output"
    save_quantity(shop.book, shop.ine, code, HUM)
    added = quantity_list(shop.book)[-1]
    assert (added.id, added.words, added.example) == (code, "hum on the output", Decimal("0.8"))
    own = own_quantities(shop.book)[code]
    assert (own.version, own.shipped, own.retired, own.content) == (1, False, False, HUM)


def test_a_code_is_never_given_twice(shop):
    save_quantity(shop.book, shop.ine, "own_hum", HUM)
    assert code_for(shop.book, "hum") == "own_hum_2"
    save_quantity(shop.book, shop.ine, "own_hum_2", HUM, retired=True)
    assert code_for(shop.book, "hum") == "own_hum_3"


def test_a_shipped_quantity_keeps_what_the_shop_did_not_change(shop):
    save_quantity(shop.book, shop.ine, "seek_time", {"decimals": 3})
    changed = by_code(shop)["seek_time"]
    assert (changed.decimals, changed.words) == (3, "seek time, first to last track")
    assert own_quantities(shop.book)["seek_time"].shipped


def test_a_retired_quantity_leaves_the_list(shop):
    save_quantity(shop.book, shop.ine, "own_hum", HUM)
    save_quantity(shop.book, shop.ine, "own_hum", HUM, version=1, retired=True)
    assert "own_hum" not in by_code(shop)


def test_the_second_saver_is_told(shop):
    save_quantity(shop.book, shop.ine, "own_hum", HUM)
    save_quantity(shop.book, shop.ine, "own_hum", {**HUM, "decimals": 2}, version=1)
    with pytest.raises(StaleRow) as stale:
        save_quantity(shop.book, shop.ine, "own_hum", HUM, version=1)
    assert stale.value.theirs["content"]["decimals"] == 2


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"words": " "}, "words"),
        ({"words": "x" * 61}, "words"),
        ({"unit": "furlong"}, "unit"),
        ({"range": ["5", "1"]}, "range"),
        ({"range": ["1"]}, "range"),
        ({"range": ["low", "high"]}, "range"),
        ({"range": ["0", "Infinity"]}, "range"),
        ({"example": "501"}, "example"),
        ({"example": ""}, "example"),
        ({"needs": 13}, "content"),
        ({"arrangement": "X"}, "content"),
    ],
)
def test_what_cannot_be_right_is_refused_by_its_field(shop, change, field):
    with pytest.raises(FieldRefusal) as refusal:
        save_quantity(shop.book, shop.ine, "own_hum", {**HUM, **change})
    assert set(refusal.value.fields) == {field}
    assert "own_hum" not in by_code(shop)


def test_how_a_quantity_ships_can_be_asked_for(shop):
    assert shipped_content("hf_eye")["unit"] == "Vpp"
    assert shipped_content(code_for(shop.book, "Hum")) is None
