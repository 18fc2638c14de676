"""What stands under the field and the table of readings: last values, verdicts and why they are what they are."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from PySide6.QtCore import Qt

from app.trade.bench.modifications import Circuit, Kind, Law
from app.work.bench.modifications import ModificationEntry, record_modification
from tests.screens.bench.test_readings_section import form_of, plain, rows


def test_the_last_value_and_why_a_verdict_is_what_it_is_stand_under_the_field(workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_R)
    form = form_of(page)
    form.quantity.set_text("laser current")
    assert not form.beside.known.isVisible()
    workbench.enter("51.2")
    workbench.settle()
    form.quantity.set_text("laser current")
    workbench.settle()
    assert form.beside.known.text().startswith("Last 51.2\u00a0mA, ")
    workbench.type_into(form.value, "52")
    workbench.settle()
    assert "of the label" in form.beside.why.text()
    assert "Guard band" not in form.beside.why.text()
    workbench.click(form.more_button)
    assert "Guard band" in form.beside.why.text()
    assert "Probability of conforming" in form.beside.why.text()
    form.value.set_text("")
    assert form.beside.why.text() == ""


def test_turns_are_typed_and_the_radius_under_place_makes_them_a_speed(workbench: Any) -> None:
    # v = 2 pi r n / 60: 500 turns a minute at 25 mm are 1.309 m/s, within 1.20 to 1.40 (IEC 60908, secondary).
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_R)
    form = form_of(page)
    form.quantity.set_text("scanning speed at a radius")
    assert form.place.isVisible()
    form.value.setFocus()
    workbench.enter("500 U/min")
    assert form.value.error() == "Turns need the radius: note it under place, such as r 25 mm."
    workbench.type_into(form.place, "r 25 mm")
    workbench.settle()
    assert form.value.error() == ""
    assert form.gauge.words.startswith("within")
    form.value.setFocus()
    workbench.press(Qt.Key.Key_Return)
    workbench.settle()
    (reading,) = workbench.sheet.readings
    assert (str(reading.value), reading.unit, reading.conditions) == ("1.309", "m/s", "r 25 mm")


def test_a_drive_read_on_a_changed_circuit_tells_its_verdict_at_the_maker_s_value(workbench: Any) -> None:
    # 253 mV is within 300; 253 x 1.214286 = 307.2 is too close to call: common practice, no source.
    bench = workbench.bench
    entry = ModificationEntry(
        kind=Kind.REPLACED,
        circuit=Circuit.RADIAL_COIL,
        where="R314",
        law=Law.CURRENT,
        maker_value=Decimal("6.8"),
        new_value=Decimal("5.6"),
        why="seeks again",
    )
    record_modification(bench.book, bench.tobbe, bench.job, entry)
    bench.read("radial_drive", "253")
    page = workbench.job()
    (row,) = rows(page)
    assert "within as read" in plain(row)
    section = page.body.readings
    assert section.as_made.isVisible()
    assert section.as_made.text().startswith("Radial drive 253")
    assert "307\u00a0mV" in section.as_made.text()
    assert section.as_made.text().endswith("too close to call.")


def test_the_guard_band_of_a_marked_reading_is_told_under_the_table(workbench: Any) -> None:
    page = workbench.job()
    workbench.ctrl(Qt.Key.Key_R)
    form_of(page).quantity.set_text("laser current")
    workbench.enter("51.2")
    workbench.settle()
    section = page.body.readings
    assert not section.guard.isVisible()
    section.table.mark(section._readings[0].id)
    workbench.settle()
    assert section.guard.isVisible()
    assert "Guard band" in section.guard.text()
