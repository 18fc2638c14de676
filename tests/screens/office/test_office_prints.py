"""The lists of the Office as papers."""

from __future__ import annotations

from decimal import Decimal

import pytest

from app.screens import language
from app.work.language import wording_for
from app.work.office.invoices import issue_invoice
from app.work.office.parts import PartEntry, save_part
from app.work.office.stock import receive_part
from tests.papers.reading import whole


def printed(office) -> str:
    office.press("Ctrl+Shift+P")
    return whole(office.papers[-1].pdf)


def test_invoices_are_printed_with_which_were_asked_for_and_the_sum(office, worked):
    issue_invoice(worked.book, worked.who, worked.job)
    page = office.open("invoices", "open")
    said = printed(office)
    for words in ("Invoices", "Open · 1 open, 118.76 EUR.", "1 row", "0001", "118.76 EUR"):
        assert words in said
    assert page.title == "Invoices"


def test_parts_are_printed_and_former_ones_where_they_are_shown(office, shop):
    part = save_part(shop.book, shop.ine, PartEntry(code="F-315", words="Fuse T 315 mA", price=450_000)).value
    receive_part(shop.book, shop.ine, part, Decimal(12))
    page = office.open("parts")
    said = printed(office)
    assert "F-315 Fuse T 315 mA 12 pieces 0.45 EUR" in said
    page.turn_former()
    office.settle()
    assert "former ones as well" in printed(office)


@pytest.mark.parametrize("kind", ["staff", "quantities", "instruments", "limits", "transport_types"])
def test_every_list_of_the_shop_can_be_printed(office, kind):
    page = office.open(kind)
    page.setFocus()
    office.window.menus.run("print_list")
    office.settle()
    assert page.title in whole(office.papers[-1].pdf)


def test_a_list_is_printed_in_german_where_the_window_speaks_german(office, shop):
    language.use(wording_for("de", shop.book.zone))
    office.open("staff")
    said = printed(office)
    for words in ("Zeilen", "gedruckt am", "Seite 1 von 1"):
        assert words in said
    assert "printed" not in said
