"""Papers read back: text, places, sizes and pictures of a PDF, with a library that had no part in making it."""

from __future__ import annotations

import re
from typing import Any, NamedTuple

import pypdfium2
import pypdfium2.raw as pdfium

MM = 25.4 / 72


class Letter(NamedTuple):
    """One letter as printed: mm from the top left corner, size in points."""

    text: str
    left: float
    top: float
    right: float
    bottom: float
    size: float
    turned: bool


def texts(pdf: bytes) -> list[str]:
    """The text of every page, white space made single."""
    document = pypdfium2.PdfDocument(pdf)
    found = []
    for page in document:
        layer = page.get_textpage()
        found.append(plain(layer.get_text_range()))
        layer.close()
        page.close()
    document.close()
    return found


def whole(pdf: bytes) -> str:
    """The text of all pages."""
    return " ".join(texts(pdf))


def plain(text: str) -> str:
    """``text`` with every run of white space as one space."""
    return re.sub(r"[\s\u00a0\u202f\ufffe]+", " ", text).strip()


def without_spaces(text: str) -> str:
    """``text`` without white space: for words that were broken over lines."""
    return re.sub(r"[\s\u00a0\u202f\ufffe]+", "", text)


def letters(pdf: bytes, number: int = 0) -> list[Letter]:
    """Every printed letter of a page, white space left out."""
    document = pypdfium2.PdfDocument(pdf)
    page = document[number]
    height = page.get_height()
    layer = page.get_textpage()
    found = []
    for at in range(layer.count_chars()):
        code = pdfium.FPDFText_GetUnicode(layer, at)
        if chr(code).isspace() or pdfium.FPDFText_IsGenerated(layer, at) == 1:
            continue
        left, bottom, right, top = layer.get_charbox(at, loose=True)
        size = pdfium.FPDFText_GetFontSize(layer, at)
        turned = pdfium.FPDFText_GetCharAngle(layer, at) > 0.01
        found.append(
            Letter(
                chr(code), left * MM, (height - top) * MM, right * MM, (height - bottom) * MM, size, turned
            )
        )
    layer.close()
    page.close()
    document.close()
    return found


def collisions(pdf: bytes, number: int = 0) -> list[tuple[Letter, Letter]]:
    """Letters of a page that lie on another: something ran into its neighbour. Words laid across lie behind; the
    dots of an ellipsis are one sign, read as three of the same place."""
    placed = list(dict.fromkeys(one for one in letters(pdf, number) if not one.turned))
    tight = [(one.left + 0.25, one.top + 0.9, one.right - 0.25, one.bottom - 0.9) for one in placed]
    grid: dict[tuple[int, int], list[int]] = {}
    for at, (left, top, right, bottom) in enumerate(tight):
        for x in range(int(left // 8), int(right // 8) + 1):
            for y in range(int(top // 8), int(bottom // 8) + 1):
                grid.setdefault((x, y), []).append(at)
    found = []
    for cell in grid.values():
        for place, first in enumerate(cell):
            for second in cell[place + 1 :]:
                a, b = tight[first], tight[second]
                if not (a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]):
                    found.append((placed[first], placed[second]))
    return found


def right_edges(pdf: bytes, words: str, number: int = 0) -> list[float]:
    """Right edges in mm of every place where ``words`` stands, tight around the ink."""
    document = pypdfium2.PdfDocument(pdf)
    page = document[number]
    layer = page.get_textpage()
    searcher = layer.search(words, match_case=True)
    found = []
    while place := searcher.get_next():
        start, count = place
        found.append(max(layer.get_charbox(at)[2] for at in range(start, start + count)) * MM)
    searcher.close()
    layer.close()
    page.close()
    document.close()
    return found


def sizes(pdf: bytes) -> list[tuple[float, float]]:
    """Width and height of every page in mm (MediaBox)."""
    document = pypdfium2.PdfDocument(pdf)
    found = [(page.get_width() * MM, page.get_height() * MM) for page in document]
    document.close()
    return found


def picture(pdf: bytes, dpi: float, number: int = 0, *, grey: bool = False) -> Any:
    """A page as a PIL picture."""
    document = pypdfium2.PdfDocument(pdf)
    page = document[number]
    image = page.render(scale=dpi / 72, grayscale=grey).to_pil()
    page.close()
    document.close()
    return image
