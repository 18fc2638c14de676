"""What the pages of estimate and invoice share: every deed by the menu of money, forms saved and left by keys."""

from __future__ import annotations

import pytest

from app.screens.actions import ACTS
from app.trade.bench.kinds import Means
from app.trade.money import Money
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.work.office.estimate_view import estimate_view
from app.work.office.estimates import begin_estimate
from app.work.office.invoice_view import invoice_view
from app.work.office.invoices import issue_invoice
from app.work.office.payments import take_payment

MONEY = {act.id for act in ACTS if act.menu == "money"}


def run(office, act):
    """Choose an action of the menu of money."""
    office.window.menus.refresh()
    action = office.window.menus.actions[act]
    assert action.isEnabled(), act
    action.trigger()
    office.settle()


def served(office) -> set[str]:
    return MONEY & set(office.page.commands())


def test_every_deed_on_a_draft_is_in_the_menu(office, worked):
    page = office.open("invoice", worked.job)
    assert served(office) == {
        "issue",
        "take_payment",
        "add_fee",
        "add_text",
        "discount",
        "line_discount",
        "surcharge",
        "no_vat",
    }
    for act in ("add_fee", "add_text", "discount", "line_discount", "surcharge", "no_vat"):
        run(office, act)
        assert page.lines.place.form is not None, act
        office.press("Esc")
        assert page.lines.place.form is None, act
    office.press("Ctrl+K")
    assert page.money.place.form is not None
    office.press("Esc")
    office.press("Ctrl+Shift+I")
    assert page.strip.is_open


def test_every_deed_on_an_issued_invoice_is_in_the_menu(office, worked):
    issue_invoice(worked.book, worked.who, worked.job)
    page = office.open("invoice", worked.job)
    assert served(office) == {"take_payment", "credit_note"}
    run(office, "credit_note")
    assert page.credit.place.form is not None
    take_payment(worked.book, worked.who, worked.job, Money(15_000, "EUR"), Means.CASH)
    page.reload()
    office.settle()
    assert served(office) == {"take_payment", "give_back", "payment_receipt", "credit_note"}
    run(office, "payment_receipt")
    assert office.papers[-1].title == "Receipt for payment 1001-1"
    run(office, "give_back")
    assert page.money.place.form is not None
    page.money.place.form.means.setFocus()
    office.press("Ctrl+Return")  # of the two forms that stand open, that with the focus
    assert invoice_view(worked.book, worked.job).open == Money(0, "EUR")
    assert page.credit.place.form is not None


def test_every_deed_on_an_estimate_is_in_the_menu(office, worked):
    page = office.open("estimate", worked.job)
    assert served(office) == {"begin_estimate"}
    run(office, "begin_estimate")
    assert served(office) == {"issue", "add_text", "add_option", "give_up"}
    run(office, "add_text")
    assert page.options.place.form is not None
    run(office, "add_option")
    office.press("Esc")
    run(office, "issue")  # something is missing: it leads there
    assert office.focus is page.options.time_link
    run(office, "give_up")
    assert estimate_view(worked.book, worked.job).now is None


@pytest.mark.parametrize(("kind", "act"), [("open_items", "remind"), ("uncollected", "notice")])
def test_a_reminder_and_a_notice_are_printed_by_the_menu(office, worked, kind, act):
    from app.screens.counter.pages import register

    if kind == "uncollected":
        register(office.window)
    office.open(kind)
    assert served(office) == {act}
    run(office, act)
    assert office.papers == []  # nothing is marked, nothing is printed


def test_ctrl_enter_saves_the_form_that_stands_open_wherever_the_focus_is(office, worked):
    begin_estimate(worked.book, worked.who, worked.job)
    page = office.open("estimate", worked.job)
    run(office, "add_text")
    office.type("With the maker's belt.")
    page.options.head_link.setFocus()
    office.press("Ctrl+Return")
    assert page.options.place.form is None
    office.press("Ctrl+Return")  # nothing stands open: nothing is done
    (option,) = estimate_view(worked.book, worked.job).now.options
    assert [line.line.words for line in option.kept.lines] == ["With the maker's belt."]


def test_a_deed_that_failed_can_be_done_again(office, worked, monkeypatch):
    from app.screens.office import estimate_page

    page = office.open("estimate", worked.job)
    with monkeypatch.context() as patch:

        def full(*_):
            raise Refusal(Sentence("The disk is full."))

        patch.setattr(estimate_page, "begin_estimate", full)
        run(office, "begin_estimate")
    assert page.trouble.words.startswith("The disk is full.")
    office.press("Return")
    assert estimate_view(worked.book, worked.job).now is not None
    assert page.trouble.words == ""


def test_nobody_at_work_does_nothing(office, worked):
    page = office.open("estimate", worked.job)
    office.desk.set_staff(None)
    run(office, "begin_estimate")
    assert "Ctrl+U" in page.trouble.words
    assert estimate_view(worked.book, worked.job).now is None
