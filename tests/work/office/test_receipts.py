"""The receipt for one payment: how it stood right after it, printed once and found again."""

from __future__ import annotations

from app.book.tables import Paper
from app.trade.bench.kinds import Means
from app.trade.money import MICRO, Money
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatRate
from app.trade.settings import PRICES_WITH_VAT
from app.work.office.charges import ChargeEntry, add_charge
from app.work.office.credit_notes import issue_credit_note
from app.work.office.invoices import issue_invoice
from app.work.office.payments import give_back, take_payment
from app.work.office.receipts import issue_receipt
from app.work.office.settings import change_settings
from app.work.papers.issuing import paper_pdf
from tests.papers.reading import whole
from tests.work.asked import papers_of_job


def pay(bench, minor, means=Means.CASH, note=""):
    return take_payment(bench.book, bench.who, bench.job, Money(minor, "EUR"), means, note=note).value


def receipt(bench, payment):
    paper = issue_receipt(bench.book, bench.shop.mirr, payment).value
    with bench.book.ask() as session:
        return session.get_one(Paper, paper).facts


def test_a_deposit_is_receipted_before_there_is_an_invoice(worked):
    facts = receipt(worked, pay(worked, 2000, note="at the counter"))
    assert (facts["number"], facts["invoice"], facts["open"]) == ("1001-1", "", None)
    assert facts["note"] == "at the counter"


def test_each_receipt_says_how_it_stood_after_its_payment(worked):
    issue_invoice(worked.book, worked.who, worked.job)
    first, second = pay(worked, 5000), pay(worked, 6876, Means.CARD)
    earlier, later = receipt(worked, first), receipt(worked, second)
    assert [facts["number"] for facts in (earlier, later)] == ["1001-1", "1001-2"]
    assert [(facts["open"], facts["paid"]) for facts in (earlier, later)] == [
        ({"money": [6876, "EUR"]}, {"money": [5000, "EUR"]}),
        ({"money": [0, "EUR"]}, {"money": [11876, "EUR"]}),
    ]


def test_money_given_back_has_a_receipt_to_sign(worked):
    issue_invoice(worked.book, worked.who, worked.job)
    pay(worked, 12000)
    back = give_back(worked.book, worked.who, worked.job, Money(124, "EUR"), Means.CASH).value
    paper = issue_receipt(worked.book, worked.who, back).value
    file = paper_pdf(worked.book, paper)
    assert file.title == "Receipt for money given back 1001-2"  # as on the paper, so in the list
    text = whole(file.pdf)
    for words in ("Receipt for money given back 1001-2", "1.24", "signature of the person who received it"):
        assert words in text


def test_the_same_payment_has_one_receipt(worked):
    payment = pay(worked, 2000)
    first = issue_receipt(worked.book, worked.who, payment)
    again = issue_receipt(worked.book, worked.who, payment)
    assert first.value == again.value
    assert again.changes.kinds == frozenset()
    kinds = [line.kind for line in papers_of_job(worked.book, worked.job)]
    assert kinds == ["intake ticket", "payment receipt"]


def test_a_credit_note_that_came_later_does_not_alter_an_earlier_receipt(worked):
    invoice = issue_invoice(worked.book, worked.who, worked.job).value.id
    payment = pay(worked, 5000)
    worked.shop.clock.advance(days=1)
    issue_credit_note(worked.book, worked.who, invoice, {1: MICRO}, "the belt was not needed")
    assert receipt(worked, payment)["open"] == {"money": [6876, "EUR"]}


def test_what_prices_with_vat_cannot_restore_is_no_riddle_on_the_receipt(bench):
    """45.00 with 19 % VAT is 37.82 net, and 37.82 net is 45.01 with VAT: 45.00 was asked for and paid."""
    change_settings(bench.book, bench.who, {PRICES_WITH_VAT: True})
    fee = ChargeEntry(kind=LineKind.FEE, words="Look inside", price=45 * MICRO, vat=VatRate(1900))
    add_charge(bench.book, bench.who, bench.job, fee)
    issue_invoice(bench.book, bench.who, bench.job)
    facts = receipt(bench, pay(bench, 4500))
    assert facts["total"] == facts["paid"] == {"money": [4500, "EUR"]}
    assert facts["open"] == {"money": [0, "EUR"]}
