"""Printed lists carry the shop's name, sheet and day in the language asked for."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from app.trade.settings import PAGE_SIZE, SHOP_NAME
from app.work.office.settings import change_settings
from app.work.papers.lists import ListColumn, ListFacts, ListLine, print_list
from tests.papers.reading import sizes, whole

FACTS = ListFacts(
    "Parts",
    date(2026, 3, 12),
    (ListColumn("Code"), ListColumn("Part")),
    (ListLine(("F-315", "Fuse <b>x</b>")),),
)


def test_it_names_the_shop_and_stands_on_its_sheet(shop: Any) -> None:
    change_settings(shop.book, shop.ine, {SHOP_NAME: "Lanternfield Workshop", PAGE_SIZE: "Letter"})
    pdf = print_list(shop.book, FACTS, "en")
    assert "Lanternfield Workshop, printed 12 Mar 2026" in whole(pdf)
    assert sizes(pdf)[0] == pytest.approx((215.9, 279.4), abs=0.1)


def test_what_a_person_typed_is_no_markup(shop: Any) -> None:
    assert "Fuse <b>x</b>" in whole(print_list(shop.book, FACTS, "en"))


def test_german_says_the_rest_in_german(shop: Any) -> None:
    said = whole(print_list(shop.book, FACTS, "de"))
    assert "gedruckt am 12. März 2026" in said
    assert "1 Zeile" in said
