"""Lines of an invoice by keys alone: charges, fees, text, discounts, with live sums, and struck out again."""

from __future__ import annotations

import pytest

from app.book import tables as t
from app.trade.bench.stages import Outcome, Stage
from app.trade.money import Money
from app.trade.office.invoice import LineKind
from app.trade.sentence import Sentence
from app.trade.settings import PRICES_WITH_VAT
from app.work.office.invoice_view import invoice_view
from app.work.office.invoices import draft_invoice
from app.work.office.settings import change_settings
from tests.screens.office.conftest import lines, link, sums


def test_a_fee_is_put_on_it_and_counted_while_it_is_typed(office, worked):
    page = office.open("invoice", worked.job)
    office.push(link(page, "Add a fee"))
    office.type("Diagnosis")
    office.press("Return")
    office.press("Return")
    office.type("40")
    form = page.lines.place.form
    assert form.price.echo() == "40.00\u00a0EUR net"
    assert page.lines.sums.thought
    assert sums(page)["Total"] == 11876 + 4760
    office.press("Ctrl+Return")
    assert page.lines.place.form is None
    assert lines(page.lines.table)[-1] == ["Diagnosis", "1", "each", "40.00", "19 %", "40.00"]
    assert not page.lines.sums.thought
    assert sums(page)["Total"] == 11876 + 4760


def test_what_cannot_be_read_is_told_under_its_field_and_nothing_is_saved(office, worked):
    page = office.open("invoice", worked.job)
    office.push(link(page, "Add a fixed charge"))
    office.press("Ctrl+Return")
    form = page.lines.place.form
    assert form.price.error() == "Write a number."
    office.type_into(form.price, "12,50")
    office.type_into(form.quantity, "x")
    assert form.price.echo() == ""
    office.type_into(form.quantity, "2")
    office.press("Ctrl+Return")
    assert form.what.error() == "Write what it is."
    office.type_into(form.what, "Copy of the manual")
    office.press("Ctrl+Return")
    assert lines(page.lines.table)[-1][1:] == ["2", "each", "12.50", "19 %", "25.00"]


def test_where_prices_are_typed_with_vat_the_field_says_so(office, worked):
    change_settings(worked.book, worked.who, {PRICES_WITH_VAT: True})
    page = office.open("invoice", worked.job)
    office.push(link(page, "Add a fee"))
    assert "Each, with VAT" in office.sees()
    form = page.lines.place.form
    office.type_into(form.what, "Diagnosis")
    office.type_into(form.price, "45")
    assert form.price.echo() == "37.82\u00a0EUR net"
    office.press("Ctrl+Return")
    totals = invoice_view(worked.book, worked.job).draft.totals
    assert totals.due == Money(11876 + 4500, "EUR")  # what was said with VAT is what is asked for
    assert totals.rounding == totals.due - totals.gross


def test_a_text_line_has_only_words(office, worked):
    page = office.open("invoice", worked.job)
    office.push(link(page, "Add a text line"))
    assert page.lines.place.form.price is None
    office.type("Laser and arm as before.")
    office.press("Ctrl+Return")
    assert lines(page.lines.table)[-1] == ["Laser and arm as before.", "", "", "", "", ""]


@pytest.mark.parametrize(("typed", "off"), [("10", 1000), ("10 %", 998)])
def test_a_discount_is_an_amount_or_a_share(office, worked, typed, off):
    page = office.open("invoice", worked.job)
    office.push(link(page, "Give a discount"))
    office.type(typed)
    form = page.lines.place.form
    assert form.amount.echo().startswith(f"{off // 100}.{off % 100:02d}\u00a0EUR")
    assert sums(page)["Discount"] == -off
    office.type_into(form.reason, "regular customer")
    office.press("Ctrl+Return")
    assert lines(page.lines.table)[-1][0] == "Discount regular customer"
    assert draft_invoice(worked.book, worked.job).totals.discount == Money(off, "EUR")


def test_a_discount_that_is_none_is_refused(office, worked):
    page = office.open("invoice", worked.job)
    office.push(link(page, "Give a discount"))
    office.press("Ctrl+Return")
    form = page.lines.place.form
    assert form.amount.error()
    office.type_into(form.amount, "0")
    assert not page.lines.sums.thought
    office.type_into(form.amount, "5 %")
    form.rate.set_value(1)  # 7 %: nothing is charged at it
    office.settle()
    assert form.amount.echo() == "0.00\u00a0EUR off 0.00\u00a0EUR"
    office.press("Ctrl+Return")
    assert form.amount.error() == "Enter an amount above zero."
    assert form.reason.error()


def test_ctrl_del_strikes_the_marked_charge_out_with_a_reason(office, worked):
    page = office.open("invoice", worked.job)
    office.push(link(page, "Add a fee"))
    office.type("Diagnosis")
    office.type_into(page.lines.place.form.price, "40")
    office.press("Ctrl+Return")
    page.lines.table.setFocus()
    page.lines.table.mark(2)
    office.press("Ctrl+Del")
    office.press("Ctrl+Return")
    assert "Say why it is struck out" in page.lines.place.form.reason.error()
    office.type("typed on the wrong job")
    office.press("Ctrl+Return")
    assert len(lines(page.lines.table)) == 2
    assert office.focus is page.lines.table


