"""All invoices, the newest first, and those that are open."""

from __future__ import annotations

from app.trade.bench.kinds import Means
from app.trade.money import Money
from app.trade.settings import PAY_WITHIN
from app.work.office.invoices import issue_invoice
from app.work.office.payments import take_payment
from app.work.office.settings import shop_settings
from tests.screens.office.conftest import lines


def test_an_empty_list_leads_to_the_jobs_to_invoice(office):
    office.open("invoices")
    assert "Invoices stand here once they are issued" in office.sees()
    office.press("Return")
    assert office.page.title == "Office"


def test_an_invoice_is_to_be_paid_then_late_then_paid(office, worked):
    issue_invoice(worked.book, worked.who, worked.job)
    page = office.open("invoices")
    (row,) = lines(page.table)
    assert row[:2] == ["0001", "12\u00a0Mar\u00a02026"]
    assert row[4:6] == ["118.76 EUR", "118.76 EUR"]
    assert row[6].startswith("to pay by ")
    assert "1 open, 118.76\u00a0EUR." in office.sees()
    office.shop.clock.advance(days=40)
    page.reload()
    office.settle()
    assert "days late since" in lines(page.table)[0][6]
    take_payment(worked.book, worked.who, worked.job, Money(11876, "EUR"), Means.CARD)
    page.reload()
    office.settle()
    assert lines(page.table)[0][5:] == ["", "paid"]
    assert "open" not in office.sees(page.head)
    office.press("Return")
    assert office.page.title == "Invoice 0001"


def test_only_open_ones(office, worked):
    take_payment(worked.book, worked.who, worked.job, Money(12000, "EUR"), Means.CASH)
    issue_invoice(worked.book, worked.who, worked.job)
    page = office.open("invoices", "open")
    assert page.which.value() == "open"
    assert lines(page.table)[0][6] == "paid too much"  # what is to be given back is open as well
    page.which.setFocus()
    office.press("Left")
    assert lines(page.table)[0][6] == "paid too much"


def test_one_day_late(office, worked):
    issue_invoice(worked.book, worked.who, worked.job)
    page = office.open("invoices")
    office.shop.clock.advance(days=shop_settings(worked.book)[PAY_WITHIN] + 1)
    page.reload()
    office.settle()
    assert lines(page.table)[0][6].startswith("1 day late since ")
