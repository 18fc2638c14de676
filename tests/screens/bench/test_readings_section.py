"""Readings at the bench: ten values and ten Enters, judged while typed, corrected, struck out, never lost."""

from __future__ import annotations

from typing import Any

import pytest
from PySide6.QtCore import Qt

from app.screens.bench.reading_form import ReadingForm
from app.screens.bench.reading_rows import conditions_words
from app.screens.kit import measure
from app.screens.kit.cells import Group, Row
from app.trade.bench.stages import Moment
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence

TYPED = ("51.2", "1.08", "12", "-38", "228", "30.4", "4,8", "12", "7.96", "3.5")


def rows(page: Any) -> list[Row]:
    return [row for _, row in page.body.readings.table.rows_model().known() if isinstance(row, Row)]


def plain(row: Row) -> str:
    return " | ".join(cell.plain if cell is not None else "" for cell in row.cells)


def form_of(page: Any) -> ReadingForm:
    form = page.body.readings.open
    assert isinstance(form, ReadingForm)
    return form


def test_ten_readings_take_ten_values_and_ten_enters(sheet_of_ten: Any, workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_R)
    for value in TYPED:
        workbench.enter(value)
    workbench.settle()
    taken = workbench.sheet.readings
    assert [str(reading.value) for reading in taken] == [value.replace(",", ".") for value in TYPED]
    assert taken[8].detail == "+8 V"  # the rail that has a limit is named by itself
    assert {reading.moment for reading in taken} == {Moment.ARRIVAL}
    assert len(rows(page)) == 10
    assert form_of(page).progress.text() == "the sheet is done"


def test_a_value_is_read_and_judged_while_it_is_typed(workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_R)
    form = form_of(page)
    form.quantity.set_text("radial drive")
    workbench.type_into(form.value, "0,228 V")
    assert form.value.echo() == "read as 228\u00a0mV"
    assert form.gauge.words == "within −300 to 300"
    form.value.set_text("310m")
    workbench.settle()
    assert form.value.echo() == "read as 310\u00a0mV"
    assert form.gauge.words.startswith("too close to call")
    form.value.set_text("450")
    workbench.settle()
    assert form.gauge.words == "outside −300 to 300"
    form.quantity.set_text("radial error, loop open")  # its limit is the type's, and none is entered
    form.value.set_text("2.1")
    workbench.settle()
    assert form.gauge.words == "no limit"


def test_a_value_that_cannot_be_says_so_at_the_field_and_is_not_taken(workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_R)
    form = form_of(page)
    form.quantity.set_text("seek time, first to last track")
    form.value.setFocus()
    workbench.enter("1.2.3")
    workbench.settle()
    assert form.value.error().startswith("Figures are never grouped here")
    assert form.value.text() == "1.2.3"
    assert workbench.sheet.readings == ()
    form.value.set_text("4800")
    workbench.enter()
    workbench.settle()
    assert "cannot be: 0\u00a0s to 60\u00a0s is possible" in form.value.error()


def test_half_a_value_is_not_called_wrong_until_the_hand_rests(workbench: Any, qtbot: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_R)
    form = form_of(page)
    form.quantity.set_text("seek time, first to last track")
    form._wrong.setInterval(0)
    workbench.type_into(form.value, "4k")
    qtbot.waitUntil(lambda: form.value.error() != "")
    workbench.type("7")
    qtbot.waitUntil(lambda: "is possible" in form.value.error())


def test_words_that_are_no_quantity_are_refused_at_their_field(workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_R)
    form = form_of(page)
    form.quantity.set_text("wow and flutter")
    form.value.setFocus()
    workbench.enter("5")
    workbench.settle()
    assert form.quantity.error() == "Choose a quantity from the list."
    assert form.focusWidget() is form.quantity.edit


def test_a_rail_without_a_name_is_asked_which_one(workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_R)
    form = form_of(page)
    form.quantity.set_text("supply rail")
    form.value.setFocus()
    workbench.enter("7.96")
    workbench.settle()
    assert form.detail.isVisible()
    assert form.detail.error().startswith("Say which one")
    workbench.type("+8 V")
    form.value.setFocus()
    workbench.enter()
    workbench.settle()
    assert [reading.detail for reading in workbench.sheet.readings] == ["+8 V"]


