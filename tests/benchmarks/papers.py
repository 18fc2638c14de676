"""Every kind of paper as PDF, against a plain page of the same words in the same fonts."""

from __future__ import annotations

import io
from functools import partial
from pathlib import Path

import pypdfium2

from app.papers.press import printed
from tests.benchmarks.measure import Budget, Measured, by_turns
from tests.papers.conftest import PAPERS
from tests.papers.story import ENGLISH

FONTS = Path(__file__).resolve().parents[2] / "assets" / "fonts"
FACES = ("SourceSansPro-Regular", "SourceSansPro-Semibold")
MOST_MS = 60  # DESIGN section 6, of an invoice; no other paper may take longer


def papers() -> list[Measured]:
    """The invoice first, then the other papers of the story."""
    _register()
    names = ["invoice", *(name for name in PAPERS if name != "invoice")]
    return [_measured(name) for name in names]


def _measured(name: str) -> Measured:
    draw = partial(printed, PAPERS[name], ENGLISH)
    pages = len(pypdfium2.PdfDocument(draw()))
    ours, floor = by_turns(draw, _plain_page, 25 if name == "invoice" else 11)
    what = f"one {name} PDF, warm" if name == "invoice" else f"{name}, {pages} page{'s'[: pages - 1]}"
    against = "a plain reportlab page, two fonts in it"
    return Measured(what, ours, floor, against, Budget(MOST_MS, floor=4.7))


def _register() -> None:
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    for face in FACES:
        pdfmetrics.registerFont(TTFont(f"bare {face}", str(FONTS / f"{face}.ttf")))


def _plain_page() -> None:
    """Sixty lines, with both fonts embedded as a paper has them."""
    from reportlab.pdfgen.canvas import Canvas

    canvas = Canvas(io.BytesIO())
    for line in range(60):
        canvas.setFont(f"bare {FACES[line % 2]}", 9)
        canvas.drawString(60, 780 - 12 * line, f"line {line} of a page without anything else")
    canvas.save()
