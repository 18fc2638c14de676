"""Payments by keys alone: taken, in part, given back."""

from __future__ import annotations

import pytest

from app.trade.bench.kinds import Means
from app.trade.money import Money
from app.work.office.invoices import issue_invoice
from app.work.office.payments import take_payment
from tests.screens.office.conftest import lines, sums


def test_the_payment_is_proposed_as_what_is_open(office, worked):
    issue_invoice(worked.book, worked.who, worked.job)
    page = office.open("invoice", worked.job)
    office.push(page.money.take)
    form = page.money.place.form
    assert form.amount.text() == "118.76"
    assert office.desk.drafts.forms() == ()  # what is only proposed is no draft
    office.press("Ctrl+Return")
    assert lines(page.money.table) == [
        ["12\u00a0Mar\u00a02026,\u00a010:30", "payment cash", "", "Ine Varloes", "118.76"]
    ]
    assert sums(page)["Still to pay"] == 0
    assert office.focus is page.money.take


def test_the_newest_payment_is_marked_on_arrival_and_after_each_so_its_receipt_is_one_press(office, worked):
    take_payment(worked.book, worked.who, worked.job, Money(1000, "EUR"), Means.CASH)
    take_payment(worked.book, worked.who, worked.job, Money(2000, "EUR"), Means.CARD)
    page = office.open("invoice", worked.job)
    first, second = (line.id for line in page.view.payments)
    assert page.money.table.marked_key() == second
    page.money.table.mark(first)
    page.reload()
    office.settle()
    assert page.money.table.marked_key() == first  # what somebody marked stays so until money comes
    office.press("Ctrl+K")
    office.press("Ctrl+Return")
    assert page.money.table.marked_key() == page.view.payments[-1].id != second
    office.push(page.money.receipt)
    assert office.papers[-1].title == "Receipt for payment 1001-3"


def test_part_of_it_is_paid_by_card_with_a_note(office, worked):
    issue_invoice(worked.book, worked.who, worked.job)
    page = office.open("invoice", worked.job)
    office.push(page.money.take)
    form = page.money.place.form
    office.type_into(form.amount, "50")
    form.means.set_value("card")
    office.type_into(form.note, "the rest on Friday")
    office.press("Ctrl+Return")
    assert lines(page.money.table)[0][1:3] == ["payment card", "the rest on Friday"]
    assert sums(page)["Still to pay"] == 6876


@pytest.mark.parametrize(("typed", "said"), [("", "Write the amount."), ("x", "write the number alone")])
def test_no_amount_is_no_payment(office, worked, typed, said):
    page = office.open("invoice", worked.job)
    office.push(page.money.take)
    office.type_into(page.money.place.form.amount, typed)
    office.press("Ctrl+Return")
    assert said in page.money.place.form.amount.error()
    assert page.money.table.isHidden()


def test_money_paid_too_much_is_given_back_and_not_more(office, worked):
    take_payment(worked.book, worked.who, worked.job, Money(12000, "EUR"), Means.CASH)
    issue_invoice(worked.book, worked.who, worked.job)
    page = office.open("invoice", worked.job)
    assert sums(page)["To give back"] == 124
    office.push(page.money.give)
    form = page.money.place.form
    assert form.amount.text() == "1.24"
    office.type_into(form.amount, "2")
    office.press("Ctrl+Return")
    assert form.amount.error() == "At most 1.24\u00a0EUR was paid too much."
    office.type_into(form.amount, "1.24")
    office.press("Ctrl+Return")
    assert lines(page.money.table)[-1][1] == "given back cash"
    assert not page.money.give.isVisible()


def test_a_deposit_before_the_invoice_can_be_given_back(office, worked):
    take_payment(worked.book, worked.who, worked.job, Money(2000, "EUR"), Means.CASH)
    page = office.open("invoice", worked.job)
    assert sums(page)["Paid before"] == -2000
    office.push(page.money.give)
    assert page.money.place.form.amount.text() == "20.00"


def test_a_receipt_is_printed_for_the_marked_payment_or_the_last(office, worked):
    take_payment(worked.book, worked.who, worked.job, Money(2000, "EUR"), Means.CASH)
    page = office.open("invoice", worked.job)
    assert page.money.receipt.words() == "Receipt"
    office.push(page.money.receipt)
    assert office.papers[-1].title == "Receipt for payment 1001-1"
    take_payment(worked.book, worked.who, worked.job, Money(1000, "EUR"), Means.CARD)
    page = office.open("invoice", worked.job)
    page.reload()
    office.settle()
    page.money.table.mark(page.view.payments[0].id)
    office.push(page.money.receipt)
    assert office.papers[-1].title == "Receipt for payment 1001-1"
    page.money.table.mark(page.view.payments[1].id)
    office.push(page.money.receipt)
    assert office.papers[-1].title == "Receipt for payment 1001-2"


def test_what_is_left_or_too_much_is_said_while_it_is_typed(office, worked):
    issue_invoice(worked.book, worked.who, worked.job)
    page = office.open("invoice", worked.job)
    office.push(page.money.take)
    form = page.money.place.form
    assert form.beyond.isHidden()
    office.type_into(form.amount, "50")
    assert form.beyond.text() == "Then 68.76\u00a0EUR is still open."
    office.type_into(form.amount, "1000")
    assert form.beyond.text() == "881.24\u00a0EUR more than is open: it can be given back."
    office.type_into(form.amount, "118.76")
    assert form.beyond.isHidden()
