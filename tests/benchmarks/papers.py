"""An invoice as PDF, against a plain page of the same words in the same fonts."""

from __future__ import annotations

import io
from pathlib import Path

from app.papers.press import printed
from tests.benchmarks.measure import Budget, Measured, by_turns
from tests.papers.story import ENGLISH, INVOICE

FONTS = Path(__file__).resolve().parents[2] / "assets" / "fonts"
FACES = ("SourceSansPro-Regular", "SourceSansPro-Semibold")


def papers() -> list[Measured]:
    """One line."""
    _register()
    ours, floor = by_turns(lambda: printed(INVOICE, ENGLISH), _plain_page, 25)
    return [
        Measured(
            "one invoice PDF, warm",
            ours,
            floor,
            "a plain reportlab page, two fonts in it",
            Budget(60, floor=4.7),
        )
    ]


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
