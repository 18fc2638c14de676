"""What stands on a credit note. All amounts are positive; the paper sets the signs where the job is told."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from app.papers.e_invoice_facts import EInvoiceFacts
from app.papers.facts import Customer, Player, Said, SheetFacts
from app.papers.facts_json import Frozen
from app.papers.invoice_facts import Discount, InvoiceLine, VatGroup
from app.trade.money import Money


@dataclass(frozen=True)
class CreditedLine(Frozen):
    """One line given back, and which line of the invoice it is."""

    line: InvoiceLine
    invoice_line: int


@dataclass(frozen=True)
class StandLine(Frozen):
    """One step in the account of the job: above zero it is owed to the shop, below zero it was paid or credited."""

    words: Said
    amount: Money


@dataclass(frozen=True)
class CreditNoteFacts(Frozen):
    """A credit note. ``number`` is empty on a draft. ``credited`` is the whole with VAT and rounding."""

    sheet: SheetFacts
    number: str
    job: int
    issued: date
    invoice: str
    invoice_issued: date
    customer: Customer
    player: Player
    heading: Said
    reason: str
    lines: tuple[CreditedLine, ...]
    lines_net: Money
    net: Money
    vat: tuple[VatGroup, ...]
    total: Money
    credited: Money
    discounts: tuple[Discount, ...] = ()
    rounding: Money | None = None
    how: Said = ""
    signed: bool = False  # money changed hands at the counter
    stand: tuple[StandLine, ...] = ()
    open: Money | None = None
    e_invoice: EInvoiceFacts | None = None
