"""Serial numbers: kept as they stand on the plate, compared without case and separators."""

from __future__ import annotations

import unicodedata

from app.trade.sentence import Sentence
from app.trade.typed_words import check_typed

LONGEST = 40
_NOT_A_SERIAL = frozenset(
    {"NA", "NONE", "NOTREADABLE", "UNREADABLE", "UNKNOWN", "NOSERIAL", "UNLESERLICH", "KEINE"}
)


def serial_key(text: str) -> str:
    """The form for matching: letters and figures only, capitals, full-width forms made plain.

    O and 0, I and 1 stay different: two players are never made one by a guess.
    """
    plain = unicodedata.normalize("NFKC", text).upper()
    return "".join(letter for letter in plain if letter.isalnum())


def last_four(text: str) -> str:
    """The end of a serial, by which people ask and labels name it."""
    return serial_key(text)[-4:]


def check_serial(text: str, *, unreadable: bool) -> Sentence | None:
    """Why this cannot be the serial number, or None. Empty is no mistake here."""
    if not text.strip():
        return None
    if unreadable:
        return Sentence("A number that could be read stands beside “not readable”. Keep one of the two.")
    key = serial_key(text)
    if not key or key in _NOT_A_SERIAL:
        return Sentence("Choose “not readable” instead.")
    return check_typed(text, LONGEST)
