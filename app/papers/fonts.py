"""The fonts of papers: Source Sans Pro, with DejaVu Sans for the letters that it lacks. No box is ever printed."""

from __future__ import annotations

import re
import threading
import unicodedata
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any, NamedTuple

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

FOLDER = Path(__file__).parents[2] / "assets" / "fonts"
FILES = {
    "Source Sans Pro": "SourceSansPro-Regular.ttf",
    "Source Sans Pro Semibold": "SourceSansPro-Semibold.ttf",
    "DejaVu Sans": "DejaVuSans.ttf",
    "DejaVu Sans Bold": "DejaVuSans-Bold.ttf",
}
FIRST_FONT = "Source Sans Pro"
STAND_IN = 0xFFFD  # drawn for a letter that no font has; the text layer still holds the letter itself
_CHAIN = (("Source Sans Pro", "DejaVu Sans"), ("Source Sans Pro Semibold", "DejaVu Sans Bold"))
_font_files = threading.Lock()  # the library reads a font by one place in its file, shared by all threads


class PaperFont(TTFont):
    """A TrueType font whose text layer also holds letters above U+FFFF, as pairs of surrogates."""

    def addObjects(self, doc: Any) -> None:  # noqa: N802  (the library's name)
        """Writes the font, then mends its map of codes to letters."""
        with _font_files:
            super().addObjects(doc)
        for name, stream in doc.idToObject.items():
            if name.startswith("toUnicodeCMap:"):
                stream.content = re.sub(r"<([0-9A-F]{5,6})>", _surrogates, stream.content)


def _surrogates(match: re.Match[str]) -> str:
    return f"<{chr(int(match[1], 16)).encode('utf-16-be').hex().upper()}>"


@dataclass(frozen=True, slots=True)
class Face:
    """One font as registered: the letters it has, with their widths in thousandths of the size."""

    name: str
    widths: dict[int, float]

    def width(self, text: str) -> float:
        """Width of ``text``, every letter of which the face has, in thousandths of the size."""
        widths = self.widths
        return sum([widths[ord(char)] for char in text])


class Piece(NamedTuple):
    """Letters in one face, with their width in thousandths of the size."""

    face: str
    text: str
    width: float


@lru_cache(maxsize=len(FILES))
def face(name: str) -> Face:
    """The named face, read and registered on first use."""
    with _font_files:
        if name not in pdfmetrics.getRegisteredFontNames():
            pdfmetrics.registerFont(PaperFont(name, str(FOLDER / FILES[name])))
        font: Any = pdfmetrics.getFont(name).face  # type: ignore[attr-defined]  # a TTFont
        usual = font.defaultWidth
        glyphs = font.charToGlyph.items()
        return Face(name, {code: font.charWidths.get(code, usual) for code, glyph in glyphs if glyph})


def cleaned(text: str) -> str:
    """``text`` composed (NFC), without signs that have no ink: controls, joiners, direction marks, selectors."""
    if text.isascii() and text.isprintable():
        return text
    text = unicodedata.normalize("NFC", text.replace("\r\n", "\n").replace("\r", "\n"))
    return "".join(char for char in text.expandtabs(4) if char in "\n\u200b" or not _inkless(char))


def _inkless(char: str) -> bool:
    code = ord(char)
    return (
        unicodedata.category(char) in ("Cc", "Cf")
        or 0xFE00 <= code <= 0xFE0F
        or 0xE0100 <= code <= 0xE01EF
        or char == "\u034f"
    )


@lru_cache(maxsize=8192)
def pieces(text: str, bold: bool) -> tuple[Piece, ...]:
    """Cleaned ``text`` of one line in the faces that have its letters."""
    main, spare = _CHAIN[bold]
    first = face(main)
    if all(ord(char) in first.widths for char in text):
        return (Piece(main, text, first.width(text)),) if text else ()
    out: list[Piece] = []
    for char in text:
        name, shown = main, char
        if ord(char) not in first.widths:
            if unicodedata.category(char) == "Zs":
                shown = " "
            else:
                name = spare
                _lend_a_shape(spare, ord(char))
        across = face(name).width(shown)
        if out and out[-1].face == name:
            out[-1] = Piece(name, out[-1].text + shown, out[-1].width + across)
        else:
            out.append(Piece(name, shown, across))
    return tuple(out)


def _lend_a_shape(name: str, code: int) -> None:
    """Gives a letter that the last font lacks the shape of the stand-in, so that no empty box is drawn."""
    spare = face(name)
    if code not in spare.widths:
        font: Any = pdfmetrics.getFont(name).face  # type: ignore[attr-defined]  # a TTFont
        font.charToGlyph[code] = font.charToGlyph[STAND_IN]
        font.charWidths[code] = spare.widths[code] = spare.widths[STAND_IN]


def width(text: str, bold: bool) -> float:
    """Width of cleaned ``text`` on one line, in thousandths of the size."""
    return sum([piece.width for piece in pieces(text, bold)])
