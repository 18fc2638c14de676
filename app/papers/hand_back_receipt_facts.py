"""What stands on the receipt that the person who collects signs."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from app.papers.facts import Flag, Player, Said, SheetFacts, Tick
from app.papers.facts_json import Frozen
from app.trade.sentence import Sentence, words


class Collector(StrEnum):
    """Who may take the player away."""

    CUSTOMER = words("customer")
    WITH_TICKET = words("with the ticket")
    NAMED = words("named by telephone")
    TICKET_LOST = words("ticket lost")


@dataclass(frozen=True)
class HandBackReceiptFacts(Frozen):
    """One hand-back, as ticked on the screen. Open boxes stay on the paper, to see what was not given."""

    sheet: SheetFacts
    job: int
    customer_name: str
    player: Player
    handed_back: datetime
    counter: str  # who handed it over
    outcome: Sentence  # Sentence("mended with a modification")
    collector: Collector
    collector_name: str = ""  # if not the customer
    proof: str = ""  # noted when the ticket is lost
    given_back: tuple[Tick, ...] = ()  # the player, things, disc, old parts
    shown_told: tuple[Tick, ...] = ()
    done: tuple[Sentence, ...] = ()  # "Safety test passed {day}." and the like
    still_to_do: tuple[Sentence, ...] = ()  # empty: "Still to do: nothing"
    payment_lead: Said = ""  # Sentence("Paid"), in Semibold
    payment: Said = ""  # "27 November 2026: 159.32 EUR, card; nothing open."
    flags: tuple[Flag, ...] = ()  # cautions of modifications, notes
    declaration: Said = ""  # what is signed; empty takes the paper's own words
