"""Credit notes on the invoice page by keys alone: a line, a part, everything; the paper beside; drafts."""

from __future__ import annotations

from datetime import date

import pytest

from app.trade.bench.kinds import Means
from app.trade.money import MICRO, Money
from app.trade.office.vat import VatRate
from app.work.office.charges import give_discount
from app.work.office.invoice_view import invoice_view
from app.work.office.invoices import draft_invoice, issue_invoice
from app.work.office.payments import take_payment
from tests.papers.reading import whole
from tests.screens.office.conftest import lines, link, sums


@pytest.fixture
def invoiced(worked):
    """Labour 96.00 and a belt 3.80 at 19 %: invoice 0001 over 118.76."""
    worked.invoice = issue_invoice(worked.book, worked.who, worked.job).value.id
    return worked


def begin(office, bench):
    """The page with the form of a credit note open, the focus in its lines."""
    page = office.open("invoice", bench.job)
    office.push(link(page, "Correct it by a credit note"))
    form = page.credit.place.form
    assert office.focus is form.table
    return page, form


def notes(bench):
    return invoice_view(bench.book, bench.job).notes


def test_an_invoice_that_is_not_issued_offers_no_credit_note(office, worked):
    page = office.open("invoice", worked.job)
    assert not page.credit.isVisible()


def test_one_line_is_given_back_by_keys_alone(office, invoiced):
    page, form = begin(office, invoiced)
    assert lines(form.table) == [
        ["1", "Arm bearing cleaned", "1.5", "h", "", ""],
        ["2", "Loading belt 22 mm", "1", "piece", "", ""],
    ]
    assert "118.76\u00a0EUR is left to credit on this invoice." in office.sees()
    office.press("Down")
    office.press("Space")
    assert lines(form.table)[1] == ["2", "Loading belt 22 mm", "1", "piece", "1", "3.80"]
    assert (
        "4.52\u00a0EUR is given back, 0.72\u00a0EUR of it VAT. Then 114.24\u00a0EUR is open." in office.sees()
    )
    assert not form.pay_out.isVisible()
    office.type_into(form.reason, "the belt was not fitted")
    office.press("Ctrl+Return")
    assert [(one.number, one.due, one.reason) for one in notes(invoiced)] == [
        ("C-0001", Money(452, "EUR"), "the belt was not fitted")
    ]
    assert page.credit.place.form is None
    assert lines(page.credit.table) == [
        ["C-0001", "12\u00a0Mar\u00a02026", "the belt was not fitted", "Ine Varloes", "4.52"]
    ]
    assert sums(page) == {"Total with VAT": 11876, "Credited": -452, "Still to pay": 11424}


def test_part_of_a_line_is_given_back(office, invoiced):
    _, form = begin(office, invoiced)
    form.table.mark(0)
    assert "of 1.5 h left; Space gives the line back whole" in office.sees()
    office.type_into(form.part, "0.25")
    assert lines(form.table)[0] == ["1", "Arm bearing cleaned", "1.5", "h", "0.25", "16.00"]
    form.table.mark(1)
    assert form.part.text() == ""
    form.table.mark(0)
    assert form.part.text() == "0.25"
    office.type_into(form.reason, "the bench clock shows less")
    office.press("Ctrl+Return")
    assert notes(invoiced)[0].due == Money(1904, "EUR")


def test_space_again_leaves_the_line_and_a_link_takes_all(office, invoiced):
    _, form = begin(office, invoiced)
    office.press("Space")
    assert form.wanted == {0: 1_500_000}
    office.press("Space")
    assert form.wanted == {}
    office.push(form.all_button)
    assert form.wanted == {0: 1_500_000, 1: MICRO}
    office.push(form.none_button)
    assert form.wanted == {}


def test_what_cannot_be_credited_is_said_at_its_place(office, invoiced):
    _, form = begin(office, invoiced)
    office.press("Ctrl+Return")
    assert form.reason.error() == "Write the reason: it stands on the credit note."
    assert form.wrong.text() == "Choose at least one line to credit."
    form.table.mark(1)
    office.type_into(form.part, "2")
    office.type_into(form.reason, "wrong")
    office.press("Ctrl+Return")
    assert form.part.error() == "Of this line 1 is left to credit."
    assert office.focus is form.part.edit
    office.type_into(form.part, "-1")
    assert form.part.error() == "Write it without a minus."
    assert form.wanted == {}
    assert notes(invoiced) == ()


