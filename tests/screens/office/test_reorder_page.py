"""What to order, by supplier: seen, printed and saved as CSV."""

from __future__ import annotations

import csv
from dataclasses import replace
from decimal import Decimal

import pytest

from app.work.bench.work_done import use_part
from app.work.office.part_orders import part_orders
from app.work.office.parts import PartEntry, save_part
from tests.screens.office.conftest import lines

BELT = PartEntry(
    code="B-22",
    words="Loading belt 22 mm",
    price=3_800_000,
    cost=1_250_000,
    supplier="Brackwater Belts",
    order_code="=22",
)


@pytest.fixture
def short(bench):
    """Eight of ten belts used: two are left."""
    save_part(bench.book, bench.who, BELT, part_id=bench.part)
    use_part(bench.book, bench.who, bench.job, bench.part, Decimal(8))
    return bench


def test_nothing_to_order_says_so_and_leads_to_the_parts(office, bench):
    page = office.open("reorder")
    assert "No part has to be ordered now" in office.sees()
    assert not page.file_button.isVisible()
    page.add()
    office.settle()
    assert office.page.title == "Parts in stock"


def test_what_is_short_stands_under_its_supplier_with_how_many(office, short):
    page = office.open("reorder")
    # 8 in the least time of 30 days: 3.73 in 14, 7 meet 95 in 100 (scipy.stats.poisson.ppf). 7 + 24 - 2.
    assert lines(page.table)[-1] == [
        "B-22",
        "Loading belt 22 mm",
        "=22",
        "2",
        "",
        "",
        "8.1",
        "14 days",
        "7",
        "29 pieces",
        "36.25 EUR",
    ]
    assert "What is to order costs 36.25\u00a0EUR without VAT." in office.sees()
    page.open(short.part)
    office.settle()
    assert office.page.title == "B-22  Loading belt 22 mm"


def test_all_parts_can_be_looked_at_and_those_without_cost_are_counted(office, short):
    for code in ("C-1", "C-2"):
        other = save_part(short.book, short.who, replace(BELT, code=code, supplier="", cost=None)).value
        use_part(short.book, short.who, short.job, other, Decimal(1))
        page = office.open("reorder")
        page.reload()
        office.settle()
        assert f"Of {code[-1]} the cost is not known." in office.sees()
    save_part(short.book, short.who, replace(BELT, code="D-1", supplier=""))
    page.which.set_value("every")
    page.reload()
    office.settle()
    assert [row[0] for row in lines(page.table) if row[0].startswith(("B", "C-", "D-"))][-1] == "D-1"
    assert page.told() == ("All parts",)


def test_the_list_is_saved_as_csv_that_runs_nothing(office, short, tmp_path):
    page = office.open("reorder")
    page.save_to(tmp_path / "order.csv")
    office.settle()
    text = (tmp_path / "order.csv").read_text(encoding="utf-8-sig")
    (row,) = csv.DictReader(text.splitlines())
    assert (row["supplier"], row["order_code"], row["order"]) == ("Brackwater Belts", "'=22", "29")
    assert (row["used_per_month"], row["service_percent"], row["cost"]) == ("8.12", "95", "36.25")
    assert "Saved as" in office.sees()


def test_a_file_that_cannot_be_written_is_told(office, short, tmp_path):
    page = office.open("reorder")
    page.save_to(tmp_path / "nowhere" / "order.csv")
    office.settle()
    assert "could not be written" in page.trouble.words


def test_saving_asks_for_a_place(office, short, tmp_path, monkeypatch):
    from PySide6.QtWidgets import QFileDialog

    page = office.open("reorder")
    asked = []

    def answer(parent, title, name, kinds):
        asked.append(name)
        return ("" if len(asked) == 1 else str(tmp_path / "there.csv"), "")

    monkeypatch.setattr(QFileDialog, "getSaveFileName", answer)
    page.save_asked()
    office.push(page.file_button)
    assert asked[0].startswith("What to order 2026-")
    assert (tmp_path / "there.csv").exists()


def test_the_list_is_written_down_as_ordered_and_what_is_on_order_is_looked_at(office, short):
    other = save_part(short.book, short.who, replace(BELT, code="C-1", supplier="")).value
    use_part(short.book, short.who, short.job, other, Decimal(1))
    page = office.open("reorder")
    office.push(page.order_button)
    form = page.place.form
    assert form.what.text() == "29 × B-22"
    office.type_into(form.ordered, "some day")
    office.press("Ctrl+Return")
    assert form.ordered.error()
    office.type_into(form.ordered, "yesterday")
    office.type_into(form.note, "by letter")
    office.press("Ctrl+Return")
    (line,) = part_orders(short.book)
    assert (line.code, line.ordered.quantity, line.note) == ("B-22", 29, "by letter")
    # Only the part without a supplier is left, which the button cannot order.
    assert [row[0] for row in lines(page.table)][-1] == "C-1"
    assert not page.order_button.isVisible()
    page.which.set_value("coming")
    page.reload()
    office.settle()
    assert lines(page.table)[-1][3:6] == ["2", "29", "Wed\N{NO-BREAK SPACE}25\N{NO-BREAK SPACE}Mar"]
    short.shop.clock.advance(days=40)
    page.reload()
    office.settle()
    assert lines(page.table)[-1][5].endswith("Mar late")
    assert page.told() == ("On order",)


def test_leaving_the_form_of_the_list_leaves_the_list_where_it_is(office, short):
    page = office.open("reorder")
    office.push(page.order_button)
    office.press("Esc")
    assert page.place.form is None
    assert office.page is page
