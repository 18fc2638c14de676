"""Check digits by ISO/IEC 7064 MOD 97-10, which IBAN and creditor reference share."""

from __future__ import annotations


def mod_97(text: str) -> int:
    """The remainder by 97 of capitals and figures, A read as 10 to Z as 35."""
    return int("".join(str(int(letter, 36)) for letter in text)) % 97
