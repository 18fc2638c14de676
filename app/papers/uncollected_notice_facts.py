"""What stands on a notice to collect a player that is ready."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from app.papers.facts import Customer, Player, Said, SheetFacts
from app.papers.facts_json import Frozen
from app.trade.money import Money


@dataclass(frozen=True)
class UncollectedNoticeFacts(Frozen):
    """A notice. ``earlier`` are the days of those before it; ``terms`` the terms of storage as agreed to."""

    sheet: SheetFacts
    job: int
    day: date
    customer: Customer
    player: Player
    taken_in: date
    ready: date
    collect_by: date
    text: Said
    terms: Said
    writer: str
    told: date | None = None  # the last word to the customer
    earlier: tuple[date, ...] = ()
    things: tuple[Said, ...] = ()  # what came with the player and waits with it
    open: Money | None = None  # on the invoice
