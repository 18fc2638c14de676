"""What stands on a reminder of an open invoice."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from app.papers.facts import Customer, Player, Said, SheetFacts
from app.papers.facts_json import Frozen
from app.papers.invoice_facts import PaymentLine, PaymentPanel
from app.trade.money import Money


@dataclass(frozen=True)
class ReminderFacts(Frozen):
    """A reminder. ``count`` is the how manyeth of this invoice, ``payments`` what was paid on it with its day."""

    sheet: SheetFacts
    invoice: str  # number
    job: int
    day: date
    customer: Customer
    player: Player
    issued: date
    pay_by: date  # as the invoice said
    new_day: date  # as this reminder asks
    total: Money
    balance: Money
    text: Said
    writer: str
    count: int = 1
    payments: tuple[PaymentLine, ...] = ()  # credit notes among them
    panel: PaymentPanel | None = None
