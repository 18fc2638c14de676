"""What a customer says yes or no to, and what is said on the way: what a line of it cannot be without."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from app.trade.bench.stages import Way
from app.trade.money import Money
from app.trade.sentence import Sentence, words
from app.trade.typed_words import check_typed

TEXT_ROOM, NAME_ROOM = 2000, 300


class AgreementKind(StrEnum):
    """What the yes or no is about."""

    WORK = words("work")
    PRICE = words("price")
    MODIFICATION = words("modification")


@dataclass(frozen=True, kw_only=True)
class MessageEntry:
    """One call or message as typed. ``at`` None: now. ``awaits_answer``: the job waits for an answer from here on."""

    text: str
    way: Way = Way.TELEPHONE
    to_customer: bool = True
    spoke_with: str = ""  # if not the customer
    at: datetime | None = None
    awaits_answer: bool = False


@dataclass(frozen=True, kw_only=True)
class AgreementEntry:
    """One recorded yes or no as typed. ``amount``: up to where, with VAT. ``said_at`` None: now."""

    kind: AgreementKind
    yes: bool
    what: str
    said_by: str
    way: Way = Way.TELEPHONE
    amount: Money | None = None
    modification_id: int | None = None
    said_at: datetime | None = None


def check_message(entry: MessageEntry, now: datetime) -> dict[str, Sentence]:
    """What keeps a message from being kept, by field."""
    wrong: dict[str, Sentence] = {}
    if not entry.text.strip():
        wrong["text"] = Sentence("Write what was said.")
    elif why := check_typed(entry.text, TEXT_ROOM, lines=True):
        wrong["text"] = why
    if why := check_typed(entry.spoke_with, NAME_ROOM):
        wrong["spoke_with"] = why
    if entry.at is not None and entry.at > now:
        wrong["at"] = Sentence("{when} has not come yet.", {"when": entry.at})
    return wrong


def check_agreement(entry: AgreementEntry, now: datetime, currency: str) -> dict[str, Sentence]:
    """What keeps a yes or no from being kept, by field: it says exactly what, by whom, and for a price how much."""
    wrong: dict[str, Sentence] = {}
    if not entry.what.strip():
        wrong["what"] = Sentence("Write exactly what the customer said yes or no to.")
    elif why := check_typed(entry.what, TEXT_ROOM, lines=True):
        wrong["what"] = why
    if not entry.said_by.strip():
        wrong["said_by"] = Sentence("Who said it?")
    elif why := check_typed(entry.said_by, NAME_ROOM):
        wrong["said_by"] = why
    if entry.kind is AgreementKind.PRICE and entry.yes and entry.amount is None:
        wrong["amount"] = Sentence("Write the amount that was agreed, with VAT.")
    elif entry.amount is not None and entry.amount.currency != currency:
        wrong["amount"] = Sentence("The shop's money is {currency}.", {"currency": currency})
    elif entry.amount is not None and entry.amount.minor < 0:
        wrong["amount"] = Sentence("An amount is not below zero.")
    if entry.kind is AgreementKind.MODIFICATION and entry.modification_id is None:
        wrong["modification_id"] = Sentence("Which modification? Choose it.")
    if entry.said_at is not None and entry.said_at > now:
        wrong["said_at"] = Sentence("{when} has not come yet.", {"when": entry.said_at})
    return wrong