def test_the_paper_of_the_note_stands_beside_while_it_is_written(office, invoiced):
    page, form = begin(office, invoiced)
    filed = page.paper.pdf
    office.press("Space")
    assert "The credit note as it would be printed now" in office.sees()
    assert "Correction of invoice 0001" in whole(page.paper.pdf)
    office.press("Esc")
    assert page.credit.place.form is None
    assert page.paper.pdf == filed
    assert form is not None


def test_money_paid_too_much_is_paid_out_with_it(office, invoiced):
    take_payment(invoiced.book, invoiced.who, invoiced.job, Money(11876, "EUR"), Means.CARD)
    _, form = begin(office, invoiced)
    form.table.mark(1)
    office.press("Space")
    assert "Then 4.52\u00a0EUR was paid too much." in office.sees()
    assert form.pay_out.isVisible()
    form.pay_out.set_value(Means.CASH.value)
    office.type_into(form.reason, "the belt was not fitted")
    office.press("Ctrl+Return")
    after = invoice_view(invoiced.book, invoiced.job)
    assert after.open == Money(0, "EUR")
    assert after.payments[-1].amount == Money(-452, "EUR")


def test_what_was_half_chosen_stands_there_when_the_page_is_opened_again(office, invoiced):
    _, form = begin(office, invoiced)
    office.press("Space")
    office.type_into(form.reason, "wrong ti")
    office.window.trail.close_page("invoice", invoiced.job)
    page = office.open("invoice", invoiced.job)
    form = page.credit.place.form
    assert form.wanted == {0: 1_500_000}
    assert form.reason.text() == "wrong ti"
    assert lines(form.table)[0][4] == "1.5"


def test_after_all_was_credited_the_page_is_a_draft_again(office, invoiced):
    page, form = begin(office, invoiced)
    office.push(form.all_button)
    office.type_into(form.reason, "wrong address")
    office.press("Ctrl+Return")
    assert page.title == "Invoice of job 1001"
    assert page.issue.isVisible()
    assert page.lines.table.isVisible()
    assert "All of invoice 0001 was credited: this is the draft of the next one." in office.sees()
    assert not page.credit.begin.isVisible()


def test_an_issued_note_opens_its_paper(office, invoiced):
    page, form = begin(office, invoiced)
    office.press("Space")
    office.type_into(form.reason, "wrong")
    office.press("Ctrl+Return")
    assert office.focus is page.credit.table
    assert "The credit note as it is filed" in office.sees()
    assert "Credit note C-0001" in whole(page.paper.pdf)
    office.press("Return")
    assert [(one.kind, one.title) for one in office.papers] == [("credit note", "Credit note C-0001")]


def test_a_credit_note_bears_another_date_when_one_is_typed_but_none_before_its_invoice(office, invoiced):
    invoiced.shop.clock.advance(days=3)
    _, form = begin(office, invoiced)
    office.press("Space")
    office.type_into(form.reason, "wrong")
    assert "on" not in office.desk.drafts.read(form.key)  # tomorrow another day is proposed
    for typed, why in (
        ("11 Mar", "The invoice was issued on"),
        ("+1", "has not come yet"),
        ("", "Write the date"),
    ):
        office.type_into(form.on, typed)
        office.press("Ctrl+Return")
        assert why in form.on.error()
        assert office.focus is form.on.edit
    assert notes(invoiced) == ()
    office.type_into(form.on, "14 Mar")
    assert office.desk.drafts.read(form.key)["on"]
    office.press("Ctrl+Return")
    assert notes(invoiced)[0].issued_on == date(2026, 3, 14)


def test_an_invoice_at_no_charge_is_taken_back_as_a_whole(office, worked):
    net = draft_invoice(worked.book, worked.job).totals.net.minor
    give_discount(worked.book, worked.who, worked.job, "guarantee", net * MICRO // 100, VatRate(1900))
    issue_invoice(worked.book, worked.who, worked.job)
    _, form = begin(office, worked)
    assert [row[4] for row in lines(form.table)] == ["1.5", "1"]
    assert (
        "This invoice asks for nothing. Taken back as a whole, the job can be invoiced anew." in office.sees()
    )
    office.type_into(form.reason, "not under guarantee")
    office.press("Ctrl+Return")
    assert [(one.number, one.due) for one in notes(worked)] == [("C-0001", Money(0, "EUR"))]
    assert invoice_view(worked.book, worked.job).invoice is None
