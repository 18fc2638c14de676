"""Every letter finds a font that has it; the one no font has gets a visible stand-in, never an empty box."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.pdfbase import pdfmetrics

from app.papers.fonts import FILES, FOLDER, STAND_IN, cleaned, face, pieces, width

COMMON = "…–—‘’“”„‚«»‹›·×÷±≤≥≈→←✓°µΩ²³€£$¥§†‡•−\u202f\u00a0"


@pytest.mark.parametrize("bold", [False, True])
def test_letters_of_european_languages_need_no_second_font(bold: bool) -> None:
    latin = "".join(chr(code) for code in range(0x100, 0x17F))
    greek, cyrillic = "ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩάέήίόύώϊϋς", "АБВГДЕЖЗИЙКЛМНОПРСТУФХЦЧШЩЪЫЬЭЮЯіїєґўђћ"
    for letter in latin + greek + cyrillic + COMMON:
        ((used, _, _),) = pieces(cleaned(letter), bold)
        assert used.startswith("Source Sans Pro"), letter


def test_figures_are_all_of_one_width() -> None:
    """Columns align because the figures of the chosen font are tabular by default."""
    for bold in (False, True):
        assert len({width(figure, bold) for figure in "0123456789"}) == 1


@pytest.mark.parametrize("letter", ["○", "●", "\u2011", "ſ", "א", "ب", "\U0001f600"])
def test_a_letter_that_the_first_font_lacks_comes_from_the_second(letter: str) -> None:
    ((used, text, _),) = pieces(letter, False)
    assert (used, text) == ("DejaVu Sans", letter)


@pytest.mark.parametrize("letter", ["中", "\U0001f642", "\ue000", "\ud83d"])
def test_a_letter_that_no_font_has_is_drawn_as_the_stand_in_and_stays_itself(letter: str) -> None:
    ((used, text, across),) = pieces(letter, False)
    assert text == letter
    assert across == face(used).widths[STAND_IN] > 0
    font: Any = pdfmetrics.getFont(used).face
    assert font.charToGlyph[ord(letter)] == font.charToGlyph[STAND_IN] != 0


@given(st.text(max_size=80), st.booleans())
def test_whatever_is_typed_every_letter_has_a_shape(text: str, bold: bool) -> None:
    for line in cleaned(text).replace("\u200b", "").split("\n"):
        for used, letters, _ in pieces(line, bold):
            font: Any = pdfmetrics.getFont(used).face
            assert all(font.charToGlyph.get(ord(letter)) for letter in letters)


def test_a_space_that_the_font_lacks_is_a_space() -> None:
    ((used, text, _),) = pieces("\u2009", False)
    assert (used, text) == ("Source Sans Pro", " ")


def test_the_fonts_come_with_their_licences() -> None:
    assert "SIL Open Font License" in (FOLDER / "SourceSansPro-LICENSE.txt").read_text(encoding="utf-8")
    assert "bitstream-vera" in (FOLDER / "DejaVuSans-LICENSE.txt").read_text(encoding="utf-8")
    for name in FILES.values():
        assert (FOLDER / name).stat().st_size > 200_000


def test_source_sans_is_shipped_as_its_makers_published_it() -> None:
    """OFL 1.1 reserves the name "Source": the files are those of the package, byte for byte."""
    package = pytest.importorskip("font_source_sans_pro")
    published = Path(package.__file__).parent / "files"
    for name in ("SourceSansPro-Regular.ttf", "SourceSansPro-Semibold.ttf"):
        assert (FOLDER / name).read_bytes() == (published / name).read_bytes()
