"""The invoice page by keys alone: lines, live sums, what holds it, issue, the paper, payments."""

from __future__ import annotations

from decimal import Decimal

import pytest
from PySide6.QtWidgets import QApplication

from app.book import tables as t
from app.screens.kit.buttons import Button
from app.trade.bench.kinds import Means
from app.trade.bench.stages import Outcome, Stage
from app.trade.money import MICRO, Money
from app.trade.office.invoice import LineKind
from app.trade.sentence import Sentence
from app.trade.settings import HOURLY_RATE, PRICES_WITH_VAT
from app.work.bench.work_done import record_labour
from app.work.counter.requests import note_unsafe_request
from app.work.office.invoice_view import invoice_view
from app.work.office.invoices import draft_invoice, issue_invoice
from app.work.office.payments import take_payment
from app.work.office.settings import change_settings
from app.work.papers.issuing import paper_pdf
from tests.screens.office.conftest import lines
from tests.work.office.test_invoices import decide


def link(page, words):
    """A quiet button in sight, by its words."""
    return next(b for b in page.findChildren(Button) if b.words() == words and b.isVisible())


def sums(page):
    """The sums in sight: words and amounts."""
    return {line.words: line.amount.minor for line in page.lines.sums.lines}


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
    assert lines(page.lines.table)[-1] == ["Diagnosis", "1", "job", "40.00", "19 %", "40.00"]
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
    assert lines(page.lines.table)[-1][1:] == ["2", "job", "12.50", "19 %", "25.00"]


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
    assert page.issue.blocked


def test_a_player_that_goes_back_unsafe_is_invoiced_for_fees(office, worked):
    decide(worked)
    page = office.open("invoice", worked.job)
    assert "The player goes back unrepaired and unsafe" in office.sees()
    assert lines(page.lines.table) == []


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

        def full(book, who, job_id):
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
        page._open_paper,
        page._show_copy,
        page._open_draft,
        page.lines.strike,
        page.lines.discount,
        lambda: page.money.open(back=False),
    ):
        call()
    office.settle()
    assert page.lines.place.form is None
    assert QApplication.focusWidget() is page.issue
