"""The journal from the book: invoices by rate, credit notes against them, money as it was taken."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from app.trade.bench.kinds import Means
from app.trade.calendar.period import Period
from app.trade.money import MICRO, Money
from app.trade.office.credit_note import everything
from app.trade.office.invoice import LineKind
from app.trade.office.journal import EntryKind, sums_of
from app.trade.office.vat import VatRate
from app.trade.settings import ROUND_DUE_TO
from app.work.office.charges import ChargeEntry, add_charge
from app.work.office.credit_notes import issue_credit_note
from app.work.office.invoices import issue_invoice
from app.work.office.journal import journal
from app.work.office.payments import take_payment
from app.work.office.settings import change_settings
from tests.work.asked import credit_view

MARCH = Period(date(2026, 3, 1), date(2026, 3, 31))


@pytest.fixture
def invoiced(worked):
    """A deposit of 20.00, then labour 1.5 h at 64.00 and a belt at 3.80 with 19 %, packing 5.00 with 7 %."""
    take_payment(worked.book, worked.who, worked.job, Money(2000, "EUR"), Means.CASH, note="=1+1")
    entry = ChargeEntry(kind=LineKind.FIXED_CHARGE, words="Packing", price=5 * MICRO, vat=VatRate(700))
    add_charge(worked.book, worked.who, worked.job, entry)
    worked.shop.clock.advance(hours=1)
    worked.invoice = issue_invoice(worked.book, worked.who, worked.job).value.id
    worked.shop.clock.advance(hours=1)
    return worked


def rows(bench, period=MARCH):
    return [
        (e.kind.value, e.number, e.refers_to, e.vat_rate, e.net, e.vat, e.gross, e.paid)
        for e in journal(bench.book, period)
    ]


def eur(minor):
    return Money(minor, "EUR")


def test_an_invoice_has_a_row_for_each_rate_and_a_deposit_stands_before_it(invoiced):
    # 99.80 at 19 % is 18.962, 5.00 at 7 % is 0.35: by hand.
    assert rows(invoiced) == [
        ("deposit", "", "", None, None, None, None, eur(2000)),
        ("invoice", "0001", "", 1900, eur(9980), eur(1896), eur(11876), None),
        ("invoice", "0001", "", 700, eur(500), eur(35), eur(535), None),
    ]
    deposit = journal(invoiced.book, MARCH)[0]
    assert (deposit.means, deposit.text, deposit.job, deposit.customer) == (
        "cash",
        "=1+1",
        1001,
        "Benedikt Arnsvik",
    )


def test_a_credit_note_is_below_zero_and_names_its_invoice(invoiced):
    wanted = everything(credit_view(invoiced.book, invoiced.invoice).left)
    issue_credit_note(
        invoiced.book, invoiced.who, invoiced.invoice, wanted, "written twice", pay_out=Means.CASH
    )
    found = journal(invoiced.book, MARCH)
    notes = [e for e in found if e.kind is EntryKind.CREDIT_NOTE]
    assert [(e.refers_to, e.vat_rate, e.net, e.vat, e.text) for e in notes] == [
        ("0001", 1900, eur(-9980), eur(-1896), "written twice"),
        ("0001", 700, eur(-500), eur(-35), "written twice"),
    ]
    refund = found[-1]
    assert (refund.kind, refund.refers_to, refund.paid) == (EntryKind.REFUND, "0001", eur(-2000))
    sums = sums_of(found, "EUR")
    assert (sums.turnover, sums.vat, sums.paid) == (eur(0), eur(0), eur(0))


def test_what_the_amount_to_pay_was_rounded_by_has_its_own_row(worked):
    change_settings(worked.book, worked.who, {ROUND_DUE_TO: 5})
    issue_invoice(worked.book, worked.who, worked.job)
    # 99.80 and 18.96 are 118.76; rounded to five hundredths 118.75.
    assert [(e.kind, e.gross) for e in journal(worked.book, MARCH)] == [
        (EntryKind.INVOICE, eur(11876)),
        (EntryKind.ROUNDING, eur(-1)),
    ]


def test_only_the_days_of_the_period_by_the_shops_own_midnight(invoiced):
    assert rows(invoiced, Period(date(2026, 2, 1), date(2026, 2, 28))) == []
    assert rows(invoiced, Period(date(2026, 3, 13), date(2026, 3, 31))) == []
    invoiced.shop.clock.advance(hours=13)  # 00:30 of the next day in the shop, still the 12th in UTC
    take_payment(invoiced.book, invoiced.who, invoiced.job, eur(500), Means.TRANSFER)
    (paid,) = journal(invoiced.book, Period(date(2026, 3, 13), date(2026, 3, 13)))
    assert (paid.day, paid.kind, paid.refers_to, paid.means) == (
        date(2026, 3, 13),
        EntryKind.PAYMENT,
        "0001",
        "transfer",
    )


def test_the_reason_for_no_vat_is_told(worked):
    from app.trade.office.vat import VatCategory

    free = VatRate(0, VatCategory.EXEMPT, "health service")
    entry = ChargeEntry(kind=LineKind.FIXED_CHARGE, words="Report", price=5 * MICRO, vat=free)
    add_charge(worked.book, worked.who, worked.job, entry)
    issue_invoice(worked.book, worked.who, worked.job)
    (last,) = [e for e in journal(worked.book, MARCH) if e.vat_rate == 0]
    assert (last.category, last.text, last.gross.amount) == (
        VatCategory.EXEMPT,
        "health service",
        Decimal("5.00"),
    )
