"""Numbers that people say: the job's code on paper, invoice numbers, and what keeps a series gapless."""

from __future__ import annotations

import re
from collections.abc import Iterable

from app.trade.sentence import Sentence

_TYPED = re.compile(r"[Jj]?\s?([1-9][0-9]{0,8})")
_INVOICE = re.compile(r"(?:([A-Z][A-Z0-9]{0,5})-)?([0-9]{1,9})")
SHORTEST = 4  # figures of an invoice number; more grow on their own


def job_code(number: int) -> str:
    """The code of a job on ticket and tag: J and the number."""
    if number < 1:
        raise ValueError(f"no job has the number {number}")
    return f"J{number}"


def read_job_number(text: str) -> int | None:
    """The job number a person typed: 2131, J2131, j 2131. None when it is no job number.

    A leading zero makes it none: that is a serial or a telephone number.
    """
    matched = _TYPED.fullmatch(text.strip())
    return int(matched[1]) if matched else None


def invoice_number(series: str, number: int) -> str:
    """An invoice number as printed: R-0412, or 0412 without a series. It holds no year that could clash."""
    if number < 1:
        raise ValueError(f"no invoice has the number {number}")
    figures = f"{number:0{SHORTEST}d}"
    return f"{series}-{figures}" if series else figures


def read_invoice_number(text: str) -> tuple[str, int] | None:
    """Series and number of a typed invoice number; None when it is none."""
    matched = _INVOICE.fullmatch(text.strip().upper())
    if matched is None or int(matched[2]) == 0:
        return None
    return matched[1] or "", int(matched[2])


def gaps_in(numbers: Iterable[int], first: int = 1) -> Sentence | None:
    """What is wrong with a series that should run from ``first`` without a gap, or None."""
    seen = sorted(numbers)
    for expected, number in enumerate(seen, start=first):
        if number > expected:
            return Sentence("The number {number} is missing.", {"number": expected})
        if number < expected:
            return Sentence("The number {number} stands there twice.", {"number": number})
    return None
