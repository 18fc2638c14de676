"""What stands on the receipt for one payment."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from app.papers.facts import Player, Said, SheetFacts
from app.papers.facts_json import Frozen
from app.trade.money import Money


@dataclass(frozen=True)
class PaymentReceiptFacts(Frozen):
    """Money taken, or with ``back`` given back. ``amount`` is above zero either way; ``open`` is what is left
    on the invoice after it, below zero what is still to be given back; None while there is no invoice."""

    sheet: SheetFacts
    number: str  # of the job and which of its payments: "2131-2"
    job: int
    customer_name: str
    player: Player
    at: datetime
    amount: Money
    means: Said  # Sentence("in cash")
    taken_by: str
    invoice: str = ""
    back: bool = False
    note: str = ""
    total: Money | None = None  # of the invoice
    paid: Money | None = None  # on the job so far, this one among it
    open: Money | None = None
