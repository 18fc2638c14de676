"""Plain numbers beside readings: minutes, tries, degrees; point and comma are both decimal marks."""

from __future__ import annotations

import re
from decimal import Decimal

from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence

_WHOLE = re.compile(r"[0-9]{1,6}")
_NUMBER = re.compile(r"[-\u2212]?[0-9]{1,6}(?:[.,][0-9]{1,6})?")


def read_whole(text: str, field: str) -> int | None:
    """A whole number from 0; None where nothing was typed. Raises FieldRefusal under ``field``."""
    typed = text.strip()
    if not typed:
        return None
    if not _WHOLE.fullmatch(typed):
        raise FieldRefusal({field: Sentence("Type a whole number.")})
    return int(typed)


def read_number(text: str, field: str) -> Decimal | None:
    """A number; None where nothing was typed. Raises FieldRefusal under ``field``."""
    typed = text.strip()
    if not typed:
        return None
    if not _NUMBER.fullmatch(typed):
        raise FieldRefusal({field: Sentence("Type a number, for example 21.5.")})
    return Decimal(typed.replace(",", ".").replace("\u2212", "-"))
