"""A reprint is the filed PDF with "copy" laid over every page; nothing else on the page changes."""

from __future__ import annotations

import io

import pypdfium2

from app.papers.pdfium import PDFIUM
from app.papers.pen import POINT, Pen, open_canvas
from app.papers.sheet import lay_across
from app.trade.wording import Wording

SEEN_THROUGH = 0.14


def stamp_copy(pdf: bytes, wording: Wording) -> bytes:
    """The filed ``pdf`` with the word for copy over each page, text still legible below it."""
    with PDFIUM:
        document = pypdfium2.PdfDocument(pdf)
        try:
            for number in range(len(document)):
                page = document[number]
                width, height = page.get_size()
                stamp = pypdfium2.PdfDocument(_stamp(width, height, wording))
                form = stamp.page_as_xobject(0, document)
                page.insert_obj(form.as_pageobject())
                page.gen_content()
                form.close()
                stamp.close()
                page.close()
            out = io.BytesIO()
            document.save(out)
        finally:
            document.close()
    return out.getvalue()


def _stamp(width: float, height: float, wording: Wording) -> bytes:
    """A page of ``width`` by ``height`` points with nothing but the word."""
    buffer = io.BytesIO()
    word = wording("copy")
    canvas = open_canvas(buffer, width * POINT, height * POINT, word, "", wording.locale)
    canvas.setFillAlpha(SEEN_THROUGH)
    lay_across(Pen(canvas, width * POINT, height * POINT), word, 0.3)
    canvas.showPage()
    canvas.save()
    return buffer.getvalue()
