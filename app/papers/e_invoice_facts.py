"""What an e-invoice says, in the terms of EN 16931-1 (BT and BG numbers are the standard's). Sums are worked out."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from app.papers.facts_json import Frozen
from app.trade.money import Money


@dataclass(frozen=True)
class Party(Frozen):
    """Seller (BG-4) or buyer (BG-7). ``country`` is ISO 3166 alpha-2; ``street`` up to three lines."""

    name: str = ""
    street: tuple[str, ...] = ()
    postcode: str = ""
    city: str = ""
    country: str = ""
    vat_id: str = ""  # BT-31, BT-48
    tax_number: str = ""  # BT-32
    register_number: str = ""  # BT-30
    phone: str = ""
    email: str = ""


@dataclass(frozen=True)
class ELine(Frozen):
    """A line (BG-25). ``price`` is net per unit, ``net`` what the line comes to after its ``discount``."""

    words: str
    quantity: Decimal
    unit: str  # UN/ECE recommendation 20
    price: Decimal
    net: Money
    category: str  # UNCL5305: S, Z, E, AE, O
    rate: Decimal  # percent
    discount: Money | None = None
    discount_reason: str = ""
    note: str = ""


@dataclass(frozen=True)
class EAdjustment(Frozen):
    """A discount (BG-20) or, with ``charge``, a charge (BG-21) on the whole document; positive."""

    amount: Money
    reason: str
    category: str
    rate: Decimal
    charge: bool = False


@dataclass(frozen=True)
class EGroup(Frozen):
    """One VAT breakdown (BG-23)."""

    category: str
    rate: Decimal
    base: Money
    tax: Money
    reason: str = ""


@dataclass(frozen=True)
class Preceding(Frozen):
    """The invoice that a credit note corrects (BG-3)."""

    number: str
    issued: date


@dataclass(frozen=True)
class EInvoiceFacts(Frozen):
    """An invoice or, with ``corrects``, a credit note whose amounts are positive, too."""

    number: str
    issued: date
    seller: Party
    buyer: Party
    lines: tuple[ELine, ...]
    groups: tuple[EGroup, ...]
    lines_net: Money  # BT-106
    net: Money  # BT-109
    vat: Money  # BT-110
    gross: Money  # BT-112
    prepaid: Money  # BT-113
    rounding: Money  # BT-114
    due: Money  # BT-115
    adjustments: tuple[EAdjustment, ...] = ()
    corrects: Preceding | None = None
    delivered: date | None = None  # BT-72
    pay_by: date | None = None  # BT-9
    terms: str = ""  # BT-20
    iban: str = ""
    bic: str = ""
    holder: str = ""
    reference: str = ""  # BT-83
    notes: tuple[str, ...] = ()  # BT-22
    specimen: bool = False

    @property
    def currency(self) -> str:
        """BT-5."""
        return self.gross.currency

    @property
    def categories(self) -> frozenset[str]:
        """The VAT categories that occur."""
        return frozenset(group.category for group in self.groups)
