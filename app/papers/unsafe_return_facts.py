"""What stands on the sheet of a customer's own player that goes back unrepaired and unsafe."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from app.papers.facts import Player, Said, SheetFacts, Sign
from app.papers.facts_json import Frozen
from app.trade.money import Money


@dataclass(frozen=True)
class Offer(Frozen):
    """What the shop offered and what the customer answered."""

    what: Said  # "repair and test, 148.75 EUR"
    answer: Said  # Sentence("declined")


@dataclass(frozen=True)
class UnsafeReturnFacts(Frozen):
    """Every part is needed: a shop may word them its own way but cannot leave one out; none has a default."""

    sheet: SheetFacts
    job: int
    day: date
    customer_name: str
    player: Player
    warning: Said  # what it can do to people: the sentence under the large words
    unsafe: tuple[Said, ...]  # each open stop's sentence: maker's value, found
    not_measured: Said  # what was not measured and what was not changed
    first_steps: tuple[Said, ...]  # what has to happen first, numbered by the paper
    signs: tuple[Sign, ...]
    offers: tuple[Offer, ...]
    answered: Said  # "26 Nov 2026, by telephone (Mirr Quistan)"
    owner: str
    owner_reason: str  # as typed
    decided: datetime
    declaration: Said  # what the customer signs
    fee: Money | None  # the fees on the invoice; None: nothing is charged
    tag_hazard: Said  # plug tag, Semibold: "Fuse bridged with foil."
    tag_risk: Said  # "Risk of fire and electric shock."
