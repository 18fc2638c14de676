"""The pages of the Office are known to the window, and its menus lead to them."""

from __future__ import annotations

import pytest

from app.work.upkeep.copies import copies_of

KINDS = (
    "office", "invoice", "invoices", "figure", "jobs_behind", "settings", "staff", "person",
    "transport_types", "transport_type", "limits", "limit", "quantities", "quantity", "instruments", "instrument",
    "parts", "part", "first_run", "upkeep", "open_items", "takings",
)  # fmt: skip


@pytest.mark.parametrize("kind", KINDS)
def test_the_window_knows_every_page(office, kind):
    assert office.window.trail.knows(kind)


@pytest.mark.parametrize(
    ("act", "title"),
    [
        ("comeback-rate", "Which repairs come back"),
        ("shop", "How the shop goes"),
        ("settings", "Settings: Shop"),
        ("parts", "Parts in stock"),
        ("invoices", "Invoices"),
        ("open_items", "Open items"),
        ("takings", "Takings of a day"),
        ("restore", "Care of the book"),
        ("check_book", "Care of the book"),
        ("export_book", "Care of the book"),
    ],
)
def test_a_menu_leads_there(office, act, title):
    office.open("office")
    office.window.menus.actions[act].trigger()
    office.settle()
    assert office.page.title == title


def test_the_menu_makes_a_copy_from_wherever_it_is_asked_for(office):
    office.open("office")
    office.window.menus.actions["back_up"].trigger()
    office.settle()
    assert office.page.title == "Care of the book"
    assert len(copies_of(office.shop.path)) == 1


def test_a_form_that_may_not_be_left_keeps_its_page(office, monkeypatch):
    page = office.open("office")
    monkeypatch.setattr(page, "leave", lambda: False)
    office.window.menus.actions["back_up"].trigger()
    office.settle()
    assert office.page is page
    assert copies_of(office.shop.path) == ()
