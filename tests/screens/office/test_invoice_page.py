"""The invoice page by keys alone: what stands there, what holds it, issue, the paper, drafts."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from PySide6.QtWidgets import QApplication

from app.trade.money import MICRO
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatRate
from app.trade.sentence import Sentence
from app.trade.settings import HOURLY_RATE
from app.work.bench.work_done import record_labour
from app.work.counter.requests import note_unsafe_request
from app.work.counter.taking_in import receive_unit
from app.work.office.charges import ChargeEntry, add_charge
from app.work.office.invoice_view import invoice_view
from app.work.office.invoices import issue_invoice
from app.work.office.settings import change_settings
from app.work.papers.issuing import paper_pdf
from tests.screens.office.conftest import lines, link, sums
from tests.work.office.conftest import LARCH
from tests.work.office.test_invoices import decide

FULL = VatRate(1900)


def test_everything_on_the_job_stands_there_without_typing_again(office, worked):
    page = office.open("invoice", worked.job)
    assert lines(page.lines.table) == [
        ["Arm bearing cleaned", "1.5", "h", "64.00", "19 %", "96.00"],
        ["Loading belt 22 mm", "1", "piece", "3.80", "19 %", "3.80"],
    ]
    assert sums(page) == {"Without VAT": 9980, "VAT 19\u00a0%": 1896, "Total": 11876, "To pay": 11876}
    assert "Benedikt Arnsvik, Quellmar Larch 2, 0420 158" in office.sees()
    assert page.lines.sums.accessibleDescription().endswith("To pay 118.76\u00a0EUR")


def test_the_draft_is_drawn_beside_it_and_anew_after_a_change(office, worked):
    page = office.open("invoice", worked.job)
    assert page.paper.pdf.startswith(b"%PDF-")
    assert "As it would be printed now" in office.sees()
    before = page.paper.pdf
    office.desk.announce(record_labour(worked.book, worked.who, worked.job, "Set", Decimal(1)).changes)
    office.settle()
    assert page.paper.pdf != before
    assert len(lines(page.lines.table)) == 3


def test_issuing_says_what_is_frozen_and_asks_for_the_verb(office, worked):
    page = office.open("invoice", worked.job)
    assert office.focus is page.issue
    office.press("Return")
    assert "Issue this invoice: 2 lines, 118.76\u00a0EUR, dated 12\u00a0Mar\u00a02026?" in office.sees()
    assert "never changed" in office.sees()
    assert not page.issue.isVisible()  # one main button at a time
    assert invoice_view(worked.book, worked.job).invoice is None
    office.press("Esc")
    assert not page.strip.isVisible()
    assert office.focus is page.issue


def test_after_issue_the_very_paper_that_is_filed_is_shown(office, worked):
    page = office.open("invoice", worked.job)
    office.press("Return")
    office.press("Return")
    view = invoice_view(worked.book, worked.job)
    assert view.invoice is not None
    assert page.title == "Invoice 0001"
    assert page.paper.pdf == paper_pdf(worked.book, view.invoice.paper_id).pdf
    assert "As it is filed" in office.sees()
    assert "Issued 12\u00a0Mar\u00a02026 by Ine Varloes. Job 1001." in office.sees()
    assert office.focus is page.print_button
    assert not page.lines.table.isVisible()
    assert sums(page) == {"Total with VAT": 11876, "Still to pay": 11876}


def test_ctrl_p_opens_the_filed_paper_and_a_copy_is_stamped(office, worked):
    issue_invoice(worked.book, worked.who, worked.job)
    page = office.open("invoice", worked.job)
    office.press("Ctrl+P")
    office.push(page.copy_button)
    filed, copy = office.papers
    assert (filed.title, filed.name, filed.kind) == ("Invoice 0001", "Invoice 0001.pdf", "invoice")
    assert filed.pdf == page.paper.pdf
    assert copy.pdf != filed.pdf
    assert copy.pdf.startswith(b"%PDF-")


def test_another_date_is_typed_in_the_strip_and_stands_on_the_paper(office, worked):
    page = office.open("invoice", worked.job)
    office.push(page.issue)
    today = page.paper.pdf
    office.type_into(page.strip.day, "11 Mar")
    assert "11 Mar" in office.sees()
    office.press("Return")
    assert "The player was taken in on 12\u00a0Mar\u00a02026" in page.strip.day.error()
    assert office.focus is page.strip.issue
    office.press("Return")
    assert office.focus is page.strip.day.edit
    office.type_into(page.strip.day, "soon")
    office.push(page.strip.issue)
    assert page.strip.day.error()
    assert office.focus is page.strip.day.edit
    assert invoice_view(worked.book, worked.job).invoice is None
    assert page.paper.pdf == today  # no date that cannot be is drawn
    worked.shop.clock.advance(days=3)
    office.press("Esc")
    page.reload()
    office.settle()
    office.push(page.issue)
    assert page.strip.day.day() == date(2026, 3, 15)
    office.type_into(page.strip.day, "14 Mar")
    assert page.paper.pdf != today
    office.press("Ctrl+Return")
    issued = invoice_view(worked.book, worked.job).invoice
    assert issued is not None
    assert issued.issued_on == date(2026, 3, 14)


def test_a_number_that_was_taken_in_between_is_told_at_the_date(office, worked, bench):
    page = office.open("invoice", worked.job)
    office.push(page.issue)
    other = receive_unit(bench.book, bench.who, replace(LARCH, serial="77 301")).value.job_id
    add_charge(
        bench.book,
        bench.who,
        other,
        ChargeEntry(kind=LineKind.FIXED_CHARGE, words="Fee", price=MICRO, vat=FULL),
    )
    worked.shop.clock.advance(days=1)
    issue_invoice(bench.book, bench.who, other)
    office.press("Return")
    assert "The number before this one was issued on 13\u00a0Mar\u00a02026" in page.strip.day.error()
    assert page.strip.is_open
    assert invoice_view(worked.book, worked.job).invoice is None


def test_a_stop_holds_the_button_and_says_which(office, worked):
    note_unsafe_request(worked.book, worked.who, worked.job, "bridge the fuse")
    page = office.open("invoice", worked.job)
    assert page.issue.words() == "Issue the invoice: held"
    assert "bridge the fuse" in office.sees()
    office.push(page.issue)
    assert invoice_view(worked.book, worked.job).invoice is None
    assert office.focus.text() == "Open the job"
    office.press("Return")
    assert (type(office.page).__name__, office.page.key) == ("Blank", worked.job)


def test_a_stop_that_came_in_between_is_told_when_it_is_issued(office, worked):
    page = office.open("invoice", worked.job)
    office.press("Return")
    note_unsafe_request(worked.book, worked.who, worked.job, "bridge the fuse")
    office.press("Return")
    assert page.trouble.words.startswith("This job cannot be invoiced yet.")
    assert page.issue.blocked
    assert not page.strip.isVisible()


def test_lines_that_cannot_stand_are_named(office, worked):
    page = office.open("invoice", worked.job)
    office.push(link(page, "Give a discount"))
    office.type("1000")
    office.type_into(page.lines.place.form.reason, "goodwill")
    office.press("Ctrl+Return")
    assert page.issue.words() == "Issue the invoice: put the lines right first"
    assert "goodwill: The discount is larger than what the invoice charges" in office.sees()
    page.flags.acted.emit(("cannot", "discounts.0.amount"))
    assert office.focus is page.lines.table


def test_an_hour_without_a_price_leads_to_the_settings(office, bench):
    change_settings(bench.book, bench.who, {HOURLY_RATE: 0})
    record_labour(bench.book, bench.who, bench.job, "Cleaned", Decimal(1))
    page = office.open("invoice", bench.job)
    assert "Working time costs nothing yet" in office.sees()
    page.flags.acted.emit(("settings", "money"))
    office.settle()
    assert office.page.title == "Settings: Money"
    change_settings(bench.book, bench.who, {HOURLY_RATE: 64 * MICRO})


def test_an_empty_job_says_where_lines_come_from(office, bench):
    page = office.open("invoice", bench.job)
    assert "working time and parts come from the bench" in office.sees()
    assert "An invoice needs at least one line that charges something." in office.sees()
    assert page.issue.words() == "Issue the invoice: nothing to charge yet"


def test_a_player_that_goes_back_unsafe_is_invoiced_for_fees(office, worked):
    decide(worked)
    page = office.open("invoice", worked.job)
    assert "The player goes back unrepaired and unsafe" in office.sees()
    assert lines(page.lines.table) == []


def test_what_was_half_typed_stands_there_when_the_page_is_opened_again(office, worked):
    page = office.open("invoice", worked.job)
    office.push(link(page, "Add a fee"))
    office.type("Diagn")
    office.window.trail.close_page("invoice", worked.job)
    page = office.open("invoice", worked.job)
    assert page.lines.place.form.what.text() == "Diagn"
    office.press("Esc")
    assert page.lines.place.form is None
    office.press("Esc")
    assert office.page is not page


@pytest.mark.parametrize("kind", ["discount", "payment", "refund"])
def test_a_half_typed_discount_or_payment_stands_there_too(office, worked, kind):
    office.desk.drafts.keep(f"{kind} {worked.job}", {"amount": "7"})
    page = office.open("invoice", worked.job)
    place = page.lines.place if kind == "discount" else page.money.place
    assert place.form.amount.text() == "7"


def test_nobody_at_work_issues_nothing(office, worked):
    page = office.open("invoice", worked.job)
    office.desk.set_staff(None)
    office.press("Return")
    office.press("Return")
    assert "Ctrl+U" in page.trouble.words
    assert invoice_view(worked.book, worked.job).invoice is None


def test_trouble_while_issuing_can_be_tried_again(office, worked, monkeypatch):
    from app.screens.office import invoice_page
    from app.trade.refusal import Refusal

    page = office.open("invoice", worked.job)
    office.press("Return")
    with monkeypatch.context() as patch:

        def full(book, who, job_id, on):
            raise Refusal(Sentence("The disk is full."), Sentence("Free some space."))

        patch.setattr(invoice_page, "issue_invoice", full)
        office.press("Return")
    assert page.trouble.words.startswith("The disk is full. Free some space.")
    office.press("Return")  # the first action has the focus: try again
    assert invoice_view(worked.book, worked.job).invoice is not None


def test_on_a_narrow_page_the_draft_is_one_press_away(office, worked):
    office.window.resize(1024, 700)
    page = office.open("invoice", worked.job)
    assert not page.paper.isVisible()
    office.push(page.draft_button)
    assert office.papers[0].title == "Draft of the invoice of job 1001"
    assert office.papers[0].pdf.startswith(b"%PDF-")


def test_a_paper_that_cannot_be_shown_says_why(office, worked, monkeypatch):
    from app.screens.office import invoice_page
    from app.trade.refusal import Refusal

    def broken(book, job_id):
        raise Refusal(Sentence("A file that belongs to the book is damaged."))

    with monkeypatch.context() as patch:
        patch.setattr(invoice_page, "preview_invoice", broken)
        page = office.open("invoice", worked.job)
    assert "The paper cannot be shown: A file that belongs to the book is damaged." in office.sees(page.paper)


def test_a_change_of_another_job_asks_for_nothing(office, worked):
    from app.work.shop_book import Changes

    page = office.open("invoice", worked.job)
    asked = page._asked
    page.reload(Changes(jobs=frozenset({999}), kinds=frozenset({"jobs"})))
    assert page._asked is asked


def test_the_page_without_an_answer_yet_does_nothing(office, worked):
    office.window.open("invoice", worked.job)
    page = office.page
    for call in (
        page._ask_to_issue,
        page.open_paper,
        page.show_copy,
        page.open_draft,
        page.save_form,
        page.lines.strike,
        page.lines.discount,
        lambda: page.money.open(back=False),
    ):
        call()
    office.settle()
    assert page.lines.place.form is None
    assert QApplication.focusWidget() is page.issue
