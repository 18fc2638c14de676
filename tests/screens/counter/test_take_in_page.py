"""Taking in by keyboard alone: what is offered, what is said while typing, what the book has in the end."""

from __future__ import annotations

from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from app.book.tables import Customer, Fitting, Job, Payment, ReportedFault, ThingLeft, TransportType, Unit
from app.screens.counter.take_in_page import TakeInPage
from app.trade.bench.kinds import (
    Arrangement,
    HowOften,
    Means,
    TransitLock,
)
from app.trade.bench.stages import MainsClass
from app.trade.counter.fault_words import FaultWord
from app.trade.money import MICRO
from app.trade.sentence import Sentence
from app.trade.settings.prices import DIAGNOSIS_FEE
from app.work.office.settings import change_settings

CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def page(counter) -> TakeInPage:
    return counter.open("take_in")


def enter(counter, times=1):
    for _ in range(times):
        counter.press(Qt.Key.Key_Return)


def focus_name():
    widget = QApplication.focusWidget()
    return widget.accessibleName() if widget is not None else ""


def test_a_player_is_taken_in_without_touching_the_mouse(counter, page, rows):
    assert focus_name() == "Customer"
    counter.type("Benedikt Arnsvik")
    enter(counter)
    counter.type("01632 960 142")
    enter(counter)
    counter.type("b.arnsvik@example.org")
    enter(counter)
    counter.type("9 Weir Lane")
    enter(counter)
    counter.type("MQ1 4CD")
    enter(counter)
    counter.type("Mossgate Quay")
    enter(counter)
    assert focus_name() == "Serial number"
    counter.type("0420 158")
    enter(counter)
    counter.type("Quellmar")
    enter(counter)
    counter.type("Larch 2")
    enter(counter)
    counter.type("black")
    enter(counter)
    counter.press(Qt.Key.Key_Left)  # from "not known" back to class II
    counter.press(Qt.Key.Key_Left)
    counter.press(Qt.Key.Key_Left)
    assert page.fields.mains_class.value() is MainsClass.II
    enter(counter)
    counter.type("230 V")
    enter(counter, 3)
    assert focus_name() == "As they say it"
    counter.type("Stops when it gets warm. A tap helps.")
    counter.press(Qt.Key.Key_Tab)
    for _ in range(3):
        counter.press(Qt.Key.Key_Right)
    counter.press(Qt.Key.Key_Space)
    counter.press(Qt.Key.Key_Space)
    assert focus_name() == "stops when warm: sometimes"
    enter(counter)
    counter.type("E7")
    counter.save()
    (job,), (customer,), (unit,), (fault,) = (rows(t) for t in (Job, Customer, Unit, ReportedFault))
    assert (job.number, job.fault, job.error_shown) == (1001, "Stops when it gets warm. A tap helps.", "E7")
    assert (customer.name, customer.phone, customer.street, customer.city) == (
        "Benedikt Arnsvik",
        "01632 960 142",
        "9 Weir Lane",
        "Mossgate Quay",
    )
    assert (unit.maker, unit.model, unit.look) == ("Quellmar", "Larch 2", "black")
    assert (unit.mains_class, unit.mains_voltage) == (MainsClass.II, "230 V")
    assert (fault.word, fault.how) == (FaultWord.STOPS_WARM, HowOften.SOMETIMES)
    assert [paper.title for paper in counter.papers] == ["Intake ticket 1001"]
    assert counter.page.key == job.id


def test_everything_of_the_form_reaches_the_book(counter, page, rows, shop):
    with shop.book.change(shop.ine, Sentence("type")) as change:
        kind = change.add(TransportType(name="Velk A1", arrangement=Arrangement.SWING_ARM)).id
    page.reload(type("Changes", (), {"kinds": {"jobs"}})())
    counter.settle()
    fields = page.fields
    fields.name.set_text("Benedikt Arnsvik")
    fields.unreadable.setChecked(True)
    fields.maker.set_text("Quellmar")
    fields.transport_type.set_value(kind)
    fields.transport_serial.set_text("55 871")
    fields.fault.set_text("dead")
    fields.marks.set_text("lid scuffed")
    fields.opened_before.set_value("yes")
    fields.screws_missing.set_value("no")
    fields.transit_lock.set_value(TransitLock.SET)
    fields.smell.set_text("burnt")
    fields.rust.set_text("feet")
    fields.things["mains lead"].setChecked(True)
    fields.other_things.set_text("a red cloth, , a bag")
    fields.disc_inside.set_text("tray")
    fields.promised_on.set_text("20 Mar")
    fields.promised_time.set_text("17:00")
    fields.ring_when.set_text("after 17:00")
    fields.shelf.set_text("C 4")
    fields.goes_by_post.setChecked(True)
    fields.go_ahead_limit.set_text("90")
    fields.diagnosis_fee.set_text("45,00")
    fields.fee_told.setChecked(True)
    fields.deposit.set_text("20")
    fields.deposit_means.set_value(Means.CARD)
    fields.parts_returned.setChecked(True)
    page.save_without_paper()
    counter.settle()
    assert page.trouble.words == ""
    (job,) = rows(Job)
    assert (job.marks, job.opened_before, job.screws_missing, job.transit_lock) == (
        "lid scuffed",
        True,
        False,
        TransitLock.SET,
    )
    assert (job.smell, job.rust, job.shelf, job.ring_when) == ("burnt", "feet", "C 4", "after 17:00")
    assert (job.promised_on, job.promised_time) == (date(2026, 3, 20), "17:00")
    assert (job.go_ahead_limit, job.diagnosis_fee, job.diagnosis_fee_told) == (9000, 4500, True)
    assert (job.goes_by_post, job.parts_returned) == (True, True)
    assert [(t.kind, t.words) for t in rows(ThingLeft)] == [
        ("thing", "mains lead"),
        ("thing", "a red cloth"),
        ("thing", "a bag"),
        ("disc", "tray"),
    ]
    assert [(p.amount, p.means) for p in rows(Payment)] == [(2000, Means.CARD)]
    assert len(rows(Fitting)) == 1
    assert rows(Unit)[0].serial_unreadable
    assert counter.papers == []


