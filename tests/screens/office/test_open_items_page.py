"""What is owed, by age, and a reminder by keys alone."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.trade.bench.kinds import Means
from app.trade.money import MICRO, Money
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatRate
from app.work.counter.taking_in import receive_unit
from app.work.office.charges import ChargeEntry, add_charge
from app.work.office.invoices import issue_invoice
from app.work.office.payments import take_payment
from tests.screens.office.conftest import lines
from tests.work.asked import papers_of_job
from tests.work.office.conftest import LARCH


@pytest.fixture
def owed(office, worked):
    issue_invoice(worked.book, worked.who, worked.job)
    take_payment(worked.book, worked.who, worked.job, Money(5000, "EUR"), Means.CARD)
    return worked


def test_an_empty_list_leads_to_the_invoices(office):
    office.open("open_items")
    assert "Nobody owes the shop anything" in office.sees()
    office.press("Return")
    assert office.page.title == "Invoices"


def test_an_invoice_that_is_not_due_stands_by_its_age_and_is_not_reminded_of(office, owed):
    page = office.open("open_items")
    assert lines(page.table)[0] == "Not due yet: 1 invoice, 68.76\u00a0EUR"
    assert lines(page.table)[1][-2:] == ["118.76 EUR", "68.76 EUR"]
    assert page.remind.blocked
    office.push(page.remind)
    assert office.focus is page.table
    assert [line.kind for line in papers_of_job(owed.book, owed.job)] == ["intake ticket", "invoice"]


def test_a_late_one_is_reminded_of_once_a_day_and_enter_opens_it(office, owed):
    office.shop.clock.advance(days=15)
    page = office.open("open_items")
    assert lines(page.table)[0] == "Up to 14 days late: 1 invoice, 68.76\u00a0EUR"
    assert lines(page.table)[1][4].startswith("1 day late since")
    assert "Late: 68.76\u00a0EUR." in page.head.below()
    office.push(page.remind)
    assert office.papers[-1].title == "Reminder 0001"
    assert lines(page.table)[1][5].startswith("once, ")
    assert page.remind.blocked
    for _ in range(2):
        office.shop.clock.advance(days=20)
        page.reload()
        office.settle()
        office.push(page.remind)
    assert lines(page.table)[1][5].startswith("3 times, last ")
    page.table.setFocus()
    office.press("Return")
    assert office.page.title == "Invoice 0001"


def test_the_draft_of_a_reminder_is_looked_at_first(office, owed):
    page = office.open("open_items")
    assert not page.look.isVisibleTo(page)
    office.shop.clock.advance(days=15)
    page.reload()
    office.settle()
    office.push(page.look)
    assert office.papers[-1].title == "Reminder 0001, draft"
    assert office.papers[-1].id is None
    assert [line.kind for line in papers_of_job(owed.book, owed.job)] == ["intake ticket", "invoice"]


def test_who_works_is_asked_first(office, owed):
    office.shop.clock.advance(days=15)
    office.desk.set_staff(None)
    page = office.open("open_items")
    office.push(page.remind)
    assert "Say first who works here now" in office.sees()
    assert office.papers == []


def test_several_are_counted_together(office, owed):
    other = receive_unit(owed.book, owed.who, replace(LARCH, serial="9", promised_on=None)).value.job_id
    fee = ChargeEntry(kind=LineKind.FEE, words="Look inside", price=20 * MICRO, vat=VatRate(1900))
    add_charge(owed.book, owed.who, other, fee)
    issue_invoice(owed.book, owed.who, other)
    page = office.open("open_items")
    assert lines(page.table)[0] == "Not due yet: 2 invoices, 92.56\u00a0EUR"
    assert page.head.below() == "2 invoices open, 92.56\u00a0EUR."
