"""Parts, working time and charges on the sheet."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from PySide6.QtCore import Qt

from app.book.tables import Unit
from app.trade.sentence import Sentence
from app.work.office.part_orders import part_orders, receive_order
from app.work.office.parts import PartEntry, save_part
from app.work.office.stock import part_moves, receive_part


@pytest.fixture
def stocked(bench: Any) -> Any:
    """Ten resistors in a drawer."""
    entry = PartEntry(code="R-5R6", words="resistor 5.6 ohm", price=250_000, safety_type="")
    part = save_part(bench.book, bench.shop.ine, entry).value
    receive_part(bench.book, bench.shop.ine, part, Decimal(10))
    return part


def where(work: Any) -> str:
    """Where the first ordered part is."""
    ((_, row),) = work.ordered.model().known()
    return str(row.cells[2].plain).replace("\N{NO-BREAK SPACE}", " ")


def open_form(workbench: Any, key: Qt.Key) -> Any:
    workbench.ctrl(key, shift=True)
    return workbench.page.body.work.open


def test_a_part_is_used_by_code_and_put_back(stocked: Any, workbench: Any) -> None:
    page = workbench.job()
    form = open_form(workbench, Qt.Key.Key_A)
    workbench.type("R-5R6")
    assert form.about.text() == "resistor 5.6 ohm, 10 on hand"
    form.quantity.set_text("2")
    workbench.save()
    (line,) = workbench.sheet.work
    assert (line.kind, line.words, line.quantity) == ("part", "resistor 5.6 ohm", Decimal(2))
    assert page.head.told.text().startswith("The case counted as closed.")
    work = page.body.work
    work.table.setFocus()
    work.table.mark_first()
    workbench.settle()
    assert not work.strike_link.isVisible()  # a part used is put back, never struck out
    workbench.click(work.back_link)
    assert [line.quantity for line in workbench.sheet.work] == [Decimal(2), Decimal(-2)]
    work.table.mark(0)
    workbench.click(work.back_link)
    assert "back in stock already" in page.trouble.words


def test_a_part_comes_straight_out_of_a_donor_where_one_stays_here(stocked: Any, workbench: Any) -> None:
    bench = workbench.bench
    workbench.job()
    form = open_form(workbench, Qt.Key.Key_A)
    assert not form.donor.isVisible()
    workbench.press(Qt.Key.Key_Escape)
    with bench.book.change(bench.shop.ine, Sentence("kept as donor")) as change:
        change.get(Unit, bench.unit).is_donor = True
    form = open_form(workbench, Qt.Key.Key_A)
    workbench.settle()
    assert form.donor.isVisible()
    workbench.type("R-5R6")
    form.donor.set_value(bench.unit)
    workbench.save()
    used, taken, _ = part_moves(bench.book, stocked)
    assert (used.out_of, taken.after, used.after) == ("Quellmar Larch 2", Decimal(11), Decimal(10))


def test_a_part_that_is_not_in_the_list_is_told(stocked: Any, workbench: Any) -> None:
    workbench.job()
    form = open_form(workbench, Qt.Key.Key_A)
    workbench.type("flux capacitor")
    assert form.about.text() == "No part of the list is called so."
    form.quantity.set_text("some")
    workbench.save()
    assert form.part.error() == "Choose a part from the list."
    assert form.quantity.error() != ""


def test_without_parts_the_office_is_named(workbench: Any) -> None:
    workbench.job()
    form = open_form(workbench, Qt.Key.Key_A)
    assert form.about.text() == "No parts are kept yet: the Office lists them."


def test_time_is_typed_as_people_write_it_and_read_back(workbench: Any) -> None:
    page = workbench.job()
    form = open_form(workbench, Qt.Key.Key_W)
    workbench.enter("arm bearing cleaned")
    workbench.type("1:30")
    assert form.hours.echo() == "read as 1\u00a0h 30\u00a0min"
    workbench.save()
    (line,) = workbench.sheet.work
    assert (line.kind, line.words, line.quantity) == ("labour", "arm bearing cleaned", Decimal("1.5"))
    assert "1 line" in page.body.work.head.accessibleName()


def test_time_that_cannot_be_says_so(workbench: Any) -> None:
    workbench.job()
    form = open_form(workbench, Qt.Key.Key_W)
    form.hours.set_text("1:75")
    workbench.save()
    assert form.words_field.error() == "Say what was done."
    assert form.hours.error().startswith("An hour has 60 minutes")


def test_a_line_is_struck_out_with_a_reason_and_taken_back(workbench: Any) -> None:
    from app.work.bench.work_done import record_labour

    record_labour(workbench.bench.book, workbench.bench.tobbe, workbench.bench.job, "wrong job", Decimal(2))
    page = workbench.job()
    work = page.body.work
    work.table.setFocus()
    work.table.mark_first()
    workbench.ctrl(Qt.Key.Key_Delete)
    workbench.type("another player's time")
    workbench.save()
    assert workbench.sheet.work[0].struck is not None
    assert "none yet" in work.head.accessibleName()
    work.table.mark(0)
    workbench.click(work.undo_link)
    assert workbench.sheet.work[0].struck is None


def test_charges_fees_and_discounts_are_put_on_the_job(workbench: Any) -> None:
    page = workbench.job()
    for kind, words, price in (
        ("fixed charge", "small parts", "4,50"),
        ("fee", "diagnosis", "30"),
        ("discount", "waited long", "5"),
        ("text", "pick up after five", ""),
    ):
        page.add_charge()
        workbench.settle()
        form = page.body.work.open
        form.kind.set_value(kind)
        form.words_field.set_text(words)
        form.price.set_text(price)
        if price == "30":
            assert "EUR" in form.price.echo()
        workbench.save()
    assert [line.kind for line in workbench.sheet.work] == ["fixed charge", "fee", "discount", "text"]
    page.add_charge()
    workbench.settle()
    form = page.body.work.open
    form.words_field.set_text("something")
    form.price.set_text("dear")
    workbench.save()
    assert form.price.error() != ""
    form.kind.set_value("text")
    assert not form.price.isVisible()


def test_a_part_is_ordered_for_the_job_and_told_until_it_is_here(stocked: Any, workbench: Any) -> None:
    bench, page = workbench.bench, workbench.job()
    work = page.body.work
    assert not work.ordered.isVisible()
    workbench.click(work.order_link)
    form = work.open
    workbench.settle()
    workbench.type("R-5R6")
    assert "10 on hand" in form.about.text()
    today = bench.book.today()
    assert form.expected.day() == today + timedelta(days=14)
    form.ordered.set_text("yesterday")
    form.changed()
    assert form.expected.day() == today + timedelta(days=13)
    form.expected.set_text("+20")
    form.changed()
    assert form.expected.day() == today + timedelta(days=20)
    form.supplier.set_text("Harlow Components")
    form.quantity.set_text("2")
    workbench.save()
    (ordered,) = workbench.sheet.ordered
    assert (ordered.ordered.quantity, ordered.supplier) == (2, "Harlow Components")
    assert page.head.stage.accessibleName().endswith("part due 1\N{NO-BREAK SPACE}Apr")
    assert where(work) == "expected Wed 1 Apr"
    (line,) = part_orders(bench.book)
    receive_order(bench.book, bench.shop.mirr, line.id, Decimal(2))
    page.reload()
    workbench.settle()
    assert where(work) == "here"
    assert "part due" not in page.head.stage.accessibleName()


def test_an_order_without_part_number_or_day_is_told_at_its_field(stocked: Any, workbench: Any) -> None:
    workbench.job()
    work = workbench.page.body.work
    workbench.click(work.order_link)
    form = work.open
    workbench.settle()
    form.ordered.set_text("someday")
    workbench.save()
    for field in (form.part, form.quantity, form.ordered):
        assert field.error()
