"""One person's data: written out to read, and erased only when the owner signs for it."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from app.book.tables import Job, StaffMark
from app.trade.bench.stages import Stage
from app.trade.sentence import Sentence
from app.work.counter.taking_in import receive_unit
from app.work.people.customers import customer_card
from tests.screens.office.conftest import LARCH, Office


@pytest.fixture
def customer(office: Office) -> int:
    """Benedikt Arnsvik, whose player is in the shop."""
    job = receive_unit(office.book, office.shop.mirr, LARCH).value.job_id
    with office.book.ask() as session:
        return int(session.get_one(Job, job).customer_id)


@pytest.fixture
def finished(office: Office, customer: int) -> int:
    """The same, with the player back at home."""
    with office.book.change(office.shop.mirr, Sentence("handed back")) as change:
        change.get(Job, 1).stage = Stage.HANDED_BACK
    return customer


def asked(office: Office) -> Any:
    """The page with the question about Benedikt Arnsvik open."""
    page = office.open("upkeep", "person")
    office.type("arnsv")
    office.press("Down")
    office.press("Return")
    office.push(page.person.erase)
    return page


def is_erased(office: Office, customer: int) -> bool:
    return customer_card(office.book, customer).erased


def test_the_page_says_beforehand_what_stays(office: Office) -> None:
    said = office.sees(office.open("upkeep", "person"))
    assert "estimates of invoiced jobs stay for as long as the law asks" in said
    assert "copies made before still hold it" in said
    assert "The owner signs for it." in said


def test_what_the_book_holds_of_a_person_and_of_nobody_else_is_written_out(
    office: Office, customer: int, tmp_path: Path
) -> None:
    other = replace(LARCH, name="Greta Sondheim", phone="01632 960 777", serial="0420 159")
    receive_unit(office.book, office.shop.mirr, other)
    page = office.open("upkeep", "person")
    office.type("arnsv")
    office.press("Down")
    office.press("Return")
    page.person.write_out(tmp_path / "out")
    office.settle()
    text = tmp_path / "out" / f"customer-{customer}.txt"
    data = tmp_path / "out" / f"customer-{customer}.json"
    assert page.person.words == f"Written: {text} to read, {data.name} as data."
    rows = json.loads(data.read_text(encoding="utf-8"))
    assert [row["name"] for row in rows["customers"]] == ["Benedikt Arnsvik"]
    assert len(rows["jobs"]) == 1
    for file in (text, data):
        written = file.read_text(encoding="utf-8")
        assert "Benedikt Arnsvik" in written
        assert "Sondheim" not in written


def test_a_folder_that_cannot_be_written_is_told(office: Office, customer: int, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    page = office.open("upkeep", "person")
    office.type("arnsv")
    office.press("Down")
    office.press("Return")
    page.person.write_out(tmp_path / "file")
    office.settle()
    assert "Nothing could be written" in page.trouble.words


def test_the_owner_erases_with_the_pin_and_is_told_what_stays(office: Office, finished: int) -> None:
    page = asked(office)
    assert "Every personal text of Benedikt Arnsvik is blanked. This cannot be undone" in office.sees(page)
    assert office.focus is page.person.asked.signature.pin.edit
    office.type(office.shop.pin("ine"))
    office.press("Ctrl+Return")
    assert is_erased(office, finished)
    assert page.person.words.startswith("Erased: the personal texts of")
    assert "0 invoices stay." in page.person.words
    assert page.person.asked is None
    assert not page.person.hand_out.isVisible()
    assert office.focus is page.person.name.edit


def test_the_question_is_in_sight_where_large_text_would_leave_it_below_the_edge(
    office: Office, finished: int
) -> None:
    office.window.resize(1024, 420)
    page = asked(office)
    button = page.person.asked.save_button
    assert not button.visibleRegion().isEmpty()


def test_an_enter_too_many_erases_nobody(office: Office, finished: int) -> None:
    page = asked(office)
    office.push(page.person.asked.save_button)
    assert page.person.asked.signature.pin.error() == "Type the PIN."
    assert not is_erased(office, finished)


def test_a_wrong_pin_is_told_under_it_and_erases_nobody(office: Office, finished: int) -> None:
    page = asked(office)
    office.type("000000")
    office.press("Ctrl+Return")
    pin = page.person.asked.signature.pin
    assert pin.error().startswith("That is not the PIN of Ine Varloes.")
    assert pin.edit.text() == ""
    assert not is_erased(office, finished)
    office.type_into(pin, office.shop.pin("ine"))
    office.press("Ctrl+Return")
    assert is_erased(office, finished)


def test_whoever_works_now_the_owner_is_the_one_who_signs(office: Office, finished: int) -> None:
    office.works("mirr")
    page = asked(office)
    person = page.person.asked.signature.person
    assert [person.itemText(at) for at in range(person.count())] == ["Ine Varloes"]
    office.type(office.shop.pin("mirr"))
    office.press("Ctrl+Return")
    assert not is_erased(office, finished)
    office.type_into(page.person.asked.signature.pin, office.shop.pin("ine"))
    office.press("Ctrl+Return")
    assert is_erased(office, finished)


def test_where_nobody_is_owner_today_nobody_erases(office: Office, finished: int) -> None:
    with office.book.change(None, Sentence("ended")) as change:
        for mark in change.session.query(StaffMark).filter(StaffMark.mark == "owner"):
            mark.ends = mark.dated
    page = asked(office)
    assert "Nobody carries the mark" in page.person.asked.signature.pin.error()
    page.person.save()
    office.settle()
    assert not is_erased(office, finished)


def test_esc_takes_the_question_back_and_no_pin_is_kept(office: Office, finished: int) -> None:
    page = asked(office)
    office.type(office.shop.pin("ine"))
    office.press("Esc")
    assert page.person.asked is None
    assert "This cannot be undone" not in office.sees(page)
    assert office.focus is page.person.erase
    assert not is_erased(office, finished)
    assert office.desk.drafts.forms() == ()
    office.press("Return")
    assert page.person.asked.signature.pin.edit.text() == ""
    page.commands()["leave"]()
    assert page.person.asked is None
    page.person.save()  # there is nothing to answer


def test_a_person_whose_player_is_in_the_shop_stays_and_the_reason_is_told(
    office: Office, customer: int
) -> None:
    page = asked(office)
    office.type(office.shop.pin("ine"))
    office.press("Ctrl+Return")
    assert page.trouble.words == "Job 1001 of this customer is still in the shop. Hand it back first."
    assert page.person.asked.signature.pin.edit.text() == ""
    assert not is_erased(office, customer)


def test_nobody_erases_without_saying_who_works_here(office: Office, finished: int) -> None:
    page = asked(office)
    office.desk.set_staff(None)
    office.type(office.shop.pin("ine"))
    office.press("Ctrl+Return")
    assert "Say first who works here now" in page.person.asked.wrong.text()
    assert not is_erased(office, finished)


def test_another_person_taken_from_the_matches_folds_the_question(office: Office, finished: int) -> None:
    page = asked(office)
    page.person._take(page.person.person)
    assert page.person.asked is None
    page.person.person = None
    page.person._sure()
    assert page.person.asked is None
    page.person.write_out(office.shop.path.parent)
    assert page.person.words == ""
