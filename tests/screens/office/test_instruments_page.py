"""Instruments by keys alone: the list with what is overdue, the form, its draft."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

from app.screens.office.instruments_page import accuracy_words
from app.work.office.shop_lists import InstrumentLine, instruments, save_instrument
from tests.screens.office.conftest import lines

METER = InstrumentLine(
    name="Bench meter",
    kind="multimeter",
    serial="M-17",
    percent=Decimal("0.5"),
    digits=Decimal(2),
    calibrated_on=date(2025, 3, 3),
    due_on=date(2026, 3, 3),
)


def kept(office, *lines_):
    for line in lines_:
        save_instrument(office.book, office.shop.ine, line)


def test_an_empty_list_says_what_stands_here_and_enter_adds(office):
    page = office.open("instruments")
    assert "Meters and testers stand here" in office.sees()
    assert not page.table.isVisible()
    office.press("Return")
    assert office.page.title == "A new instrument"


def test_one_is_written_down_by_keys_alone(office):
    office.open("instruments")
    office.press("Return")
    page = office.page
    for text in ("Bench meter", "multimeter", "M-17", "0,5", "2", "", "", "", "3 Mar 2025", "3 Mar 2027"):
        office.type(text)
        office.press("Return")
    office.press("Ctrl+Return")
    (line,) = instruments(office.book)
    assert (line.name, line.percent, line.digits, line.step) == (
        "Bench meter",
        Decimal("0.5"),
        Decimal(2),
        None,
    )
    assert (line.calibrated_on, line.due_on) == (date(2025, 3, 3), date(2027, 3, 3))
    assert office.page is not page
    assert lines(office.page.table) == [
        [
            "Bench meter",
            "multimeter",
            "M-17",
            "0.5\u00a0% and 2 digits",
            "3\u00a0Mar\u00a02025",
            "3\u00a0Mar\u00a02027",
        ]
    ]
    assert office.desk.drafts.forms() == ()
    assert office.open("instrument").name.text() == ""  # the next one begins empty


def test_overdue_ones_stand_out(office):
    kept(office, METER)
    page = office.open("instruments")
    assert lines(page.table)[0][-1] == "overdue since 3\u00a0Mar\u00a02026"
    assert "1 is overdue for calibration." in office.sees()
    kept(
        office,
        InstrumentLine(name="Scope", due_on=date(2026, 1, 1)),
        InstrumentLine(name="Tester", percent=Decimal(1)),
    )
    page.reload()
    office.settle()
    assert "2 are overdue for calibration." in office.sees()
    assert lines(page.table)[2][3:] == ["1\u00a0%", "", "no day set"]


def test_an_accuracy_of_the_range_needs_the_range(office):
    page = office.open("instrument")
    office.type_into(page.name, "Pointer meter")
    office.type_into(page.range_percent, "1,5")
    office.press("Ctrl+Return")
    assert "full scale" in page.range_end.error()
    office.type_into(page.range_end, "0,1")
    office.type_into(page.percent, "0,5")
    office.press("Ctrl+Return")
    (line,) = instruments(office.book)
    assert (line.range_percent, line.range_end) == (Decimal("1.5"), Decimal("0.1"))
    assert accuracy_words(line) == "0.5\u00a0% + 1.5\u00a0% of range"
    page = office.open("instrument", line.id)
    assert (page.range_percent.text(), page.range_end.text()) == ("1.5", "0.1")


def test_former_ones_are_shown_on_wish(office):
    kept(office, METER, InstrumentLine(name="Old meter", retired=True))
    page = office.open("instruments")
    assert len(lines(page.table)) == 1
    office.push(page.turn)
    assert page.turn.words() == "Hide former ones"
    assert [(row[0], row[-1]) for row in lines(page.table)][1] == ("Old meter", "no longer used")
    office.push(page.turn)
    assert len(lines(page.table)) == 1


def test_what_cannot_be_read_is_told_under_its_field(office):
    page = office.open("instrument")
    office.press("Ctrl+Return")
    assert page.name.error()
    for field, said in ((page.percent, "Write a number"), (page.due, "No day can be read")):
        office.type_into(field, "soon")
        office.press("Ctrl+Return")
        assert said in field.error()
        assert office.focus is field.edit
        office.type_into(field, "")
    assert instruments(office.book) == ()


def test_the_entry_is_changed_and_retired(office):
    kept(office, METER)
    office.open("instruments")
    office.press("Return")
    page = office.page
    assert page.title == "Bench meter"
    assert (page.percent.text(), page.digits.text(), page.step.text()) == ("0.5", "2", "")
    office.type_into(page.step, "0,001")
    page.retired.setFocus()
    office.press("Space")
    office.press("Ctrl+Return")
    (line,) = instruments(office.book, retired=True)
    assert (line.retired, line.step) == (True, Decimal("0.001"))


def test_half_typed_is_kept_and_can_be_forgotten(office):
    kept(office, METER)
    office.open("instruments")
    office.press("Return")
    office.type_into(office.page.name, "Bench meter by the door")
    office.press("Esc")
    office.press("Return")
    page = office.page
    assert page.name.text() == "Bench meter by the door"
    office.push(page.empty_button)
    assert page.name.text() == "Bench meter"
    assert office.desk.drafts.forms() == ()
    page = office.open("instrument")
    office.type("Scope")
    office.push(page.empty_button)
    assert office.page is not page
    assert office.open("instrument").name.text() == ""


def test_nobody_at_work_saves_nothing(office):
    page = office.open("instrument")
    office.desk.set_staff(None)
    page.name.set_text("Scope")
    page.save()
    assert "Ctrl+U" in page.trouble.words
    assert instruments(office.book) == ()


def test_former_values_are_read_and_taken_into_the_fields_again(office):
    kept(office, METER)
    (line,) = instruments(office.book)
    key = line.id
    save_instrument(office.book, office.shop.sanna, replace(line, percent=Decimal("0.8"), kind="meter"))
    page = office.open("instrument", key)
    assert "Sanna Wickerel" in page.former_texts.words
    assert "Accuracy: 0.5\u00a0% and 2 digits" in page.former_texts.words
    page.former_texts.set_opened(True)
    office.push(page.former_texts.buttons[0])
    assert page.percent.text() == "0.5"
    office.press("Ctrl+Return")
    (line,) = instruments(office.book)
    assert (line.percent, line.kind) == (Decimal("0.5"), METER.kind)
    page = office.open("instrument", key)
    assert len(page.former_texts.buttons) == 2
