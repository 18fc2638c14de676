"""Telephone numbers: kept as typed, compared by their digits, found by their last four."""

from __future__ import annotations

import re
import unicodedata

from app.trade.sentence import Sentence

FEWEST, MOST = 3, 15  # digits; ITU-T E.164 allows 15 in an international number (from memory)
_ALLOWED = re.compile(r"[+]?[0-9 ()/.\-]+")
_EXTENSION = re.compile(r"\s*(?:ext\.?|x|#)\s*([0-9]{1,6})\s*$", re.IGNORECASE)


def _plain(text: str) -> str:
    """Digits of any script and full-width signs as ASCII; the many dashes and spaces as one of each."""
    folded = []
    for letter in unicodedata.normalize("NFKC", text.strip()):
        kind = unicodedata.category(letter)
        if kind == "Nd":
            folded.append(str(unicodedata.decimal(letter)))
        elif kind in ("Pd", "Zs") or letter == "\u2212":
            folded.append("-" if letter != " " and kind != "Zs" else " ")
        else:
            folded.append(letter)
    return "".join(folded)


def check_phone(text: str) -> Sentence | None:
    """Why this cannot be a telephone number, or None. Empty is allowed."""
    plain = _plain(text)
    if not plain:
        return None
    number = _EXTENSION.sub("", plain)
    if not _ALLOWED.fullmatch(number):
        return Sentence(
            "A telephone number has figures, spaces, brackets and a plus in front; notes go elsewhere."
        )
    count = sum(letter.isdecimal() for letter in number)
    if count < FEWEST:
        return Sentence("That is too short for a telephone number.")
    if count > MOST:
        return Sentence("A telephone number has at most {most} figures.", {"most": MOST})
    return None


def digits(text: str) -> str:
    """The figures alone, as ASCII, without an extension."""
    return "".join(letter for letter in _EXTENSION.sub("", _plain(text)) if letter in "0123456789")


def normal(text: str, calling_code: str = "") -> str:
    """The normal form for matching: country code and number without plus and zeros in front.

    ``calling_code`` is the shop's own ("44"); a number with one 0 in front is taken as national. A country
    code followed by a bracketed zero, "+44 (0)1632 ...", loses that zero. Without a calling code a national
    number keeps no zero either, so that it is the tail of its international form.
    """
    plain = re.sub(r"^(\+|00)([0-9 .\-]*)\(0\)", r"\1\2", _plain(text))
    figures = digits(plain)
    if plain.startswith("+"):
        return figures
    if figures.startswith("00"):
        return figures[2:]
    if figures.startswith("0"):
        return calling_code + figures[1:]
    return figures


def same_number(one: str, other: str, calling_code: str = "") -> bool:
    """Whether two typed numbers reach the same telephone: equal, or one the tail of the other.

    A tail counts from six figures on, which is what is left of a local number without its area code.
    """
    short, long = sorted((normal(one, calling_code), normal(other, calling_code)), key=len)
    return bool(short) and (short == long or (len(short) >= 6 and long.endswith(short)))


def last_four(text: str) -> str:
    """The last four figures, by which people ask; fewer when there are not four."""
    return digits(text)[-4:]
