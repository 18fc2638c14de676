"""Codes that a scanner reads: J and the number of the job as QR and Code 128, and the code of a bank transfer."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

import segno
from reportlab.graphics.barcode.code128 import Code128

from app.papers.pen import Pen
from app.trade.money import Money
from app.trade.office.bank_account import compact

QUIET = 4  # modules left white on each side of a QR (ISO/IEC 18004)
MOST_BYTES, MOST_CENTS = 331, 999_999_999_99  # of the code of a transfer (EPC069-12)
QUIET_BARS = 10  # narrow bars left white on both sides of a Code 128 (ISO/IEC 15417)


def job_code(job: int) -> str:
    """What the code of a job says: ``J2131``."""
    return f"J{job}"


@lru_cache(maxsize=64)
def _matrix(content: str, level: str) -> tuple[tuple[int, ...], ...]:
    made = segno.make(
        content, error=level, boost_error=False, micro=False, encoding=None if content.isascii() else "utf-8"
    )
    return tuple(tuple(row) for row in made.matrix)


def qr_side(content: str, module: float, level: str = "q") -> float:
    """Side of the black square in mm, its quiet zone not counted."""
    return len(_matrix(content, level)) * module


def draw_qr(pen: Pen, content: str, x: float, y: float, module: float, level: str = "q") -> float:
    """QR at its top left corner with modules of ``module`` mm; returns its side in mm."""
    rows = _matrix(content, level)
    places = []
    for down, row in enumerate(rows):
        across = 0
        while across < len(row):
            end = across
            while end < len(row) and row[end]:
                end += 1
            if end > across:
                places.append((x + across * module, y + down * module, (end - across) * module, module))
            across = end + 1
    pen.blocks(places, 0.0)
    return len(rows) * module


@lru_cache(maxsize=64)
def _bars(content: str) -> tuple[tuple[int, int], ...]:
    """Bars of a Code 128 as (start, width) in narrow bars; the last one's end is the width of the code."""
    symbol: Any = Code128(content, quiet=0)
    symbol.validate()
    symbol.encode()
    symbol.decompose()
    bars = []
    at = 0
    for letter in str(symbol.decomposed):
        if letter.islower():
            at += ord(letter) - ord("a") + 1
        else:
            bars.append((at, ord(letter) - ord("A") + 1))
            at += ord(letter) - ord("A") + 1
    return tuple(bars)


def bars_width(content: str, narrow: float) -> float:
    """Width of a Code 128 in mm, its quiet zones not counted."""
    last = _bars(content)[-1]
    return (last[0] + last[1]) * narrow


def draw_bars(pen: Pen, content: str, x: float, y: float, narrow: float, height: float) -> float:
    """Code 128 at its top left corner, narrowest bar ``narrow`` mm; returns its width in mm."""
    pen.blocks([(x + start * narrow, y, across * narrow, height) for start, across in _bars(content)], 0.0)
    return bars_width(content, narrow)


def transfer_code(holder: str, iban: str, bic: str, amount: Money, reference: str) -> str:
    """What the QR of a euro transfer says (EPC069-12 version 2: service tag, version, UTF-8, SCT, BIC, name, IBAN, sum,
    purpose, structured reference or text). The reference is structured when it begins with RF (ISO 11649).

    Empty where the guideline has no code for it: above 999,999,999.99 euro. A long name is cut to what has room.
    """
    if amount.minor > MOST_CENTS:
        return ""
    plain = reference.replace(" ", "")
    structured = plain if plain.startswith("RF") else ""
    name, words = holder[:70], "" if structured else reference[:140]
    while True:
        lines = ["BCD", "002", "1", "SCT", compact(bic), name, compact(iban), f"EUR{amount.amount:.2f}", ""]
        content = "\n".join([*lines, structured, words]).rstrip("\n")
        if len(content.encode()) <= MOST_BYTES:
            return content
        name, words = (name, words[:-1]) if words else (name[:-1], words)
