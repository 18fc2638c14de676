"""How entries of the shop's lists stood before each change."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

from app.trade.bench.kinds import Arrangement
from app.work.office.former_lines import former_instruments, former_limits, former_quantities, former_types
from app.work.office.quantity_list import own_quantities, save_quantity
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


def test_each_change_tells_what_stood_there_before_and_who_took_it_away(shop: Any) -> None:
    entry = InstrumentLine(name="Bench meter", percent=Decimal("0.5"), due_on=date(2027, 3, 3))
    key = save_instrument(shop.book, shop.ine, entry).value
    assert former_instruments(shop.book, key) == ()
    (line,) = instruments(shop.book)
    save_instrument(shop.book, shop.sanna, replace(line, percent=Decimal("0.80"), due_on=None))
    (line,) = instruments(shop.book)
    save_instrument(shop.book, shop.ine, replace(line, name="Old bench meter"))
    later, first = former_instruments(shop.book, key)
    assert (first.by, first.before.percent, first.before.due_on) == (
        "Sanna Wickerel",
        Decimal("0.5"),
        date(2027, 3, 3),
    )
    assert (first.after.percent, first.after.due_on) == (Decimal("0.80"), None)
    assert (later.by, later.before.name, later.after.name) == (
        "Ine Varloes",
        "Bench meter",
        "Old bench meter",
    )
    assert later.before.percent == Decimal("0.80")


def test_saving_what_stands_there_is_no_change(shop: Any) -> None:
    kind = TypeLine(name="Velk A1", arrangement=Arrangement.SWING_ARM, sheet=("hf_eye",), not_testable=(6,))
    key = save_transport_type(shop.book, shop.ine, kind).value
    (line,) = transport_types(shop.book)
    save_transport_type(shop.book, shop.ine, line)
    assert former_types(shop.book, key) == ()
    save_transport_type(
        shop.book, shop.ine, replace(line, sheet=("hf_eye: at the end",), arrangement=Arrangement.SLED)
    )
    (one,) = former_types(shop.book, key)
    assert (one.before.sheet, one.before.arrangement, one.before.not_testable) == (
        ("hf_eye",),
        Arrangement.SWING_ARM,
        (6,),
    )
    assert one.after.sheet == ("hf_eye: at the end",)


def test_a_limit_tells_its_former_ends_and_source(shop: Any) -> None:
    entry = LimitLine(
        quantity="hf_eye", unit_maker="Quellmar", unit_model="Larch 2", low=Decimal("0.8"), source="page 3"
    )
    key = save_limit(shop.book, shop.ine, entry).value
    (line,) = limits(shop.book)
    save_limit(shop.book, shop.ine, replace(line, low=Decimal("0.9"), source="page 4", must=True))
    (one,) = former_limits(shop.book, key)
    assert (one.before.low, one.before.source, one.before.must) == (Decimal("0.8"), "page 3", False)


def test_a_quantity_tells_its_former_content(shop: Any) -> None:
    content = {"words": "HF eye", "range": ["0", "5"], "example": "1.08"}
    assert former_quantities(shop.book, "hf_eye") == ()
    save_quantity(shop.book, shop.ine, "hf_eye", {**content, "usual": "0.9 Vpp"})
    kept = own_quantities(shop.book)["hf_eye"]
    save_quantity(shop.book, shop.ine, "hf_eye", {**content, "usual": "1.0 Vpp"}, version=kept.version)
    (one,) = former_quantities(shop.book, "hf_eye")
    assert (one.before.content["usual"], one.after.content["usual"]) == ("0.9 Vpp", "1.0 Vpp")
    assert one.before.shipped
