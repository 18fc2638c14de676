"""Estimates and invoices of before stay one press away on the page of the job's newest."""

from __future__ import annotations

from app.trade.money import MICRO
from app.trade.office.credit_note import everything
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatRate
from app.work.office.credit_notes import issue_credit_note
from app.work.office.estimate_view import estimate_view
from app.work.office.estimates import EstimatedLine, add_line, begin_estimate, issue_estimate
from app.work.office.invoices import issue_invoice
from tests.work.asked import credit_view


def test_an_invoice_that_was_credited_whole_is_one_press_away(office, worked):
    page = office.open("invoice", worked.job)
    assert not page.former.isVisible()
    for number in ("0001", "0002"):
        issued = issue_invoice(worked.book, worked.who, worked.job).value
        left = credit_view(worked.book, issued.id).left
        done = issue_credit_note(worked.book, worked.who, issued.id, everything(left), "wrong address")
        office.desk.announce(done.changes)
        office.settle()
        assert page.former.buttons[-1].words() == number
    office.push(page.former.buttons[0])
    assert office.papers[-1].title == "Invoice 0001"


def test_an_estimate_that_is_with_the_customer_is_one_press_away_while_another_is_written(office, bench):
    for number in (1, 2):
        key = begin_estimate(bench.book, bench.who, bench.job).value
        option = estimate_view(bench.book, bench.job).now.options[0].kept.id
        line = EstimatedLine(
            kind=LineKind.FIXED_CHARGE, words="Cleaning", price=number * MICRO, vat=VatRate(1900)
        )
        add_line(bench.book, bench.who, option, line)
        issue_estimate(bench.book, bench.who, key)
    page = office.open("estimate", bench.job)
    assert [button.words() for button in page.former.buttons] == ["0001"]
    office.push(page.new_button)
    assert [button.words() for button in page.former.buttons] == ["0001", "0002"]
    office.push(page.former.buttons[1])
    assert office.papers[-1].title == "Estimate 0002"
