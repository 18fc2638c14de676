"""Words that people type or paste: which of them can be kept and printed."""

from __future__ import annotations

import unicodedata

from app.trade.sentence import Sentence

# Signs that turn the direction of what follows: with them a text shows as something other than it is.
_TURNS = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
_NEVER = frozenset({"Cc", "Cs", "Cn", "Co", "Zl", "Zp"})


def printable(text: str, *, lines: bool = False) -> bool:
    """Whether every letter can be printed; ``lines`` allows line ends. Spaces of any kind count as letters."""
    return all(
        letter not in _TURNS and (unicodedata.category(letter) not in _NEVER or (lines and letter == "\n"))
        for letter in text
    )


def check_typed(text: str, most: int, *, lines: bool = False) -> Sentence | None:
    """Why a text cannot be kept: too long, or letters that cannot be printed. Empty is no mistake here."""
    if len(text) > most:
        return Sentence("At most {most} letters have room here.", {"most": most})
    if not printable(text, lines=lines):
        return Sentence("Letters that cannot be printed have slipped in. Type it again.")
    return None
