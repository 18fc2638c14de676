"""Moving transports at the bench."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from app.screens.bench.transport_forms import Move
from app.trade.bench.kinds import Arrangement
from app.trade.bench.stages import MainsClass
from app.trade.counter.taking_in import Intake
from app.work.bench.sheet_of_job import job_sheet
from app.work.bench.transport_life import transport_life
from app.work.counter.taking_in import receive_unit
from app.work.office.shop_lists import TypeLine, save_transport_type


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
    assert form.nothing.text() == ""
    form.what.set_value(Move.SWAP)
    assert (
        form.nothing.text() == "No transport lies on a shelf, in a donor or in another player on a job here."
    )


def another_player(workbench: Any, type_name: str = "") -> tuple[int, int]:
    """A second Larch 2 with its own transport, taken in: its job and that transport."""
    bench = workbench.bench
    kind = bench.type
    if type_name:
        line = TypeLine(name=type_name, arrangement=Arrangement.SLED)
        kind = save_transport_type(bench.book, bench.shop.ine, line).value
    intake = Intake(
        name="Solveig Marrin", phone="01632 960245", maker="Quellmar", model="Larch 2", serial="0431 207",
        mains_class=MainsClass.II, transport_type_id=kind, transport_serial="55 902", fault="No disc is read.",
    )  # fmt: skip
    job = receive_unit(bench.book, bench.shop.mirr, intake).value.job_id
    return job, job_sheet(bench.book, job).transport_id


def test_one_step_takes_it_out_of_another_player_and_says_so(workbench: Any) -> None:
    job, transport = another_player(workbench)
    workbench.job()
    form = open_form(workbench)
    form.what.set_value(Move.SWAP)
    assert form.chosen.itemText(0) == "Velk A1 55 902, in Quellmar Larch 2, job 1002"
    form.chosen.set_value(transport)
    workbench.settle()
    assert form.nothing.text() == (
        "It leaves Quellmar Larch 2 without a transport; job 1002 keeps that in its history."
    )
    form.shelf.set_text("S3")
    workbench.save()
    assert workbench.sheet.transport_marking == "55 902"
    assert job_sheet(workbench.bench.book, job).transport_id is None
    life = transport_life(workbench.bench.book, workbench.bench.transport)
    assert life.shelf == "S3"


def test_another_type_is_asked_about_before_it_goes_in(workbench: Any) -> None:
    _, transport = another_player(workbench, "Drevvo S8")
    workbench.job()
    form = open_form(workbench)
    form.what.set_value(Move.SWAP)
    assert form.chosen.itemText(0).endswith("another type")
    assert not form.belongs.isVisible()  # asked only where another type was chosen
    form.chosen.set_value(transport)
    workbench.settle()
    assert form.nothing.text().startswith("Velk A1 belongs in this player, and this is Drevvo S8.")
    assert form.belongs.isVisible()
    workbench.save()
    assert form.belongs.error().startswith("Velk A1 belongs in this player")
    assert workbench.sheet.transport_marking == "55 871"
    form.belongs.set_text("Velk A1")
    workbench.save()
    assert workbench.sheet.transport_marking == "55 902"
    assert "other_type" in workbench.bench.rules()


def test_by_tab_the_buttons_follow_the_last_field(workbench: Any) -> None:
    workbench.job()
    form = open_form(workbench)
    form.what.set_value(Move.RENEW)
    form.label_current.setFocus(Qt.FocusReason.TabFocusReason)
    reached = []
    for _ in range(3):
        workbench.press(Qt.Key.Key_Tab)
        reached.append(QApplication.focusWidget())
    assert reached == [form.save_button, form.leave_button, form.empty_button]
