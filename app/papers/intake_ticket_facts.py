"""What stands on an intake ticket: one half for the customer, one for the shop."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from app.papers.facts import Caution, Clause, Customer, Flag, Player, Row, Said, SheetFacts, Tick
from app.papers.facts_json import Frozen
from app.trade.money import Money
from app.trade.sentence import Sentence


class Face(StrEnum):
    """Which face of the player a mark is on, for the outline."""

    TOP = "top"
    FRONT = "front"


@dataclass(frozen=True)
class Mark(Frozen):
    """A scratch or chip on arrival, numbered in the order given.

    ``across`` and ``down`` are thousandths of the face from its top left corner; without a face the mark is
    listed and not drawn.
    """

    text: Said  # customer half: "scratch on the cover, front left"
    short: Said = ""  # under the outline: "scratch 40 mm"; the text when empty
    face: Face | None = None
    across: int = 0
    down: int = 0


@dataclass(frozen=True)
class IntakeTicketFacts(Frozen):
    """One job as taken in. Empty text and None print nothing, or say what is missing where it matters."""

    sheet: SheetFacts
    job: int
    customer: Customer
    player: Player
    taken_in: datetime
    taken_by: str
    fault: str  # the customer's own words
    taken_by_short: str = ""  # how the shop calls that person, for narrow places
    fault_words: tuple[Said, ...] = ()  # Sentence("skips, when warm"), ...
    error_shown: str = ""
    marks: tuple[Mark, ...] = ()
    condition: tuple[Row, ...] = ()  # Row(Sentence("Transit lock"), Sentence("released"))
    condition_short: tuple[Said, ...] = ()  # shop half, one line each: Sentence("screws complete")
    things: tuple[Tick, ...] = ()  # what came with it; ticked = left with us, open = not left
    here_before: Said = ""  # customer half: "once, job 1206, loading belt, March 2021"
    deposit: Money | None = None
    deposit_means: Said = ""  # Sentence("cash")
    diagnosis_fee: Money | None = None
    ring_by: date | None = None
    ring_when: Said = ""  # "after 16:00"
    promised: date | None = None
    limit: Money | None = None  # go-ahead limit with VAT; None: we ask before any work
    parts_back: bool | None = None  # old parts to be returned; None: not asked
    shelf: str = ""
    flags: tuple[Flag, ...] = ()  # shop half; the paper puts stops first
    still_to_do: tuple[Sentence, ...] = ()  # gates, as open boxes: Sentence("safety test")
    terms: tuple[Clause, ...] = ()  # from the settings; empty ones are left out
    cautions_user: tuple[Caution, ...] = ()
