"""The pages of a PDF as PNG pictures: to look at, where no PDF can be shown."""

from __future__ import annotations

import io

import pypdfium2

from app.papers.pdfium import PDFIUM

DOTS_AN_INCH, POINTS_AN_INCH = 150, 72


def page_pictures(pdf: bytes) -> tuple[bytes, ...]:
    """Every page in order, as PNG with 150 dots to the inch."""
    pictures = []
    with PDFIUM:
        document = pypdfium2.PdfDocument(pdf)
        try:
            for number in range(len(document)):
                page = document[number]
                out = io.BytesIO()
                image = page.render(scale=DOTS_AN_INCH / POINTS_AN_INCH).to_pil()
                image.save(out, "PNG", dpi=(DOTS_AN_INCH, DOTS_AN_INCH))
                pictures.append(out.getvalue())
                page.close()
        finally:
            document.close()
    return tuple(pictures)
