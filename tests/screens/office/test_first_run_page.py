"""The first page of a new book: filled in by keys alone, it leaves a shop with an owner who can sign."""

from __future__ import annotations

from types import SimpleNamespace

import pytest
from PySide6.QtWidgets import QLineEdit

from app.screens.office import first_run_page
from app.trade.bench.stages import Mark
from app.trade.settings import (
    ADDRESS_LINES,
    CITY,
    COUNTRY,
    CURRENCY,
    LANGUAGE,
    PAGE_SIZE,
    POSTCODE,
    SHOP_NAME,
    TIME_ZONE,
)
from app.work.office.settings import shop_settings
from app.work.people.pins import check_pin
from app.work.people.staff import add_staff, staff_list
from app.work.shop_book import close_book, open_shop
from tests.screens.office.conftest import seated


@pytest.fixture
def new(tmp_path, clock, cheap_pins, qtbot, monkeypatch):
    """The page on an empty book, on a computer that stands in Vienna."""
    monkeypatch.setattr(first_run_page, "own_zone", lambda: "Europe/Vienna")
    book = open_shop(tmp_path / "book.sqlite", clock=clock, make=True)
    with seated(SimpleNamespace(book=book, clock=clock), tmp_path, qtbot, monkeypatch) as office:
        yield office
    close_book(book)


def fill(office, page, pin="470915", again="470915"):
    office.type("Lanternfield Workshop")
    office.press("Return")
    for field, text in ((page.owner, "Ine  Varloes"), (page.pin, pin), (page.pin_again, again)):
        office.type_into(field, text)


def test_a_few_answers_and_the_book_is_begun(new):
    page = new.open("first_run")
    assert new.focus is page.shop_name.edit
    fill(new, page)
    page.currency.set_value("CHF")
    page.language.setFocus()
    new.press("Right")
    new.type_into(page.time_zone, "Asia/Tokyo")
    page.page_size.set_value(PAGE_SIZE.choices[-1][0])
    size = page.page_size.value()
    new.press("Ctrl+Return")
    now = shop_settings(new.book)
    assert (now[SHOP_NAME], now[CURRENCY], now[LANGUAGE]) == ("Lanternfield Workshop", "CHF", "de")
    assert (now[TIME_ZONE], now[PAGE_SIZE]) == ("Asia/Tokyo", size)
    (card,) = staff_list(new.book)
    assert (card.name, card.marks) == ("Ine Varloes", {Mark.OWNER})
    check_pin(new.book, card.id, "470915", Mark.OWNER)
    assert new.desk.staff.name == "Ine Varloes"
    assert (new.desk.shop.name, new.desk.shop.currency) == ("Lanternfield Workshop", "CHF")
    assert str(new.desk.shop.zone) == "Asia/Tokyo"
    assert type(new.page).__name__ == "Blank"  # the counter
    assert page.pin.edit.text() == ""
    assert new.desk.drafts.forms() == ()


def test_the_address_follows_the_name_by_keys_alone(new):
    page = new.open("first_run")
    for text in ("Lanternfield Workshop", "4 Wickham Yard", "LN9 4RT", "Lanternfield", "gb"):
        new.type(text)
        new.press("Return")
    assert new.focus is page.currency
    for field, text in ((page.owner, "Ine Varloes"), (page.pin, "470915"), (page.pin_again, "470915")):
        new.type_into(field, text)
    new.press("Ctrl+Return")
    now = shop_settings(new.book)
    assert (now[SHOP_NAME], now[ADDRESS_LINES]) == ("Lanternfield Workshop", ("4 Wickham Yard",))
    assert (now[POSTCODE], now[CITY], now[COUNTRY]) == ("LN9 4RT", "Lanternfield", "GB")


def test_the_zone_of_the_computer_is_proposed_and_taken(new):
    page = new.open("first_run")
    assert page.time_zone.text() == "Europe/Vienna"
    fill(new, page)
    new.press("Ctrl+Return")
    assert shop_settings(new.book)[TIME_ZONE] == "Europe/Vienna"


def test_where_the_computer_names_no_zone_none_is_guessed(new, monkeypatch):
    monkeypatch.setattr(first_run_page, "own_zone", lambda: "")
    page = new.open("first_run")
    assert page.time_zone.text() == ""
    fill(new, page)
    new.press("Ctrl+Return")
    assert "There is no time zone of that name" in page.time_zone.error()
    assert staff_list(new.book) == ()


def test_the_page_says_what_can_be_changed_later(new):
    said = new.sees(new.open("first_run"))
    assert "changed later in the settings; the currency only until the first invoice or payment" in said


def test_what_is_missing_is_told_under_its_field(new):
    page = new.open("first_run")
    new.press("Ctrl+Return")
    assert "it stands on every paper" in page.shop_name.error()
    assert page.owner.error()
    assert page.pin.error()
    assert new.focus is page.shop_name.edit
    assert staff_list(new.book) == ()


def test_what_cannot_be_right_is_told_while_it_is_typed(new):
    page = new.open("first_run")
    new.type_into(page.country, "Austria")
    assert page.country.error() == "A country is two capital letters, such as DE or GB."
    new.type_into(page.country, "at")
    assert page.country.error() == ""
    new.type_into(page.time_zone, "Nowhere/Atall")
    assert page.time_zone.error()
    new.type_into(page.pin, "1234")
    assert "Everybody tries this one" in page.pin.error()
    new.type_into(page.pin, "4709")
    assert page.pin.error() == ""
    new.type_into(page.pin_again, "4708")
    assert page.pin_again.error() == "The two are not the same."
    new.type_into(page.pin_again, "4709")
    assert page.pin_again.error() == ""


def test_a_pin_is_dotted_and_never_in_a_draft(new):
    page = new.open("first_run")
    fill(new, page)
    assert page.pin.edit.echoMode() == QLineEdit.EchoMode.Password
    new.press("Esc")  # there is nowhere to go; it is kept
    assert new.page is page
    draft = new.desk.drafts.read("first run")
    assert draft["owner"] == "Ine  Varloes"
    assert "470915" not in str(draft)
    new.window.trail.close_page("first_run")
    page = new.open("first_run")
    assert page.shop_name.text() == "Lanternfield Workshop"
    assert page.pin.edit.text() == ""


def test_a_book_that_was_begun_meanwhile_stays_as_it_is(new):
    page = new.open("first_run")
    fill(new, page)
    add_staff(new.book, None, "Sanna Wickerel")
    new.press("Ctrl+Return")
    assert page.trouble.words.startswith("This book has been begun already.")
    assert [card.name for card in staff_list(new.book)] == ["Sanna Wickerel"]
    assert shop_settings(new.book)[SHOP_NAME] == ""


def test_what_the_book_refuses_stands_under_its_field(new, monkeypatch):
    page = new.open("first_run")
    fill(new, page)
    monkeypatch.setattr(first_run_page, "check_first_run", lambda form: {})
    page.owner.set_text("")
    new.press("Ctrl+Return")
    assert page.owner.error() == "Write the name."