def test_down_skips_a_step_of_the_sheet_and_up_comes_back(sheet_of_ten: Any, workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_R)
    form = form_of(page)
    assert form.quantity.text() == "laser current"
    workbench.press(Qt.Key.Key_Down)
    assert form.quantity.text() == "HF eye"
    workbench.press(Qt.Key.Key_Up)
    assert form.quantity.text() == "laser current"


def test_only_what_the_reached_rung_allows_is_on_the_sheet(sheet_of_ten: Any, workbench: Any) -> None:
    workbench.bench.climb(5)  # focus search: no HF, no seek yet
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_R)
    offered = [step.quantity.id for step in form_of(page).steps()]
    assert offered == ["laser_current", "focus_offset", "arm_start_current", "rail_dc"]


def test_conditions_are_kept_with_the_reading(workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_R)
    form = form_of(page)
    form.quantity.set_text("C1 errors, inner tracks")
    assert form.seconds.isVisible()  # a counted quantity asks how long it was counted
    form.seconds.set_text("30")
    form.warm.set_text("20")
    form.room.set_text("21,5")
    form.disc.set_text("reference disc R2")
    form.instrument.set_value(workbench.bench.meter)
    form.value.setFocus()
    workbench.enter("12")
    workbench.settle()
    (reading,) = workbench.sheet.readings
    assert reading.read_with == "bench meter"
    assert conditions_words(reading) == ("reference disc R2, warm for 20 min, room 21.5 °C, counted for 30 s")
    section = page.body.readings
    section.table.mark(reading.id)
    workbench.settle()
    assert section.guard.text().startswith("Conditions: reference disc R2, warm for 20 min")
    form.warm.set_text("soon")
    form.value.setFocus()
    workbench.enter("13")
    workbench.settle()
    assert form.warm.error() == "Type a whole number."


def test_a_reading_struck_out_stays_legible_and_can_be_taken_back(workbench: Any) -> None:
    workbench.bench.read("seek_time", "0.48")
    page = workbench.job()
    readings = page.body.readings
    readings.table.setFocus()
    readings.table.mark_first()
    workbench.ctrl(Qt.Key.Key_Delete)
    workbench.save()
    assert readings.open.reason.error().startswith("Say why it is struck out")
    workbench.type("decimal mark in the wrong place")
    workbench.save()
    (row,) = rows(page)
    assert row.struck
    assert row.rest == "struck out 10:30, Tobbe Ruskamp: decimal mark in the wrong place"
    assert row.cells[1].plain == "0.48"
    readings.table.setFocus()
    workbench.ctrl(Qt.Key.Key_Z, shift=True)
    (row,) = rows(page)
    assert not row.struck
    assert workbench.sheet.readings[0].struck is None


def test_a_reading_is_corrected_in_one_action(workbench: Any) -> None:
    workbench.bench.read("seek_time", "0.48")
    page = workbench.job()
    readings = page.body.readings
    readings.table.setFocus()
    readings.table.mark_first()
    workbench.click(readings.correct_link)
    form = readings.open
    workbench.type_into(form.value, "4.8.0")
    workbench.save()
    assert form.value.error() != ""
    assert form.reason.error() != ""
    form.value.set_text("4.8")
    assert form.value.echo() == "read as 4.8\u00a0s"
    workbench.type_into(form.reason, "decimal mark")
    workbench.save()
    assert [(str(r.value), r.struck is not None) for r in workbench.sheet.readings] == [
        ("0.48", True),
        ("4.8", False),
    ]


