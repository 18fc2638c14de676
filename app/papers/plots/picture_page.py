"""A picture as a file of its own: one PDF page as high as it needs, the same as SVG, and as PNG."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import cast

from reportlab.pdfgen.canvas import Canvas

from app.papers.blocks import Block
from app.papers.pdfium import PDFIUM
from app.papers.pen import LABEL, Pen, open_canvas
from app.papers.plots.picture_blocks import picture_blocks
from app.papers.plots.svg_canvas import SvgCanvas
from app.papers.text import BODY, TITLE, set_text
from app.trade.statistics.picture import Picture, marks_of
from app.trade.wording import Wording

WIDTH, MARGIN = 180.0, 10.0
BETWEEN = 6.0
DOTS = 200  # to the inch, of a PNG
MOST_DOTS = 16_000  # of a side; a higher picture is made with fewer to the inch


def picture_pdf(picture: Picture, wording: Wording, asked: Sequence[str] = ()) -> bytes:
    """The PDF of a picture under its headline; ``asked`` says of which jobs it is."""
    blocks = _blocks(picture, wording, asked)
    width, height = _size(blocks)
    buffer = io.BytesIO()
    canvas = open_canvas(buffer, width, height, wording(picture.title), "", wording.locale)
    _draw(blocks, Pen(canvas, width, height))
    canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def picture_svg(picture: Picture, wording: Wording, asked: Sequence[str] = ()) -> bytes:
    """The same as SVG, with what every mark tells as its description."""
    blocks = _blocks(picture, wording, asked)
    width, height = _size(blocks)
    canvas = SvgCanvas(width, height)
    _draw(blocks, Pen(cast(Canvas, canvas), width, height))
    return canvas.document(wording(picture.title), told(picture, wording), wording.language)


def picture_png(picture: Picture, wording: Wording, asked: Sequence[str] = ()) -> bytes:
    """The same as PNG, from the PDF."""
    import pypdfium2

    pdf, buffer = picture_pdf(picture, wording, asked), io.BytesIO()
    with PDFIUM:
        document = pypdfium2.PdfDocument(pdf)
        try:
            page = document[0]
            scale = min(DOTS / 72, MOST_DOTS / max(page.get_size()))
            bitmap = page.render(scale=scale)
            bitmap.to_pil().save(buffer, "PNG", dpi=(round(scale * 72), round(scale * 72)))
            bitmap.close()
            page.close()
        finally:
            document.close()
    return buffer.getvalue()


def told(picture: Picture, wording: Wording) -> list[str]:
    """What is said of each mark, panel by panel."""
    said = []
    for panel in picture.panels:
        said.append(f"{wording(panel.title)}:")
        said += [wording(mark.told) for mark in marks_of(panel)]
    return said


def _blocks(picture: Picture, wording: Wording, asked: Sequence[str]) -> list[tuple[float, Block]]:
    """Blocks with the room above each."""
    across = WIDTH - 2 * MARGIN
    blocks: list[tuple[float, Block]] = [(0.0, set_text(wording(picture.title), TITLE, across))]
    if asked:
        blocks.append((1.0, set_text(" · ".join(asked), BODY.but(ink=LABEL), across)))
    return [*blocks, *((BETWEEN, block) for block in picture_blocks(picture, across, wording))]


def _size(blocks: Sequence[tuple[float, Block]]) -> tuple[float, float]:
    return WIDTH, 2 * MARGIN + sum(above + block.height for above, block in blocks)


def _draw(blocks: Sequence[tuple[float, Block]], pen: Pen) -> None:
    pen.block(0, 0, pen.width, pen.height, 1.0)  # a picture stands on white, wherever it is laid
    top = MARGIN
    for above, block in blocks:
        block.draw(pen, MARGIN, top + above)
        top += above + block.height
