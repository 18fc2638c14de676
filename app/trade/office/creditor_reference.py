"""The structured creditor reference (ISO 11649): RF, two check digits, and the number of the invoice."""

from __future__ import annotations

import re

from app.trade.office.check_digits import mod_97
from app.trade.office.numbers import invoice_number, read_invoice_number

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


def numbers_referred(text: str) -> tuple[tuple[str, int], ...]:
    """Series and number of every invoice that a reference may be of; none where its check digits do not fit.

    RF35R20001 may be of R2-0001 and of R-20001, since the hyphen fell out. Spaces are let through.
    """
    plain = "".join(text.split()).upper()
    if not _REFERENCE.fullmatch(plain) or mod_97(plain[4:] + plain[:4]) != 1:
        return ()
    number = plain[4:]
    splits = (read_invoice_number(f"{number[:at]}-{number[at:]}".lstrip("-")) for at in range(len(number)))
    found = (split for split in splits if split is not None)
    return tuple(split for split in found if invoice_number(*split).replace("-", "") == number)
