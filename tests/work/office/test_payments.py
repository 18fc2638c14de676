"""Money taken and given back: a deposit before the invoice, a payment after, never more back than is owed."""

from __future__ import annotations

import pytest

from app.book.tables import Payment
from app.trade.bench.kinds import Means
from app.trade.money import Money
from app.trade.refusal import FieldRefusal
from app.work.office.invoice_view import invoice_view
from app.work.office.invoices import issue_invoice
from app.work.office.payments import give_back, take_payment


def euros(minor):
    return Money(minor, "EUR")


def payments(bench):
    with bench.book.ask() as session:
        return [(row.kind, row.amount, row.means, row.note) for row in session.query(Payment)]


def test_money_before_the_invoice_is_a_deposit(worked):
    take_payment(worked.book, worked.who, worked.job, euros(2000), Means.CASH, note=" at the counter ")
    assert payments(worked) == [("deposit", 2000, Means.CASH, "at the counter")]


def test_money_after_the_invoice_pays_it(worked):
    issue_invoice(worked.book, worked.who, worked.job)
    take_payment(worked.book, worked.who, worked.job, euros(11876), Means.CARD)
    view = invoice_view(worked.book, worked.job)
    assert (view.payments[0].kind, view.open) == ("payment", euros(0))


@pytest.mark.parametrize("minor", [0, -100])
def test_nothing_is_no_payment(worked, minor):
    with pytest.raises(FieldRefusal):
        take_payment(worked.book, worked.who, worked.job, euros(minor), Means.CASH)


def test_nothing_is_given_back_as_nothing(worked):
    take_payment(worked.book, worked.who, worked.job, euros(2000), Means.CASH)
    with pytest.raises(FieldRefusal, match="more than zero"):
        give_back(worked.book, worked.who, worked.job, euros(0), Means.CASH)


def test_what_cannot_be_meant_or_printed_is_told_at_its_field(worked):
    with pytest.raises(FieldRefusal) as refusal:
        take_payment(worked.book, worked.who, worked.job, euros(10**15 + 1), Means.CASH, note="a\x07b")
    assert refusal.value.fields.keys() == {"amount", "note"}
    assert payments(worked) == []


def test_a_trillion_can_be_paid_and_is_kept_to_the_cent(worked):
    take_payment(worked.book, worked.who, worked.job, euros(10**14 + 1), Means.TRANSFER)
    assert payments(worked)[0][1] == 10**14 + 1


def test_another_currency_is_refused(worked):
    for deed in (take_payment, give_back):
        with pytest.raises(FieldRefusal, match="works in"):
            deed(worked.book, worked.who, worked.job, Money(100, "GBP"), Means.CASH)


def test_a_deposit_can_be_given_back_before_the_invoice_but_not_more(worked):
    take_payment(worked.book, worked.who, worked.job, euros(2000), Means.CASH)
    with pytest.raises(FieldRefusal) as refusal:
        give_back(worked.book, worked.who, worked.job, euros(2001), Means.CASH)
    assert refusal.value.fields["amount"].values["most"] == euros(2000)
    give_back(worked.book, worked.who, worked.job, euros(2000), Means.CASH, note="changed her mind")
    assert payments(worked)[-1] == ("refund", -2000, Means.CASH, "changed her mind")


def test_after_the_invoice_only_what_was_paid_too_much_goes_back(worked):
    take_payment(worked.book, worked.who, worked.job, euros(12000), Means.CASH)
    issue_invoice(worked.book, worked.who, worked.job)
    with pytest.raises(FieldRefusal) as refusal:
        give_back(worked.book, worked.who, worked.job, euros(500), Means.CASH)
    assert refusal.value.fields["amount"].values["most"] == euros(124)
    give_back(worked.book, worked.who, worked.job, euros(124), Means.CASH)
    assert invoice_view(worked.book, worked.job).open == euros(0)
    with pytest.raises(FieldRefusal) as refusal:
        give_back(worked.book, worked.who, worked.job, euros(1), Means.CASH)
    assert refusal.value.fields["amount"].values["most"] == euros(0)
