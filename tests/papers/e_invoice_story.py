"""The e-invoices that the official rules are asked about, worked out by the shop's own arithmetic."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from app.book.tables import Customer
from app.papers.e_invoice_facts import EInvoiceFacts, Preceding
from app.trade.office.invoice import Adjustment, Draft, Line, LineKind, work_out
from app.trade.office.vat import VatCategory
from app.trade.settings import (
    ADDRESS_LINES,
    BIC,
    CITY,
    COUNTRY,
    EMAIL,
    IBAN,
    PHONE,
    POSTCODE,
    REGISTER_NUMBER,
    SHOP_NAME,
    TAX_NUMBER,
    VAT_ID,
)
from app.trade.settings.shop_settings import ShopSettings
from app.work.office.e_invoice_facts import e_invoice_facts

SHOP = ShopSettings(
    {
        SHOP_NAME: "Lanternfield Workshop",
        ADDRESS_LINES: ("Mill Lane 4", "second yard", "door 3", "first floor"),
        POSTCODE: "04109",
        CITY: "Lanternfield",
        COUNTRY: "DE",
        VAT_ID: "DE123456789",
        TAX_NUMBER: "12/345/67890",
        IBAN: "DE89 3704 0044 0532 0130 00",
        BIC: "XMPLDEFF",
        EMAIL: "desk@lanternfield.example",
        PHONE: "01632 960 142",
    }
)
CUSTOMER = Customer(
    name="Benedikt & <Söhne>", street="Quay 1\n\nloft", postcode="10 115", city="Łódź", country="PL",
    vat_id="PL1234567890", phone="", email="",
)  # fmt: skip
ISSUED, PAY_BY = date(2026, 11, 25), date(2026, 12, 9)
EXEMPT = "Small business: no VAT is charged (section 19)."
REVERSE = "Reverse charge: the customer owes the VAT."

LABOUR = Line("Cleaned the lens, set focus", LineKind.LABOUR, 1_500_000, "HUR", 60_000_000, 1900)
RESISTOR = Line("Resistor 6.8 ohm\n0.5 W", LineKind.PART, 2_000_000, "H87", 350_000, 1900)
MANUAL = Line("Manual", LineKind.FIXED_CHARGE, 1_000_000, "C62", 12_500_000, 700)
WORDS = Line("Laser and arm as before.", LineKind.TEXT, 0, "C62", 0, 1900)


def _as(category: VatCategory, reason: str) -> tuple[Line, ...]:
    return tuple(
        replace(line, vat_rate=0, category=category, vat_reason=reason) for line in (LABOUR, RESISTOR, WORDS)
    )


OFF = Adjustment(1000, "returning customer", 1900)
EXPRESS = Adjustment(750, "done over night", 1900)
DRAFTS = {
    "plain": Draft("EUR", (LABOUR,)),
    # The worked invoice of trade.md section 6: net 93.20, VAT 16.21, gross 109.41, due 59.41.
    "several rates": Draft("EUR", (LABOUR, RESISTOR, MANUAL), (OFF,), prepaid=5000),
    "discount and charge": Draft(
        "EUR",
        (WORDS, replace(LABOUR, discount=500, discount_reason="waited too long"), WORDS, WORDS, RESISTOR),
        (OFF,),
        (EXPRESS,),
    ),
    "credit note": Draft("EUR", (RESISTOR,)),
    "deposit": Draft("EUR", (LABOUR,), prepaid=10_000),
    "paid in full": Draft("EUR", (LABOUR,), prepaid=10_710),
    "reverse charge": Draft("EUR", _as(VatCategory.REVERSE_CHARGE, REVERSE)),
    "exempt": Draft("EUR", _as(VatCategory.EXEMPT, EXEMPT)),
    "zero rate": Draft("EUR", _as(VatCategory.ZERO, "")),
    "outside VAT": Draft("EUR", _as(VatCategory.OUTSIDE, "Not a supply: damages.")),
    "rounded": Draft(
        "CHF", (replace(LABOUR, price_with_vat=71_400_000, price=60_000_000), RESISTOR), round_due_to=5
    ),
    "no decimals": Draft("JPY", (LABOUR, RESISTOR)),
    "free of charge": Draft("EUR", (replace(LABOUR, discount=9000, discount_reason="guarantee"),)),
}


def facts_of(draft: Draft, *, corrects: Preceding | None = None, shop: ShopSettings = SHOP) -> EInvoiceFacts:
    """The facts of one draft, issued as R-0412."""
    return e_invoice_facts(
        shop, CUSTOMER, draft, work_out(draft), "R-0412", ISSUED, pay_by=PAY_BY, corrects=corrects
    )


CASES = {
    name: facts_of(
        draft,
        corrects=Preceding("R-0398", date(2026, 11, 2)) if name == "credit note" else None,
        shop=SHOP.with_changes({REGISTER_NUMBER: "HRB 1234"}) if name == "outside VAT" else SHOP,
    )
    for name, draft in DRAFTS.items()
}