def test_what_is_missing_is_said_under_its_field_and_the_focus_goes_to_the_first(counter, page):
    counter.save()
    assert page.fields.name.error() == "Who brings it? Write a name."
    assert page.fields.serial.error() == "Write the serial number, or choose “not readable”."
    assert page.fields.maker.error() == "Which player is it? Write maker or model."
    assert page.fields.fault.error().startswith("What is wrong with it?")
    assert focus_name() == "Customer"


def test_what_cannot_be_right_is_said_when_the_field_is_left_and_taken_back(counter, page):
    counter.type_into(page.fields.phone.edit, "ring the bell")
    enter(counter)
    assert "figures" in page.fields.phone.error()
    page.fields.phone.edit.clear()
    counter.type_into(page.fields.phone.edit, "01632 960 142")
    enter(counter)
    assert page.fields.phone.error() == ""
    counter.type_into(page.fields.mains_voltage.edit, "12 V")
    page.fields.mains_class.set_value(MainsClass.I)
    assert "80 to 280" in page.fields.mains_voltage.error()


def test_it_also_says_so_after_a_pause_in_typing(counter, page):
    counter.type_into(page.fields.phone.edit, "12")
    assert page.fields.phone.error() == ""
    page._pause.timeout.emit()
    assert "too short" in page.fields.phone.error()


def test_an_amount_or_a_day_that_cannot_be_read_is_not_saved(counter, page, rows):
    fields = page.fields
    fields.name.set_text("A")
    fields.unreadable.setChecked(True)
    fields.maker.set_text("Q")
    fields.fault.set_text("dead")
    fields.deposit.set_text("about 20")
    fields.promised_on.set_text("someday")
    page.save()
    counter.settle()
    assert fields.deposit.error()
    assert fields.promised_on.error()
    assert rows(Job) == []


def test_nobody_said_who_works_here(counter, page, rows):
    counter.desk.set_staff(None)
    fields = page.fields
    fields.name.set_text("A")
    fields.unreadable.setChecked(True)
    fields.maker.set_text("Q")
    fields.fault.set_text("dead")
    page.save()
    counter.settle()
    assert "Ctrl+U" in page.trouble.words
    assert rows(Job) == []


# --- what the book knows -----------------------------------------------------------------------------------


def test_saving_forgets_the_draft_and_the_form_is_empty_for_the_next(counter, page):
    fields = page.fields
    counter.type("Benedikt Arnsvik")
    fields.unreadable.setChecked(True)
    fields.maker.set_text("Quellmar")
    fields.fault.set_text("dead")
    counter.save()
    assert counter.desk.drafts.read("intake") is None
    counter.open("take_in")
    assert counter.page.fields.name.text() == ""
    assert "Job 1002" in [label.text() for label in page.head.findChildren(type(page.head._below))][-1]


def test_the_form_can_be_emptied(counter, page):
    counter.type("Benedikt")
    page.empty()
    counter.settle()
    assert page.fields.name.text() == ""
    assert page.fields.promised_on.day() == date(2026, 3, 23)


def test_day_and_fee_are_proposed(counter, shop):
    change_settings(shop.book, shop.ine, {DIAGNOSIS_FEE: 45 * MICRO})
    page = counter.open("take_in")
    assert page.fields.promised_on.day() == date(2026, 3, 23)
    assert page.fields.diagnosis_fee.text() == "45.00"
    assert not page.fields.fee_told.isChecked()


def test_a_player_without_serial_is_titled_so(counter, shop, take_in):
    from tests.work.counter.test_taking_in import close

    taken = take_in(serial="", serial_unreadable=True)
    close(shop, taken.job_id, None)
    page = counter.open("take_in")
    counter.type_into(page.fields.maker.edit, "quell")
    counter.press(Qt.Key.Key_Down)
    enter(counter)
    counter.settle()
    assert page.fields.unreadable.isChecked()
    assert page.knows._title.text() == "Quellmar Larch 2, serial not readable"


def test_a_name_of_three_hundred_letters_and_a_fault_of_two_thousand_are_taken(counter, page, rows):
    fields = page.fields
    fields.name.set_text("Ä" * 300)
    fields.unreadable.setChecked(True)
    fields.maker.set_text("<b>Quellmar</b> & Söhne")
    fields.fault.set_text("hum " * 499)
    page.save()
    counter.settle()
    (job,) = rows(Job)
    assert len(job.fault) == len("hum " * 499) - 1
    assert counter.papers[0].pdf.startswith(b"%PDF")


def test_a_form_left_open_for_days_counts_from_the_day_on_which_it_is_found_again(counter, page, shop):
    assert "12\u00a0Mar\u00a02026" in page._below
    shop.clock.advance(days=47)
    page.arrive()
    counter.settle()
    assert "28\u00a0Apr\u00a02026" in page._below
