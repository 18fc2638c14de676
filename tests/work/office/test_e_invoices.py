"""Saving an issued invoice as an e-invoice: what is frozen, what is asked for, what comes out."""

from __future__ import annotations

from dataclasses import replace

import facturx
import pytest

from app.book.tables import Job
from app.papers.e_invoice_xml import e_invoice_xml
from app.trade.bench.kinds import Means
from app.trade.money import Money
from app.trade.office.vat import VatRate
from app.trade.refusal import Held, Refusal
from app.trade.settings import CITY, COUNTRY, IBAN, LANGUAGE, SHOP_NAME, TAX_NUMBER, VAT_ID
from app.work.office.charges import give_discount
from app.work.office.e_invoices import e_invoice_of, e_invoice_pdf
from app.work.office.invoices import issue_invoice
from app.work.office.payments import take_payment
from app.work.office.settings import change_settings
from app.work.papers.issuing import newest_paper
from app.work.papers.kinds import Kind
from app.work.people.customers import customer_card, edit_customer
from tests.papers.schematron import rules_broken

SHOP = {
    SHOP_NAME: "Lanternfield Workshop",
    CITY: "Lanternfield",
    COUNTRY: "DE",
    VAT_ID: "DE123456789",
    IBAN: "DE89 3704 0044 0532 0130 00",
}


def issued(bench, settings):
    change_settings(bench.book, bench.who, settings)
    take_payment(bench.book, bench.who, bench.job, Money(2000, "EUR"), Means.CASH)
    give_discount(bench.book, bench.who, bench.job, "regular customer", 10_000_000, VatRate(1900))
    return issue_invoice(bench.book, bench.who, bench.job).value


def test_an_issued_invoice_becomes_a_hybrid_that_keeps_the_official_rules(worked):
    """Outside check: factur-x takes the XML out again, its schematron finds nothing."""
    invoice = issued(worked, SHOP)
    file = e_invoice_pdf(worked.book, invoice.paper_id)
    assert file.name == f"{file.title} e-invoice.pdf"
    _, xml = facturx.get_xml_from_pdf(file.pdf, check_xsd=True, check_schematron=False)
    assert rules_broken(xml) == []
    facts = e_invoice_of(worked.book, invoice.paper_id)
    assert xml == e_invoice_xml(facts)
    assert (facts.number, facts.net, facts.gross) == ("0001", Money(8980, "EUR"), Money(10686, "EUR"))
    assert (facts.prepaid, facts.due) == (Money(2000, "EUR"), Money(8686, "EUR"))
    assert (facts.iban, facts.reference[-4:], facts.seller.vat_id) == (
        "DE89370400440532013000",
        "0001",
        "DE123456789",
    )
    assert facts.buyer.name == "Benedikt Arnsvik"


def test_what_is_missing_is_said_at_once_and_filled_in_later(worked):
    invoice = issued(worked, {SHOP_NAME: "Lanternfield Workshop"})
    with pytest.raises(Held) as held:
        e_invoice_pdf(worked.book, invoice.paper_id)
    told = " ".join(reason.key for reason in held.value.reasons)
    assert "The shop has no country yet" in told
    assert "neither VAT number nor tax number" in told
    assert "The customer has no country yet" in told
    change_settings(worked.book, worked.who, {COUNTRY: "DE", VAT_ID: "DE123456789"})
    assert e_invoice_pdf(worked.book, invoice.paper_id).pdf.startswith(b"%PDF")


def test_a_file_in_german_has_a_german_name(worked):
    invoice = issued(worked, SHOP | {LANGUAGE: "de"})
    assert e_invoice_pdf(worked.book, invoice.paper_id).name == "Rechnung 0001 E-Rechnung.pdf"


def test_what_was_known_at_issue_stays(worked):
    invoice = issued(worked, SHOP)
    before = e_invoice_pdf(worked.book, invoice.paper_id).pdf
    change_settings(worked.book, worked.who, {SHOP_NAME: "Another Workshop", CITY: "Elsewhere"})
    assert e_invoice_pdf(worked.book, invoice.paper_id).pdf == before
    change_settings(worked.book, worked.who, {TAX_NUMBER: "12/345"})
    assert e_invoice_of(worked.book, invoice.paper_id).seller.tax_number == "12/345"


def test_a_customer_who_moved_stays_where_the_invoice_went(worked):
    with worked.book.ask() as session:
        customer = session.get_one(Job, worked.job).customer_id
    card = customer_card(worked.book, customer)
    edit_customer(
        worked.book, worked.who, card.id, card.version, replace(card.form, city="Mossgate", country="IE")
    )
    invoice = issued(worked, SHOP)
    card = customer_card(worked.book, customer)
    edit_customer(
        worked.book,
        worked.who,
        card.id,
        card.version,
        replace(card.form, city="Farhaven", vat_id="IE1234567A"),
    )
    buyer = e_invoice_of(worked.book, invoice.paper_id).buyer
    assert (buyer.city, buyer.country, buyer.vat_id) == ("Mossgate", "IE", "IE1234567A")


def test_a_paper_that_is_no_invoice_has_no_e_invoice(worked):
    ticket = newest_paper(worked.book, worked.job, Kind.INTAKE_TICKET)
    with pytest.raises(Refusal, match="no e-invoice of this paper"):
        e_invoice_pdf(worked.book, ticket)
