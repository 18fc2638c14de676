"""What stands on an invoice, sums worked out already: the paper adds nothing up."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from app.papers.e_invoice_facts import EInvoiceFacts
from app.papers.facts import Caution, Customer, Player, Said, SheetFacts
from app.papers.facts_json import Frozen
from app.papers.modification_facts import ModificationFacts
from app.trade.money import Money


@dataclass(frozen=True)
class InvoiceLine(Frozen):
    """One line. ``quantity`` and ``each`` with their digits as typed, ``vat`` in percent, ``net`` rounded.

    A line of text only has None for all of them. ``discount`` is what was taken off this line before ``net``.
    """

    what: Said
    quantity: Decimal | None = None
    unit: Said = ""
    each: Decimal | None = None
    vat: Decimal | None = None
    net: Money | None = None
    discount: Money | None = None
    discount_reason: Said = ""


@dataclass(frozen=True)
class Discount(Frozen):
    """Taken off (or with ``charge`` put on) the sum of lines, for a reason, in one VAT rate."""

    reason: Said  # Sentence("Discount for a returning customer")
    vat: Decimal
    amount: Money  # positive; the paper sets the minus
    charge: bool = False


@dataclass(frozen=True)
class VatGroup(Frozen):
    """One VAT rate: what it is taken on and what it comes to. ``reason`` says why a rate of zero stands."""

    rate: Decimal
    base: Money
    vat: Money
    reason: Said = ""


@dataclass(frozen=True)
class PaymentLine(Frozen):
    """A payment received: Sentence("Deposit paid {day}, {means}"). Positive; the paper sets the minus."""

    words: Said
    amount: Money


@dataclass(frozen=True)
class PaymentPanel(Frozen):
    """How an open balance is paid. With an ``iban``, euro and a balance above zero its code prints."""

    pay_by: date | None = None
    how: Said = ""  # "in cash or by card at the counter, or"
    holder: str = ""
    iban: str = ""
    bic: str = ""
    reference: str = ""


@dataclass(frozen=True)
class InvoiceFacts(Frozen):
    """An invoice. ``number`` is empty on a draft. All amounts are in one currency."""

    sheet: SheetFacts
    number: str
    job: int
    issued: date
    customer: Customer
    player: Player
    heading: Said  # Sentence("Repair of your disc player")
    lines: tuple[InvoiceLine, ...]
    lines_net: Money
    net: Money
    vat: tuple[VatGroup, ...]
    total: Money
    balance: Money
    intro: Said = ""  # after the player's name: "You agreed to ... by telephone."
    work_from: date | None = None
    work_to: date | None = None
    pay_by: date | None = None
    discounts: tuple[Discount, ...] = ()
    payments: tuple[PaymentLine, ...] = ()
    rounding: Money | None = None  # of the balance (BT-114)
    panel: PaymentPanel | None = None
    guarantee: Said = ""
    modifications: tuple[ModificationFacts, ...] = ()
    cautions_user: tuple[Caution, ...] = ()
    cautions_technician: tuple[Caution, ...] = ()
    e_invoice: EInvoiceFacts | None = None  # what `save as e-invoice` writes; not drawn