def test_a_reading_the_book_could_not_take_is_kept_here_and_saved_later(
    workbench: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    from app.screens.bench import readings_section

    page = workbench.job()
    real = readings_section.record_reading

    def full(*args: Any) -> Any:
        raise Refusal(Sentence("The disk is full; nothing was saved."), Sentence("Make room on the disk."))

    monkeypatch.setattr(readings_section, "record_reading", full)
    workbench.ctrl(Qt.Key.Key_R)
    form = form_of(page)
    form.quantity.set_text("seek time, first to last track")
    form.value.setFocus()
    workbench.enter("4.8")
    workbench.settle()
    assert "The disk is full" in page.trouble.words
    (row,) = rows(page)
    assert row.tail == "kept here, not saved"
    # another window on the same drafts still has it
    assert workbench.desk.drafts.read(f"job {workbench.bench.job} readings not saved") is not None
    monkeypatch.setattr(readings_section, "record_reading", real)
    workbench.press(Qt.Key.Key_Return)  # "Save again" has the focus
    assert page.trouble.words == ""
    assert [str(reading.value) for reading in workbench.sheet.readings] == ["4.8"]
    assert workbench.desk.drafts.read(f"job {workbench.bench.job} readings not saved") is None


def test_readings_kept_from_a_crash_are_offered_again(workbench: Any) -> None:
    entry = {
        "quantity": "seek_time",
        "typed": "4.8",
        "moment": "arrival",
        "detail": "",
        "instrument_id": None,
        "trial_id": None,
        "trial_side": "",
        "disc": "",
        "place": "",
        "warm_minutes": None,
        "room": "21.5",
        "seconds": None,
    }
    turns = {**entry, "quantity": "speed", "typed": "500 rpm", "place": "r 25 mm"}
    unread = {**entry, "quantity": "wow"}
    key = f"job {workbench.bench.job} readings not saved"
    workbench.desk.drafts.keep(key, {"readings": [entry, turns, unread]})
    page = workbench.job()
    assert "kept here, not saved" in page.trouble.words
    workbench.press(Qt.Key.Key_Return)
    assert [str(reading.value) for reading in workbench.sheet.readings] == ["4.8", "1.309"]


def test_a_half_typed_reading_survives_leaving_the_page(workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_R)
    form = form_of(page)
    form.quantity.set_text("seek time, first to last track")
    workbench.type_into(form.value, "4.")
    workbench.press(Qt.Key.Key_Escape)
    assert page.body.readings.open is None
    workbench.ctrl(Qt.Key.Key_R)
    assert form_of(page).value.text() == "4."


def test_readings_stand_under_their_moment_once_there_is_more_than_one(workbench: Any) -> None:
    workbench.bench.read("seek_time", "4.8")
    workbench.bench.read("seek_time", "1.2", Moment.FINAL)
    page = workbench.job()
    groups = [row for _, row in page.body.readings.table.rows_model().known() if isinstance(row, Group)]
    assert [(group.word, group.second) for group in groups] == [
        ("On arrival", "1 reading"),
        ("Final", "1 reading"),
    ]


def test_the_case_taken_as_opened_is_told(workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_R)
    form = form_of(page)
    form.quantity.set_text("focus offset")
    form.value.setFocus()
    workbench.enter("12")
    workbench.settle()
    assert page.head.told.text().startswith("The case counted as closed.")


def test_nobody_working_is_asked_for_first(workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_R)
    workbench.desk.set_staff(None)
    form = form_of(page)
    form.quantity.set_text("focus offset")
    form.value.setFocus()
    workbench.enter("12")
    workbench.settle()
    assert form.wrong.text() == "Say first who works here now, with Ctrl+U."
    assert workbench.sheet.readings == ()


def test_a_closed_job_takes_no_reading(workbench: Any) -> None:
    workbench.bench.close()
    page = workbench.job()
    assert not page.body.readings.add_link.isVisible()
    assert "add_reading" not in page.commands()


def test_with_large_text_columns_leave_until_quantities_can_be_read(workbench: Any) -> None:
    workbench.bench.read("focus_offset", "12")
    workbench.window.resize(1366, 768)
    table = workbench.job().body.readings.table
    workbench.window.set_text_size(200)
    workbench.settle()
    assert {"with", "u", "gauge"} <= table.hidden.columns
    assert "verdict" not in table.hidden.columns
    assert table.columnWidth(0) >= measure.px(130)
