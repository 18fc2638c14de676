"""A customer's card on screen, two savers, and two cards made one."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt

from app.book.tables import Customer
from app.trade.people.customer import CustomerForm
from app.trade.sentence import Sentence
from app.work.people.customers import add_customer, customer_card, edit_customer, merge_customers

ARNSVIK = CustomerForm(
    name="Benedikt Arnsvik", phone="01632 960 142", street="9 Weir Lane\nYard", language="de"
)


@pytest.fixture
def arnsvik(shop) -> int:
    return add_customer(shop.book, shop.mirr, ARNSVIK).value


def test_the_card_is_shown_and_saved_with_its_jobs_beside_it(counter, shop, take_in):
    taken = take_in()
    page = counter.open("customer", taken.customer_id)
    assert page.name.text() == "Benedikt Arnsvik"
    assert page.jobs.rows_model().rowCount() == 1
    assert page.units.rows_model().rowCount() == 1
    counter.type_into(page.email.edit, "b.arnsvik@example.org")
    counter.save()
    assert customer_card(shop.book, taken.customer_id).form.email == "b.arnsvik@example.org"
    assert page.head._below.text().endswith("Saved.")
    page.jobs.opened.emit(taken.job_id)
    counter.settle()
    assert counter.page.key == taken.job_id


def test_a_new_card_opens_after_saving(counter, rows):
    page = counter.open("customer", None)
    counter.save()
    assert page.name.error() == "Write the name."
    counter.type_into(page.name.edit, "Odile Varenne")
    counter.save()
    (row,) = rows(Customer)
    assert counter.page.customer_id == row.id


def test_the_second_saver_sees_both_values_and_overwrites_nothing_unasked(counter, shop, arnsvik):
    page = counter.open("customer", arnsvik)
    counter.type_into(page.city.edit, "Harrow Quay")
    edit_customer(
        shop.book, shop.ine, arnsvik, 1, replace(ARNSVIK, city="Mossgate Quay", phone="", street="x")
    )
    counter.save()
    assert "Somebody else saved this in between" in page.trouble.words
    assert page.city.echo() == "in the book now: Mossgate Quay"
    assert page.phone.echo() == "in the book now: nothing"
    assert page.city.text() == "Harrow Quay"
    assert customer_card(shop.book, arnsvik).form.city == "Mossgate Quay"
    counter.save()
    assert customer_card(shop.book, arnsvik).form.city == "Harrow Quay"


def test_two_cards_are_made_one(counter, shop, arnsvik, take_in):
    taken = take_in(name="B. Arnsvik", phone="01632 960 999")
    page = counter.open("customer", arnsvik)
    page.merge.set_opened(True)
    counter.type_into(page.merge.search.edit, "arnsvik")
    assert [m.title for m in page.merge.matches.rows.matches] == ["B. Arnsvik"]
    counter.press(Qt.Key.Key_Down)
    counter.press(Qt.Key.Key_Return)
    assert "jobs 1, players 1" in page.merge.words.text()
    page.merge.do_it.click()
    counter.settle()
    card = customer_card(shop.book, arnsvik)
    assert [job.id for job in card.jobs] == [taken.job_id]
    assert "B. Arnsvik" in page._stands_for.text()
    assert page.merge.do_it.isHidden()
    counter.open("customer", taken.customer_id)
    counter.settle()
    assert counter.page.customer_id == arnsvik


def test_nobody_at_work_merges_nothing(counter, shop, arnsvik):
    other = add_customer(shop.book, shop.mirr, CustomerForm(name="B. Arnsvik")).value
    page = counter.open("customer", arnsvik)
    counter.desk.set_staff(None)
    page.merge._take(other)
    counter.settle()
    page.merge.do_it.click()
    assert "Ctrl+U" in page.merge.words.text()


def test_a_card_that_was_merged_in_between_is_told(counter, shop, arnsvik):
    other = add_customer(shop.book, shop.mirr, CustomerForm(name="B. Arnsvik")).value
    third = add_customer(shop.book, shop.mirr, CustomerForm(name="Arnsvik")).value
    page = counter.open("customer", arnsvik)
    page.merge._take(other)
    counter.settle()
    merge_customers(shop.book, shop.ine, third, 1, other, 1)
    page.merge.do_it.click()
    counter.settle()
    assert page.trouble.words


def test_an_erased_person_shows_no_form(counter, shop, arnsvik):
    with shop.book.change(shop.ine, Sentence("erased")) as change:
        row = change.get(Customer, arnsvik)
        row.name, row.erased_at = "", change.now
    page = counter.open("customer", arnsvik)
    assert page.title == "erased"
    assert not page.form.isVisible()


def test_the_list_finds_while_typing_and_enter_opens_the_first(counter, arnsvik, shop):
    add_customer(shop.book, shop.mirr, CustomerForm(name="Odile Varenne"))
    page = counter.open("customers")
    assert page.model.rowCount() == 2
    counter.type("arns")
    assert page.model.rowCount() == 1
    counter.press(Qt.Key.Key_Return)
    assert counter.page.customer_id == arnsvik
    page = counter.open("customers")
    page.search.set_text("zzz")
    counter.settle()
    assert page._nobody.isVisible()
    page.search.setFocus()
    counter.press(Qt.Key.Key_Return)
    assert counter.page is page
    page.search.set_text("")
    counter.settle()
    counter.press(Qt.Key.Key_Down)
    assert page.table.hasFocus()


def test_a_draft_of_a_card_comes_back(counter, arnsvik):
    page = counter.open("customer", arnsvik)
    counter.type_into(page.city.edit, "Harrow Quay")
    counter.press(Qt.Key.Key_Escape)
    counter.window.trail.close_page("customer", arnsvik)
    again = counter.open("customer", arnsvik)
    assert again.city.text() == "Harrow Quay"
    assert again.language.value() == "de"
