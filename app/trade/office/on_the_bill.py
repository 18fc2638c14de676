"""What can be put on the bill of a job besides its work and parts, and which rates the shop charges."""

from __future__ import annotations

from dataclasses import replace
from enum import StrEnum

from app.trade.office.invoice import Adjustment, Draft, LineKind
from app.trade.office.vat import VatCategory, VatRate, check_vat
from app.trade.sentence import Sentence, words
from app.trade.settings.prices import SMALL_BUSINESS, SMALL_BUSINESS_WORDS, VAT_RATES
from app.trade.settings.shop_settings import ShopSettings


class OnBill(StrEnum):
    """Entries that are no lines of their own. Lines have the kinds of `LineKind`."""

    DISCOUNT = words("discount")  # off the sum, in one VAT rate
    SURCHARGE = words("charge on the whole")  # on top of the sum, in one VAT rate
    LINE_DISCOUNT = words("discount on a line")
    NO_VAT = words("no VAT on the whole")


class LineOf(StrEnum):
    """Where a line of a draft comes from."""

    LABOUR = "labour"
    PART = "part"
    ESTIMATE = "estimate line"
    CHARGE = "charge"


# Kinds that charge nothing by themselves.
NO_CHARGE = (OnBill.DISCOUNT, OnBill.LINE_DISCOUNT, OnBill.NO_VAT)


def rates_offered(settings: ShopSettings) -> tuple[VatRate, ...]:
    """The rates that a new line can have; a small business that is exempt has one only, without VAT."""
    if settings[SMALL_BUSINESS]:
        return (VatRate(0, VatCategory.EXEMPT, settings[SMALL_BUSINESS_WORDS]),)
    return settings[VAT_RATES]


def exempt(draft: Draft, reason: str) -> Draft:
    """The invoice of a small business: without VAT, every line at the very price that was told with it."""
    told = tuple(
        line if line.price_with_vat is None else replace(line, price=line.price_with_vat)
        for line in draft.lines
    )
    return without_vat(replace(draft, lines=told), VatCategory.EXEMPT, reason)


def without_vat(draft: Draft, category: VatCategory, reason: str) -> Draft:
    """The invoice without VAT as a whole: prices without VAT stay, nothing is left to restore."""

    def free(moved: tuple[Adjustment, ...]) -> tuple[Adjustment, ...]:
        return tuple(replace(one, vat_rate=0, category=category, vat_reason=reason) for one in moved)

    lines = tuple(
        line
        if line.kind is LineKind.TEXT
        else replace(line, price_with_vat=None, vat_rate=0, category=category, vat_reason=reason)
        for line in draft.lines
    )
    return replace(draft, lines=lines, discounts=free(draft.discounts), charges=free(draft.charges))


def check_no_vat(category: VatCategory, reason: str) -> dict[str, Sentence]:
    """What keeps an invoice from going out without VAT as a whole, by field."""
    if category is VatCategory.STANDARD:
        return {"category": Sentence("Choose why there is no VAT.")}
    if why := check_vat(0, category, reason):
        return {"reason": why}
    return {}
