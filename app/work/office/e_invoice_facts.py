"""Fills the facts of an e-invoice, frozen with the invoice's paper: who sells and buys, lines, VAT groups, sums."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from decimal import Decimal

from app.book.tables import Customer
from app.papers.e_invoice_facts import EAdjustment, EGroup, EInvoiceFacts, ELine, Party, Preceding
from app.trade.money import Money
from app.trade.office.amounts import shown
from app.trade.office.bank_account import compact
from app.trade.office.creditor_reference import creditor_reference
from app.trade.office.invoice import Adjustment, Draft, Line, LineKind, Totals
from app.trade.office.vat import CODES
from app.trade.settings.bank import ACCOUNT_HOLDER, BIC, IBAN
from app.trade.settings.papers_and_days import SPECIMEN
from app.trade.settings.shop import (
    ADDRESS_LINES,
    CITY,
    COUNTRY,
    EMAIL,
    PHONE,
    POSTCODE,
    REGISTER_NUMBER,
    SHOP_NAME,
    TAX_NUMBER,
    VAT_ID,
)
from app.trade.settings.shop_settings import ShopSettings


def e_invoice_facts(
    settings: ShopSettings,
    customer: Customer,
    draft: Draft,
    totals: Totals,
    number: str,
    issued: date,
    *,
    pay_by: date | None = None,
    corrects: Preceding | None = None,
    notes: tuple[str, ...] = (),
) -> EInvoiceFacts:
    """The facts of an invoice or, with ``corrects``, of a credit note on that one (amounts positive in both)."""
    lines, before = _lines(draft, totals)
    asked = totals.due.minor > 0 and corrects is None
    return EInvoiceFacts(
        number=number,
        issued=issued,
        seller=seller(settings),
        buyer=buyer(settings, customer),
        lines=lines,
        groups=tuple(
            EGroup(CODES[g.category], percent(g.rate), g.base, g.tax, g.reason) for g in totals.groups
        ),
        lines_net=totals.lines_net,
        net=totals.net,
        vat=totals.vat,
        gross=totals.gross,
        prepaid=totals.prepaid,
        rounding=totals.rounding,
        due=totals.due,
        adjustments=(
            *_adjustments(draft.discounts, draft.currency, charge=False),
            *_adjustments(draft.charges, draft.currency, charge=True),
        ),
        corrects=corrects,
        delivered=corrects.issued if corrects else issued,  # when the work was handed over
        pay_by=pay_by if asked else None,
        iban=compact(settings[IBAN]) if asked else "",
        bic=compact(settings[BIC]) if asked else "",
        holder=settings[ACCOUNT_HOLDER] or settings[SHOP_NAME],
        reference=creditor_reference(number) if asked and settings[IBAN] else "",
        notes=(*notes, *before),
        specimen=settings[SPECIMEN],
    )


def seller(settings: ShopSettings) -> Party:
    """The shop, as the settings have it now."""
    return Party(
        name=settings[SHOP_NAME],
        street=settings[ADDRESS_LINES],
        postcode=settings[POSTCODE],
        city=settings[CITY],
        country=settings[COUNTRY],
        vat_id=settings[VAT_ID],
        tax_number=settings[TAX_NUMBER],
        register_number=settings[REGISTER_NUMBER],
        phone=settings[PHONE],
        email=settings[EMAIL],
    )


def buyer(settings: ShopSettings, customer: Customer) -> Party:
    """The customer, as the card has it now; without a country the shop's own is meant."""
    return Party(
        name=customer.name,
        street=tuple(line.strip() for line in customer.street.splitlines() if line.strip()),
        postcode=customer.postcode,
        city=customer.city,
        country=customer.country or settings[COUNTRY],
        vat_id=customer.vat_id,
        phone=customer.phone,
        email=customer.email,
    )


def percent(rate: int) -> Decimal:
    """A rate of 10^-4 in percent: 1900 is 19, 550 is 5.5."""
    return Decimal(rate).scaleb(-2).normalize()


def _lines(draft: Draft, totals: Totals) -> tuple[tuple[ELine, ...], tuple[str, ...]]:
    """Lines that charge something, and what the text lines before the first of them say.

    A line of the standard has a quantity and a price, so a line of text becomes the note of the line above it.
    """
    lines: list[tuple[Line, Money, list[str]]] = []
    before: list[str] = []
    for line, net in zip(draft.lines, totals.line_nets, strict=True):
        if line.kind is not LineKind.TEXT:
            lines.append((line, net, []))
        elif lines:
            lines[-1][2].append(line.words)
        else:
            before.append(line.words)
    return tuple(_line(line, net, "\n".join(notes)) for line, net, notes in lines), tuple(before)


def _line(line: Line, net: Money, note: str) -> ELine:
    return ELine(
        words=line.words,
        quantity=shown(line.quantity),
        unit=line.unit,
        price=shown(line.price),
        net=net,
        category=CODES[line.category],
        rate=percent(line.vat_rate),
        discount=Money(line.discount, net.currency) if line.discount else None,
        discount_reason=line.discount_reason,
        note=note,
    )


def _adjustments(rows: Iterable[Adjustment], currency: str, *, charge: bool) -> Iterable[EAdjustment]:
    for row in rows:
        amount = Money(row.amount, currency)
        yield EAdjustment(amount, row.reason, CODES[row.category], percent(row.vat_rate), charge)
