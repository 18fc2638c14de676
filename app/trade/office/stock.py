"""Moves of parts: which kinds there are, which way each goes, and why one cannot be made."""

from __future__ import annotations

from decimal import Decimal
from enum import StrEnum

from app.trade.sentence import Sentence, words

MOST = Decimal(1_000_000)


class MoveKind(StrEnum):
    """Why the stock of a part changed. Stock on hand is the sum of all moves."""

    RECEIVED = words("received")
    FROM_DONOR = words("taken from a donor")
    USED = words("used")
    PUT_BACK = words("put back")
    SENT_BACK = words("sent back")
    SCRAPPED = words("scrapped")
    COUNTED = words("counted")


# How a move is told to people; "put back" of a modification is another thing.
MOVE_WORDS = {
    MoveKind.RECEIVED: Sentence("bought"),
    MoveKind.FROM_DONOR: Sentence("taken from a donor"),
    MoveKind.USED: Sentence("fitted"),
    MoveKind.PUT_BACK: Sentence("returned to stock"),
    MoveKind.SENT_BACK: Sentence("sent to the supplier"),
    MoveKind.SCRAPPED: Sentence("scrapped"),
    MoveKind.COUNTED: Sentence("counted"),
}
INTO_STOCK = frozenset({MoveKind.RECEIVED, MoveKind.FROM_DONOR, MoveKind.PUT_BACK})
OUT_OF_STOCK = frozenset({MoveKind.USED, MoveKind.SENT_BACK, MoveKind.SCRAPPED})


def quantity_refused(kind: MoveKind, quantity: Decimal, on_hand: Decimal) -> Sentence | None:
    """Why so many cannot be moved, or None. ``quantity`` is as people say it, without a sign.

    What is scrapped or sent back lies there; what was fitted was there, whatever the book says.
    """
    if not 0 < quantity <= MOST:
        return Sentence("Say how many, more than 0.")
    if kind in (MoveKind.SENT_BACK, MoveKind.SCRAPPED) and quantity > on_hand:
        return Sentence("By the book {count} are on hand. Count them first.", {"count": on_hand})
    return None
