"""Shapes of letters, against FreeType (through Pillow), which had no part in reading them."""

from __future__ import annotations

import re

import pytest
from PIL import ImageFont

from app.papers.fonts import FILES, FOLDER
from app.papers.plots.outlines import glyph_of, outlines_of

LETTERS = "Aag8%·üÅñçŽ€−"


def corners(path):
    """Left, bottom, right and top of what a path goes through; curves by many places on them."""
    xs, ys, here = [], [], (0.0, 0.0)
    for step, numbers in re.findall(r"([MLQ])([^MLQZ]*)", path):
        values = [float(number) for number in re.findall(r"-?[\d.]+", numbers)]
        end = (values[-2], values[-1])
        if step == "Q":
            for part in range(33):
                t = part / 32
                for axis, out in ((0, xs), (1, ys)):
                    out.append((1 - t) ** 2 * here[axis] + 2 * t * (1 - t) * values[axis] + t * t * end[axis])
        xs.append(end[0])
        ys.append(end[1])
        here = end
    return min(xs), min(ys), max(xs), max(ys)


@pytest.mark.parametrize("name", list(FILES))
@pytest.mark.parametrize("letter", LETTERS)
def test_a_letter_is_as_large_as_another_reader_of_the_font_finds_it(name, letter):
    outlines = outlines_of(name)
    font = ImageFont.truetype(FOLDER / FILES[name], outlines.units, layout_engine=ImageFont.Layout.BASIC)
    _, top, _, _ = font.getbbox(letter, anchor="ls")  # from the baseline, down; a pixel is a unit here
    across, high = font.getmask(letter).getbbox()[2:]
    left, low, right, up = corners(outlines.path(glyph_of(name, letter)))
    assert (low, up) == pytest.approx((-top - high, -top), abs=1)
    assert right - min(left, 0.0) == pytest.approx(across, abs=1)


def test_a_space_has_no_ink():
    assert outlines_of("Source Sans Pro").path(glyph_of("Source Sans Pro", " ")) == ""


@pytest.mark.parametrize("name", list(FILES))
def test_the_glyphs_of_the_family_can_be_read(name):
    outlines = outlines_of(name)
    for glyph in range(0, len(outlines.loca) - 1, 5):
        path = outlines.path(glyph)
        assert path == "" or (path.startswith("M") and path.endswith("Z"))
