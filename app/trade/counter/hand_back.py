"""Handing a player back: the form as plain values, and what cannot be right or is missing in it.

Stops and gates are asked apart (app/trade/bench); here stands what the counter writes down.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from app.trade.bench.stages import NOT_MENDED, STAYS_HERE, Collector, Outcome
from app.trade.money import Money
from app.trade.sentence import Sentence, words
from app.trade.typed_words import check_typed

NAME_ROOM, PROOF_ROOM, NOTE_ROOM, REASON_ROOM = 300, 200, 200, 600
NEEDS_NAME = frozenset({Collector.TICKET, Collector.NAMED})


class LeftKind(StrEnum):
    """What sort of thing is ticked when it goes back."""

    THING = words("thing")
    DISC = words("disc")
    OLD_PART = words("old part")


@dataclass(frozen=True)
class LeftThing:
    """Something that came with the player or out of it. Not ``given`` needs a ``note``: a disc never stays."""

    kind: LeftKind
    words: str
    given: bool = False
    note: str = ""


@dataclass(frozen=True)
class UnsafeWay:
    """How an unsafe player goes back: the owner's reason, and what has been done first."""

    reason: str = ""
    law_looked_at: bool = False
    signed: bool = False
    plug_tagged: bool = False
    case_shut: bool = False


@dataclass(frozen=True, kw_only=True)
class HandBack:
    """The hand-back page as filled in. ``collector`` is None while the player stays here."""

    outcome: Outcome | None = None
    collector: Collector | None = None
    collector_name: str = ""
    proof: str = ""  # what was shown when the ticket is lost
    things: tuple[LeftThing, ...] = ()
    paid_words: str = ""  # how an open balance was agreed
    shown_and_told: bool = False
    unsafe: UnsafeWay | None = None


@dataclass(frozen=True, kw_only=True)
class HandBackFacts:
    """What the book knows of the job at this moment."""

    changes_left: int = 0  # modifications of ours that stay inside
    balance: Money | None = None  # open on issued invoices
    safety_stop: bool = False  # a stop that lets the player go only by the unsafe way
    made_by_us: bool = False  # what is unsafe came from our own work


def _check_outcome(form: HandBack, facts: HandBackFacts) -> Sentence | None:
    if form.outcome is None:
        return Sentence("How did the job end? Choose the outcome.")
    if form.outcome is Outcome.MENDED and facts.changes_left:
        return Sentence("A change of ours stays inside: the outcome is “mended with a modification”.")
    if form.outcome is Outcome.MENDED_MODIFIED and not facts.changes_left:
        return Sentence("No change of ours stays inside: the outcome is “mended”.")
    if form.unsafe is not None and form.outcome not in NOT_MENDED:
        return Sentence("Only a player that was declined, refused or is beyond repair goes back unsafe.")
    return None


def _check_collector(form: HandBack) -> dict[str, Sentence]:
    if form.outcome in STAYS_HERE:
        if form.collector is None:
            return {}
        return {"collector": Sentence("With this outcome the player stays here: nobody collects it.")}
    if form.collector is None:
        return {"collector": Sentence("Who collects it?")}
    wrong: dict[str, Sentence] = {}
    if form.collector in NEEDS_NAME and not form.collector_name.strip():
        wrong["collector_name"] = Sentence("Write the name of the person who collects.")
    elif name := check_typed(form.collector_name, NAME_ROOM):
        wrong["collector_name"] = name
    if form.collector is Collector.TICKET_LOST and not form.proof.strip():
        wrong["proof"] = Sentence("The ticket is lost: note what was shown instead, such as a passport.")
    elif proof := check_typed(form.proof, PROOF_ROOM):
        wrong["proof"] = proof
    return wrong


def _check_thing(thing: LeftThing) -> Sentence | None:
    if wrong := check_typed(thing.note, NOTE_ROOM):
        return wrong
    if thing.given:
        return None
    if thing.kind is LeftKind.DISC:
        return Sentence("The customer's disc goes back: {words}. Tick it.", {"words": thing.words})
    if not thing.note.strip():
        return Sentence("Tick it, or note why it stays: {words}.", {"words": thing.words})
    return None


def _check_unsafe(form: HandBack, facts: HandBackFacts) -> dict[str, Sentence]:
    way = form.unsafe
    if way is None:
        return {}
    if not facts.safety_stop:
        return {"unsafe": Sentence("No safety stop is open: the player goes back the ordinary way.")}
    if facts.made_by_us:
        return {"unsafe": Sentence("What is unsafe came from our own work. It is put right first.")}
    wrong: dict[str, Sentence] = {}
    if not way.reason.strip():
        wrong["unsafe.reason"] = Sentence("The owner writes why the player goes back unsafe.")
    elif reason := check_typed(way.reason, REASON_ROOM, lines=True):
        wrong["unsafe.reason"] = reason
    if not way.law_looked_at:
        wrong["unsafe.law_looked_at"] = Sentence(
            "Local law first: it may forbid handing back, or ask for a report."
        )
    if not way.case_shut:
        wrong["unsafe.case_shut"] = Sentence("The case has to be shut before it goes.")
    if not way.plug_tagged:
        wrong["unsafe.plug_tagged"] = Sentence("The tag has to be on the plug.")
    if not way.signed:
        wrong["unsafe.signed"] = Sentence("The customer has to sign the warning.")
    return wrong


def check_hand_back(form: HandBack, facts: HandBackFacts) -> dict[str, Sentence]:
    """What keeps the page from being saved, by field: ``proof``, ``things.1``, ``unsafe.reason``.

    An open balance never holds a player by itself, but how it is to be paid has to be noted.
    """
    wrong: dict[str, Sentence] = {}
    if outcome := _check_outcome(form, facts):
        wrong["outcome"] = outcome
    wrong.update(_check_collector(form))
    for at, thing in enumerate(form.things):
        if why := _check_thing(thing):
            wrong[f"things.{at}"] = why
    balance = facts.balance
    if balance is not None and balance.minor > 0 and not form.paid_words.strip():
        wrong["paid_words"] = Sentence(
            "{balance} is not paid yet. Take the payment, or note what was agreed.", {"balance": balance}
        )
    elif paid := check_typed(form.paid_words, NOTE_ROOM):
        wrong["paid_words"] = paid
    wrong.update(_check_unsafe(form, facts))
    return wrong
