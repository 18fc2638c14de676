"""An invoice from before e-invoices were kept is saved as one all the same, by what was frozen with it."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from dataclasses import replace

import pytest

from app.book.triggers import sqlite_triggers
from app.papers.e_invoice_xml import e_invoice_xml
from app.trade.bench.kinds import Means
from app.trade.money import MICRO, Money
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatRate
from app.trade.refusal import Refusal
from app.trade.settings import ADDRESS_LINES, CITY, COUNTRY, IBAN, POSTCODE, SHOP_NAME, VAT_ID
from app.work.office.charges import ChargeEntry, add_charge, give_discount
from app.work.office.credit_notes import issue_credit_note
from app.work.office.e_invoices import e_invoice_of, e_invoice_pdf
from app.work.office.invoices import issue_invoice
from app.work.office.payments import take_payment
from app.work.office.settings import change_settings
from app.work.people.customers import customer_card, edit_customer
from tests.papers.schematron import rules_broken

SHOP = {
    SHOP_NAME: "Lanternfield Workshop",
    ADDRESS_LINES: ("3 Mossgate Quay",),
    POSTCODE: "43117",
    CITY: "Mossgate",
    COUNTRY: "DE",
    VAT_ID: "DE123456789",
    IBAN: "DE89 3704 0044 0532 0130 00",
}


def by_hand(bench, *statements):
    """Change what triggers keep, as the programs of before left it."""
    triggers = dict(sqlite_triggers())
    kept = ("tr_papers_frozen", "tr_invoices_stand")
    with closing(sqlite3.connect(bench.book.path)) as hand, hand:
        for name in kept:
            hand.execute(f"DROP TRIGGER {name}")
        for statement, values in statements:
            hand.execute(statement, values)
        for name in kept:
            hand.execute(triggers[name])


def made_old(bench, paper_id):
    """The paper as it was filed before its facts held those of an e-invoice."""
    with closing(sqlite3.connect(bench.book.path)) as hand:
        facts = json.loads(hand.execute("SELECT facts FROM papers WHERE id = ?", (paper_id,)).fetchone()[0])
    del facts["e_invoice"]
    by_hand(bench, ("UPDATE papers SET facts = ? WHERE id = ?", (json.dumps(facts), paper_id)))


@pytest.fixture
def old(worked):
    """Two rates, a line of text, a discount and a deposit; before and after its e-invoice was forgotten."""
    change_settings(worked.book, worked.who, SHOP)
    take_payment(worked.book, worked.who, worked.job, Money(2000, "EUR"), Means.CASH)
    give_discount(worked.book, worked.who, worked.job, "regular customer", 10 * MICRO, VatRate(1900))
    for kind, words, price, vat in (
        (LineKind.FIXED_CHARGE, "Care booklet", 5 * MICRO, VatRate(700)),
        (LineKind.TEXT, "Packed by us.", 0, VatRate(1900)),
    ):
        entry = ChargeEntry(kind=kind, words=words, price=price, vat=vat)
        add_charge(worked.book, worked.who, worked.job, entry)
    worked.invoice = issue_invoice(worked.book, worked.who, worked.job).value
    worked.before = e_invoice_of(worked.book, worked.invoice.paper_id)
    made_old(worked, worked.invoice.paper_id)
    return worked


def test_it_says_what_it_would_have_said_at_its_issue(old):
    assert e_invoice_of(old.book, old.invoice.paper_id) == old.before
    assert e_invoice_pdf(old.book, old.invoice.paper_id).pdf.startswith(b"%PDF-")


def test_shop_and_customer_stay_where_they_were_when_it_was_issued(old):
    """Outside check: the schematron finds nothing where town and street stand in the lines as printed."""
    change_settings(old.book, old.who, {SHOP_NAME: "Another", CITY: "Farhaven", IBAN: ""})
    customer = customer_card(old.book, 1)
    form = replace(customer.form, name="Somebody Else", city="Farhaven", street="9 New Row")
    edit_customer(old.book, old.who, customer.id, customer.version, form)
    facts = e_invoice_of(old.book, old.invoice.paper_id)
    assert facts.seller.name == "Lanternfield Workshop"
    assert (facts.seller.street, facts.seller.city) == (("3 Mossgate Quay", "43117 Mossgate"), "")
    assert facts.buyer.name == old.before.buyer.name
    assert facts.iban == old.before.iban
    assert rules_broken(e_invoice_xml(facts)) == []


def test_one_that_was_paid_names_no_account(worked):
    change_settings(worked.book, worked.who, SHOP)
    take_payment(worked.book, worked.who, worked.job, Money(11876, "EUR"), Means.CASH)
    paper = issue_invoice(worked.book, worked.who, worked.job).value.paper_id
    before = e_invoice_of(worked.book, paper)
    made_old(worked, paper)
    facts = e_invoice_of(worked.book, paper)
    assert (facts.iban, facts.reference, facts.pay_by) == ("", "", None)
    assert replace(facts, holder=before.holder) == before


def test_a_discount_that_was_not_kept_by_rate_is_said_with_the_way_out(old):
    by_hand(old, ("UPDATE invoices SET adjustments = NULL", ()))
    with pytest.raises(Refusal, match="not kept by VAT rate") as refused:
        e_invoice_pdf(old.book, old.invoice.paper_id)
    assert refused.value.next_step is not None
    assert "credit note" in refused.value.next_step.key


def test_a_credit_note_without_one_has_none(old):
    note = issue_credit_note(old.book, old.who, old.invoice.id, {0: MICRO}, "wrong").value
    made_old(old, note.paper_id)
    with pytest.raises(Refusal, match="no e-invoice of this paper"):
        e_invoice_of(old.book, note.paper_id)