def test_a_discount_is_struck_out_the_same_way(office, worked):
    page = office.open("invoice", worked.job)
    office.push(link(page, "Give a discount"))
    office.type("10")
    office.type_into(page.lines.place.form.reason, "goodwill")
    office.press("Ctrl+Return")
    page.lines.table.mark(("discount", 0))
    page.lines.strike()
    office.settle()
    office.type("given twice")
    office.press("Ctrl+Return")
    assert draft_invoice(worked.book, worked.job).draft.discounts == ()


def test_working_time_is_struck_out_on_the_bench(office, worked):
    page = office.open("invoice", worked.job)
    page.lines.table.mark(0)
    page.lines.strike()
    assert "on the bench" in page.trouble.words
    office.press("Return")
    assert type(office.page).__name__ == "Blank"


def test_nothing_marked_is_nothing_to_strike_out(office, worked):
    page = office.open("invoice", worked.job)
    page.lines.strike()
    assert page.lines.place.form is None


def test_a_closed_job_takes_no_lines_but_money(office, worked):
    with worked.book.change(worked.who, Sentence("handed back")) as change:
        job = change.get(t.Job, worked.job)
        job.stage, job.outcome, job.handed_back_at = Stage.HANDED_BACK, Outcome.MENDED, change.now
    page = office.open("invoice", worked.job)
    page.lines.add(LineKind.FEE)
    page.lines.discount()
    assert page.lines.place.form is None
    page.money.open(back=False)
    assert page.money.place.form is not None


def test_the_marked_line_gets_a_discount_with_its_reason(office, worked):
    page = office.open("invoice", worked.job)
    page.lines.table.mark(1)
    office.push(link(page, "Discount on the marked line"))
    form = page.lines.place.form
    assert "Discount on: Loading belt 22 mm" in office.sees()
    office.type("50 %")
    assert form.amount.echo() == "1.90\u00a0EUR off 3.80\u00a0EUR"
    assert sums(page)["Without VAT"] == 9980 - 190
    office.type_into(form.reason, "scratched")
    office.press("Ctrl+Return")
    assert lines(page.lines.table)[1] == [
        "Loading belt 22 mm less 1.90\u00a0EUR: scratched",
        "1",
        "piece",
        "3.80",
        "19 %",
        "1.90",
    ]
    page.lines.table.mark(1)
    office.press("Ctrl+Del")
    assert "Strike out: scratched" in office.sees()


def test_a_line_discount_half_typed_comes_back_with_its_line(office, worked):
    page = office.open("invoice", worked.job)
    page.lines.table.mark(1)
    office.push(link(page, "Discount on the marked line"))
    office.type("1")
    office.window.trail.close_page("invoice", worked.job)
    page = office.open("invoice", worked.job)
    assert "Discount on: Loading belt 22 mm" in office.sees()
    assert page.lines.place.form.amount.text() == "1"


def test_a_charge_on_the_whole_is_put_on_top(office, worked):
    page = office.open("invoice", worked.job)
    office.push(link(page, "Charge on the whole"))
    office.type("20")
    office.type_into(page.lines.place.form.reason, "done on a Sunday")
    office.press("Ctrl+Return")
    assert lines(page.lines.table)[-1] == ["On top done on a Sunday", "", "", "", "19 %", "20.00"]
    assert sums(page)["On top"] == 2000
    page.lines.table.mark(("charge on the whole", 0))
    office.press("Ctrl+Del")
    assert "Strike out: done on a Sunday" in office.sees()


def test_vat_is_left_out_of_the_whole_and_comes_back_when_struck_out(office, worked):
    page = office.open("invoice", worked.job)
    office.push(link(page, "Leave VAT out"))
    assert sums(page)["To pay"] == 9980  # as it would be
    office.press("Ctrl+Return")
    form = page.lines.place.form
    assert form.reason.error() == "Write why there is no VAT: it has to stand on the invoice."
    office.type_into(form.reason, "The buyer owes the VAT.")
    office.press("Ctrl+Return")
    assert lines(page.lines.table)[-1][0] == "No VAT on the whole The buyer owes the VAT."
    assert sums(page)["VAT 0\u00a0%"] == 0
    assert "Leave VAT out" not in office.sees(page.lines)
    page.lines.table.mark(("no VAT on the whole", 0))
    office.press("Ctrl+Del")
    office.type("they live here")
    office.press("Ctrl+Return")
    assert sums(page)["To pay"] == 11876


def test_drafts_of_what_moves_the_whole_stand_open_again(office, worked):
    for words, field in (("Charge on the whole", "amount"), ("Leave VAT out", "reason")):
        page = office.open("invoice", worked.job)
        office.push(link(page, words))
        office.type("7")
        office.window.trail.close_page("invoice", worked.job)
        page = office.open("invoice", worked.job)
        assert getattr(page.lines.place.form, field).text() == "7"
        page.lines.place.form.throw_away()
