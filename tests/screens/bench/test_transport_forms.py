"""Moving transports at the bench."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from PySide6.QtCore import Qt

from app.screens.bench.transport_forms import Move
from app.work.bench.transport_life import transport_life


def open_form(workbench: Any) -> Any:
    workbench.ctrl(Qt.Key.Key_M, shift=True)
    return workbench.page.head.open


def test_out_onto_the_shelf_and_in_again(workbench: Any) -> None:
    page = workbench.job()
    form = open_form(workbench)
    assert form.what.value() == Move.OUT
    workbench.type_into(form.shelf, "S3")
    workbench.save()
    assert workbench.sheet.transport_id is None
    assert not page.head.transport.isVisible()
    form = open_form(workbench)
    form.what.set_value(Move.IN)
    workbench.save()
    assert form.wrong.text() == "Choose which transport is put in."
    assert form.chosen.itemText(0) == "Velk A1 55 871, S3"
    form.chosen.set_value(workbench.bench.transport)
    workbench.save()
    assert workbench.sheet.transport_id == workbench.bench.transport


def test_the_transport_found_is_noted_with_its_label(workbench: Any) -> None:
    workbench.job()
    form = open_form(workbench)
    workbench.save()  # the one that was noted goes onto the shelf
    form = open_form(workbench)
    form.what.set_value(Move.NOTE)
    workbench.save()
    assert form.wrong.text().startswith("Choose its type.")
    form.type.set_value(workbench.bench.type)
    form.marking.set_text("55 902")
    form.label_current.set_text("48.5")
    assert form.label_current.echo() == "read as 48.5\u00a0mA"
    workbench.save()
    sheet = workbench.sheet
    assert (sheet.transport_marking, sheet.laser_label.value) == ("55 902", Decimal("48.5"))


def test_marking_and_label_are_put_right(workbench: Any) -> None:
    workbench.job()
    form = open_form(workbench)
    form.what.set_value(Move.LABEL)
    assert form.marking.text() == "55 871"
    form.marking.set_text("55 877")
    form.label_current.set_text("seven")
    workbench.save()
    assert form.label_current.error() != ""
    form.label_current.set_text("49")
    workbench.save()
    assert workbench.sheet.transport_marking == "55 877"


def test_a_part_of_it_is_renewed_with_a_new_label(workbench: Any) -> None:
    workbench.job()
    form = open_form(workbench)
    form.what.set_value(Move.RENEW)
    assert not form.marking.isVisible()
    form.part.set_text("pick-up")
    form.label_current.set_text("46.0")
    workbench.save()
    life = transport_life(workbench.bench.book, workbench.bench.transport)
    assert [part.words for part in life.renewed] == ["pick-up"]
    assert workbench.sheet.laser_label.value == Decimal("46.0")


def test_with_no_transport_on_hand_the_form_says_so(workbench: Any) -> None:
    workbench.job()
    form = open_form(workbench)
    assert form.nothing.text() == "No transport lies on a shelf or in a donor."
