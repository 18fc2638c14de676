"""Sheets of paper: their measures, and pages of blocks made into the bytes of a PDF."""

from __future__ import annotations

import io
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from app.papers.facts import PaperSize, SheetFacts
from app.papers.flow import Page
from app.papers.fonts import cleaned, pieces, width
from app.papers.pen import FAINT, POINT, Ink, Pen, open_canvas
from app.trade.wording import Wording


@dataclass(frozen=True)
class Format:
    """A sheet upright, in mm, with its fold marks for a window envelope."""

    width: float
    height: float
    folds: tuple[float, float] = (0.0, 0.0)
    hole: float = 0.0
    address_up: float = 0.0  # how much higher the address field lies than on A4
    address_lines: int = 6


A4 = Format(210, 297, (105, 210), 148.5)
LETTER = Format(215.9, 279.4, (93.1, 186.2), 139.7, address_up=3, address_lines=4)
FORMATS = {PaperSize.A4: A4, PaperSize.LETTER: LETTER}
HALVES = {PaperSize.A4: Format(148, 210), PaperSize.LETTER: Format(139.7, 215.9)}  # A5, half Letter

Dress = Callable[[Pen, int, int], None]


def made(
    pages: Sequence[Page],
    paper: Format,
    title: str,
    sheet: SheetFacts,
    wording: Wording,
    dress: Dress | None = None,
) -> bytes:
    """The PDF of ``pages``. ``dress`` draws what every page carries; it is told the page and how many there are."""
    buffer = io.BytesIO()
    canvas = open_canvas(buffer, paper.width, paper.height, title, sheet.shop.name, sheet.language)
    for number, page in enumerate(pages, 1):
        pen = Pen(canvas, paper.width, paper.height)
        if sheet.draft:
            lay_across(pen, wording("draft"))
        if dress:
            dress(pen, number, len(pages))
        page.draw(pen)
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def page_of(wording: Wording, page: int, pages: int) -> str:
    """ "page 1 of 2"."""
    return wording("page {page} of {pages}", page=page, pages=pages)


def lay_across(pen: Pen, word: str, ink: Ink = FAINT, share: float = 0.36) -> None:
    """A word from the lower left to the upper right of the page, over ``share`` of its diagonal."""
    word = cleaned(word)
    across = math.hypot(pen.width, pen.height) * share
    size = across / (width(word, True) * POINT / 1000)
    half, rise = across / 2, size * POINT * 0.24
    turn = math.atan2(pen.height, pen.width)
    x = pen.width / 2 - half * math.cos(turn) + rise * math.sin(turn)
    y = pen.height / 2 + half * math.sin(turn) + rise * math.cos(turn)
    pen.slanted(x, y, math.degrees(turn), size, pieces(word, True), ink)
