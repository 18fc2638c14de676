"""Transport types, limits with their source, and instruments with their calibration."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from app.trade.bench.kinds import Arrangement
from app.trade.refusal import FieldRefusal, StaleRow
from app.work.office.shop_lists import (
    InstrumentLine,
    LimitLine,
    TypeLine,
    instruments,
    limits,
    save_instrument,
    save_limit,
    save_transport_type,
    transport_types,
)

VELK = TypeLine(
    name=" Velk A1 ",
    arrangement=Arrangement.SWING_ARM,
    has_transit_lock=True,
    not_testable=(3,),
    sheet=("laser_current", "seek_time"),
    note="Arm bearing dries out.",
)
SEEK = LimitLine(quantity="seek_time", source="maker's sheet 7, page 12", high=Decimal("1.5"))
METER = InstrumentLine(name="Bench meter", kind="multimeter", serial="44 1", percent=Decimal("0.5"))


@pytest.fixture
def velk(shop):
    return save_transport_type(shop.book, shop.ine, VELK).value


def fields_of(deed, *args):
    with pytest.raises(FieldRefusal) as refusal:
        deed(*args)
    return set(refusal.value.fields)


def test_a_transport_type_is_kept_as_entered(shop, velk):
    (line,) = transport_types(shop.book)
    assert line == replace(VELK, name="Velk A1", id=velk, version=1)


def test_a_type_is_changed_and_retired(shop, velk):
    (line,) = transport_types(shop.book)
    save_transport_type(shop.book, shop.ine, replace(line, sheet=("seek_time",), retired=True))
    assert transport_types(shop.book) == ()
    assert transport_types(shop.book, retired=True)[0].sheet == ("seek_time",)


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"name": ""}, "name"),
        ({"name": "x" * 81}, "name"),
        ({"note": "x" * 601}, "note"),
        ({"not_testable": (0,)}, "not_testable"),
        ({"not_testable": (13,)}, "not_testable"),
        ({"sheet": ("nonsense",)}, "sheet"),
    ],
)
def test_a_type_that_cannot_be_right_is_refused_by_its_field(shop, change, field):
    assert fields_of(save_transport_type, shop.book, shop.ine, replace(VELK, **change)) == {field}
    assert transport_types(shop.book) == ()


def test_two_types_do_not_share_a_name(shop, velk):
    assert fields_of(save_transport_type, shop.book, shop.ine, replace(VELK, name="Velk A1")) == {"name"}


def test_the_second_saver_of_a_type_is_told(shop, velk):
    (line,) = transport_types(shop.book)
    save_transport_type(shop.book, shop.ine, replace(line, note="first"))
    with pytest.raises(StaleRow) as stale:
        save_transport_type(shop.book, shop.ine, replace(line, note="second"))
    assert stale.value.theirs["note"] == "first"


def test_a_limit_holds_for_a_type_or_for_a_maker_and_model(shop, velk):
    of_type = save_limit(shop.book, shop.ine, replace(SEEK, transport_type_id=velk)).value
    save_limit(shop.book, shop.ine, replace(SEEK, unit_maker="Quellmar", unit_model="Larch 2", must=True))
    assert [line.id for line in limits(shop.book, transport_type_id=velk)] == [of_type]
    assert [line.must for line in limits(shop.book)] == [False, True]


def test_a_limit_may_be_a_share_of_the_label(shop, velk):
    share = LimitLine(
        quantity="laser_current",
        source="common practice",
        low=Decimal("0.90"),
        high=Decimal("1.15"),
        transport_type_id=velk,
        relative_to="label",
    )
    save_limit(shop.book, shop.ine, share)
    assert limits(shop.book)[0].low == Decimal("0.90")
    for wrong in (replace(share, quantity="seek_time"), replace(share, relative_to="something")):
        assert fields_of(save_limit, shop.book, shop.ine, wrong) == {"relative_to"}


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"high": None}, "high"),
        ({"low": Decimal(2)}, "high"),
        ({"source": " "}, "source"),
        ({"source": "x" * 201}, "source"),
        ({"detail": "x" * 41}, "detail"),
        ({"quantity": "nonsense"}, "quantity"),
        ({"transport_type_id": None}, "transport_type_id"),
        ({"transport_type_id": None, "unit_maker": "Quellmar"}, "transport_type_id"),
    ],
)
def test_a_limit_that_cannot_be_right_is_refused_by_its_field(shop, velk, change, field):
    line = replace(replace(SEEK, transport_type_id=velk), **change)
    assert fields_of(save_limit, shop.book, shop.ine, line) == {field}


def test_a_limit_no_longer_used_is_kept_for_the_verdicts_it_gave(shop, velk):
    save_limit(shop.book, shop.ine, replace(SEEK, transport_type_id=velk))
    (line,) = limits(shop.book)
    save_limit(shop.book, shop.ine, replace(line, retired=True))
    assert limits(shop.book) == ()
    assert limits(shop.book, retired=True)[0].retired


def test_the_second_saver_of_a_limit_is_told(shop, velk):
    save_limit(shop.book, shop.ine, replace(SEEK, transport_type_id=velk))
    (line,) = limits(shop.book)
    save_limit(shop.book, shop.ine, replace(line, high=Decimal(2)))
    with pytest.raises(StaleRow) as stale:
        save_limit(shop.book, shop.ine, replace(line, high=Decimal(3)))
    assert stale.value.theirs["high"] == Decimal(2)


def test_an_instrument_is_kept_with_its_calibration(shop):
    line = replace(METER, calibrated_on=date(2026, 1, 5), due_on=date(2027, 1, 5), digits=Decimal(2))
    key = save_instrument(shop.book, shop.ine, line).value
    assert instruments(shop.book) == (replace(line, id=key, version=1),)


def test_an_instrument_is_retired(shop):
    save_instrument(shop.book, shop.ine, METER)
    (line,) = instruments(shop.book)
    save_instrument(shop.book, shop.ine, replace(line, retired=True))
    assert instruments(shop.book) == ()
    assert len(instruments(shop.book, retired=True)) == 1


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"name": ""}, "name"),
        ({"serial": "x" * 41}, "serial"),
        ({"calibrated_on": date(2026, 2, 1), "due_on": date(2026, 1, 1)}, "due_on"),
        ({"percent": Decimal(-1)}, "percent"),
        ({"digits": Decimal(-1)}, "digits"),
        ({"step": Decimal(-1)}, "step"),
    ],
)
def test_an_instrument_that_cannot_be_right_is_refused_by_its_field(shop, change, field):
    assert fields_of(save_instrument, shop.book, shop.ine, replace(METER, **change)) == {field}


def test_the_second_saver_of_an_instrument_is_told(shop):
    save_instrument(shop.book, shop.ine, METER)
    (line,) = instruments(shop.book)
    save_instrument(shop.book, shop.ine, replace(line, serial="45"))
    with pytest.raises(StaleRow):
        save_instrument(shop.book, shop.ine, replace(line, serial="46"))


def test_a_limit_is_a_share_of_the_label_or_of_the_last_value_and_of_nothing_else(shop, velk):
    line = replace(SEEK, transport_type_id=velk)
    assert fields_of(save_limit, shop.book, shop.ine, replace(line, relative_to="label")) == {"relative_to"}
    assert fields_of(save_limit, shop.book, shop.ine, replace(line, relative_to="the moon")) == {
        "relative_to"
    }
    save_limit(shop.book, shop.ine, replace(line, relative_to="earlier"))
    assert limits(shop.book)[0].relative_to == "earlier"
