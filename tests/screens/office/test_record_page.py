"""Two people save the same entry: nothing is overwritten, both values stand side by side."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.work.office.shop_lists import InstrumentLine, instruments, save_instrument


@pytest.fixture
def page(office):
    """The page of a meter, typed on, while Sanna saves another name and a due day."""
    meter = save_instrument(office.book, office.shop.ine, InstrumentLine(name="Meter", serial="7")).value
    office.open("instruments")
    page = office.open("instrument", meter)
    office.type_into(page.name, "Bench meter")
    (line,) = instruments(office.book)
    theirs = replace(line, name="Door meter", due_on=date(2027, 1, 4))
    office.desk.announce(save_instrument(office.book, office.shop.sanna, theirs).changes)
    office.settle()
    assert page.name.text() == "Bench meter"  # what is being typed stays
    office.press("Ctrl+Return")
    return page


def test_both_values_are_shown_and_nothing_was_saved(office, page):
    assert [(row.what, row.mine, row.theirs) for row in page.stale.rows] == [
        ("Name", "Bench meter", "Door meter"),
        ("Due again on", "", "4\u00a0Jan\u00a02027"),
    ]
    assert "Nothing was overwritten" in office.sees()
    assert instruments(office.book)[0].name == "Door meter"
    assert office.focus is page.stale.keep


def test_ours_is_saved_once_theirs_was_seen(office, page):
    office.press("Return")
    (line,) = instruments(office.book)
    assert (line.name, line.due_on) == ("Bench meter", None)
    assert office.page.title == "Instruments"
    office.press("Return")  # what was saved can be changed again at once
    assert office.page is page
    office.type_into(page.name, "Meter")
    office.press("Ctrl+Return")
    assert instruments(office.book)[0].name == "Meter"


def test_theirs_is_taken_into_the_form(office, page):
    office.push(page.stale.take)
    assert page.name.text() == "Door meter"
    assert page.due.day() == date(2027, 1, 4)
    assert not page.stale.isVisible()
    assert office.desk.drafts.forms() == ()
    office.type_into(page.name, "Meter by the door")
    office.press("Ctrl+Return")
    assert instruments(office.book)[0].name == "Meter by the door"


def test_what_cannot_be_read_is_put_right_before_both_are_compared(office, page):
    office.type_into(page.percent, "x")
    page._compare(page.line)
    assert page.percent.error()


def test_a_draft_begun_on_an_older_version_does_not_overwrite_the_newer(office):
    meter = save_instrument(office.book, office.shop.ine, InstrumentLine(name="Meter")).value
    page = office.open("instrument", meter)
    office.type_into(page.name, "Bench meter")
    office.press("Esc")
    (line,) = instruments(office.book)
    save_instrument(office.book, office.shop.sanna, replace(line, name="Door meter"))
    office.window.trail.close_page("instrument", meter)
    page = office.open("instrument", meter)
    assert page.name.text() == "Bench meter"
    office.press("Ctrl+Return")
    assert [(row.mine, row.theirs) for row in page.stale.rows] == [("Bench meter", "Door meter")]


def test_a_refusal_that_belongs_to_no_field_is_told_and_tried_again(office):
    page = office.open("instrument")
    office.type("Scope")
    page._not_saved(Refusal(Sentence("The disc is full."), Sentence("Make room.")))
    assert page.trouble.words.startswith("The disc is full.")
