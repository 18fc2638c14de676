"""The e-invoice of an invoice from before e-invoices were kept: from the rows and the paper that were frozen then."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.book.office.shop_settings import settings_of
from app.book.tables import Customer, Invoice, InvoiceLine
from app.papers.e_invoice_facts import EInvoiceFacts, Party
from app.papers.facts import Customer as OnPaper
from app.papers.facts import Shop
from app.papers.invoice_facts import InvoiceFacts
from app.trade.money import Money
from app.trade.office.bank_account import compact
from app.trade.office.invoice import Totals, VatGroup
from app.trade.office.vat import VatCategory
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence
from app.trade.settings.shop_settings import ShopSettings
from app.work.office.credit_notes import frozen_draft
from app.work.office.e_invoice_facts import buyer, e_invoice_facts, seller
from app.work.office.invoice_paper import told
from app.work.papers.sheet_facts import customer_facts, sheet_in, wording_of


def facts_of_frozen(session: Session, files: Path, invoice_id: int, paper: InvoiceFacts) -> EInvoiceFacts:
    """What an e-invoice of this invoice would have said, inside a question.

    Amounts are those that were frozen, nothing is worked out anew. Raises Refusal where what was taken off or put on
    the whole was not kept by VAT rate.
    """
    row = session.get_one(Invoice, invoice_id)
    if row.adjustments is None and (row.discount or row.charge):
        raise Refusal(
            Sentence("What was taken off this invoice was not kept by VAT rate, so no e-invoice can say it."),
            Sentence("Give everything on it back by a credit note, and issue it anew."),
        )
    settings, customer = settings_of(session), session.get_one(Customer, row.customer_id)
    facts = e_invoice_facts(
        settings,
        customer,
        frozen_draft(session, row),
        told(_totals(session, row), wording_of(paper.sheet)),
        paper.number,
        paper.issued,
        pay_by=paper.pay_by,
    )
    panel = paper.panel
    return replace(
        facts,
        seller=_seller(files, settings, paper.sheet.shop),
        buyer=_buyer(settings, customer, paper.customer),
        iban=compact(panel.iban) if panel else "",
        bic=compact(panel.bic) if panel else "",
        holder=panel.holder if panel else "",
        reference=compact(panel.reference) if panel else "",
        specimen=paper.sheet.specimen,
    )


def _totals(session: Session, row: Invoice) -> Totals:
    def money(minor: int) -> Money:
        return Money(minor, row.currency)

    nets = session.scalars(
        select(InvoiceLine.net).where(InvoiceLine.invoice_id == row.id).order_by(InvoiceLine.position)
    )
    return Totals(
        line_nets=tuple(map(money, nets)),
        lines_net=money(row.lines_net),
        discount=money(row.discount),
        charge=money(row.charge),
        net=money(row.net),
        groups=tuple(
            VatGroup(rate, VatCategory(category), money(base), money(tax), reason)
            for rate, category, base, tax, reason in row.groups
        ),
        vat=money(row.vat),
        gross=money(row.gross),
        prepaid=money(row.prepaid),
        rounding=money(row.rounding),
        due=money(row.due),
    )


def _seller(files: Path, settings: ShopSettings, shop: Shop) -> Party:
    """Who stood in the letterhead. What was empty then, and the country, are taken from the settings of now."""
    now = seller(settings)
    there = shop.address == sheet_in(files, settings, "").shop.address
    return replace(
        _where(now, shop.address, there=there),
        name=shop.name or now.name,
        vat_id=shop.vat_id or now.vat_id,
        tax_number=shop.tax_number or now.tax_number,
        register_number=shop.register_number or now.register_number,
        phone=shop.phone or now.phone,
        email=shop.email or now.email,
    )


def _buyer(settings: ShopSettings, customer: Customer, paper: OnPaper) -> Party:
    """Whom the invoice named. What was empty then, and the country, are taken from the card of now."""
    now = buyer(settings, customer)
    there = paper.address == customer_facts(customer, settings).address
    return replace(
        _where(now, paper.address, there=there),
        name=paper.name or now.name,
        vat_id=paper.vat_id or now.vat_id,
        phone=paper.phone or now.phone,
    )


def _where(now: Party, printed: tuple[str, ...], *, there: bool) -> Party:
    """Town and postcode apart where they are still the same; else the lines as they were printed."""
    return now if there or not printed else replace(now, street=printed, postcode="", city="")
