"""Papers of an invented shop say that they are specimens."""

from __future__ import annotations

from typing import Any

from app.book.office.shop_settings import settings_of
from app.book.tables import Customer
from app.trade.settings.papers_and_days import SPECIMEN
from app.work.office.settings import change_settings
from app.work.papers.sheet_facts import sheet_of


def is_specimen(shop: Any) -> bool:
    with shop.book.ask() as session:
        return sheet_of(shop.book.files, settings_of(session), Customer(language="")).specimen


def test_papers_are_specimens_only_where_the_shop_says_so(shop: Any) -> None:
    assert not is_specimen(shop)
    change_settings(shop.book, shop.ine, {SPECIMEN: True})
    assert is_specimen(shop)
