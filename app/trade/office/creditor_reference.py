"""The structured creditor reference (ISO 11649): RF, two check digits, and the number of the invoice."""

from __future__ import annotations

import re

from app.trade.office.check_digits import mod_97

MOST = 21  # letters and figures behind the check digits
_REFERENCE = re.compile(r"RF[0-9]{2}[A-Z0-9]{1,21}")


def creditor_reference(number: str) -> str:
    """RF and check digits in front of an invoice number; what is no letter or figure falls out.

    R-0412 becomes RF70R0412. ValueError for a number that is empty or too long.
    """
    plain = re.sub(r"[^A-Z0-9]", "", number.upper())
    if not 1 <= len(plain) <= MOST:
        raise ValueError(f"no creditor reference holds {number!r}")
    return f"RF{98 - mod_97(plain + 'RF00'):02d}{plain}"


def is_creditor_reference(text: str) -> bool:
    """Whether the check digits of a reference fit; spaces are let through."""
    plain = "".join(text.split()).upper()
    return bool(_REFERENCE.fullmatch(plain)) and mod_97(plain[4:] + plain[:4]) == 1
