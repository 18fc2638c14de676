"""Pictures as files: nothing runs over another or over the edge, nothing is too small, every name can be read."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import UTC
from xml.etree import ElementTree as ET

import pytest
from PIL import Image

from app.papers.plots import picture_page
from app.papers.plots.picture_page import MARGIN, WIDTH, picture_pdf, picture_png, picture_svg
from app.trade.sentence import Sentence
from app.trade.statistics.picture import Ink
from app.trade.wording import plain
from tests.papers.plots.panels import (
    HEBREW,
    LONG,
    bars,
    course,
    curves,
    grid,
    pareto,
    picture,
    rates,
)
from tests.papers.reading import collisions, letters, sizes, whole, without_spaces
from tests.papers.story import LONG_WORDS as GERMAN

WORDS = plain(UTC)
SVG = "{http://www.w3.org/2000/svg}"
PICTURES = {
    "one bar": (bars(1),),
    "forty bars": (rates(40),),
    "long names": (rates(4, (LONG, "x" * 300, HEBREW)), bars(2, (LONG,)), bars(3, ("y" * 300,))),
    "pareto": (pareto(), pareto(14), pareto(1)),
    "one curve": (curves(1),),
    "two curves and a window": (curves(2, guide=180.0, guide_name=Sentence("180 days")),),
    "six curves with long names": (
        curves(6, (LONG, HEBREW, "z" * 300), guide=350.0, guide_name=Sentence("350 days")),
    ),
    "curves with a key": (curves(8, at_risk=False), curves(2, (LONG, LONG), at_risk=False)),
    "a course": (course(1, 12, limits=True, centre=0.15, centre_name=Sentence("all together: 15 %")),),
    "courses": (
        course(4, 3),
        course(2, 104),
        course(1, 1),
        course(1, 200, inks=(Ink.MORE, Ink.LESS, Ink.FAINT)),
    ),
    "grids": (grid(), grid(12, 10), grid(1, 1), grid(3, 4, (LONG, HEBREW))),
}


@pytest.mark.parametrize("name", list(PICTURES))
@pytest.mark.parametrize("wording", [WORDS, GERMAN], ids=["en", "de"])
def test_nothing_runs_over_another_or_over_the_edge_and_nothing_is_too_small(name, wording):
    pdf = picture_pdf(picture(*PICTURES[name]), wording, ("handed back at any time", LONG))
    ((width, height),) = sizes(pdf)
    assert width == pytest.approx(WIDTH, abs=0.1)
    placed = letters(pdf)
    assert min(letter.left for letter in placed) > MARGIN - 1
    assert max(letter.right for letter in placed) < WIDTH - MARGIN + 1
    assert max(letter.bottom for letter in placed) < height - MARGIN + 2
    assert min(letter.size for letter in placed) >= 9
    assert collisions(pdf) == []


def test_names_numbers_and_keys_can_be_read():
    said = whole(picture_pdf(picture(rates(4), curves(3), grid(2, 2)), WORDS))
    for words in (
        "One transport type comes back more often",
        "Came back within 180 days",
        "Velk A0",
        "0 of 50",
        "95 % interval",
        "all the others together",
        "more than the others",
        "less than the others",
        "rests on few",
        "Grellin S2",
        "still watched",
        "1 200",
        "cure 1 renewed",
        "11 rung",
    ):
        assert words in said


def test_right_to_left_names_keep_all_their_letters():
    said = without_spaces(whole(picture_pdf(picture(bars(1, (HEBREW,))), WORDS)))
    assert all(letter in said for letter in HEBREW if not letter.isspace())


def test_fonts_are_the_family_and_inside():
    pdf = picture_pdf(picture(rates(4)), WORDS)
    assert b"SourceSansPro" in pdf
    assert b"Helvetica" not in pdf


def test_equal_pictures_give_equal_bytes():
    shown = picture(rates(4), curves(2))
    assert picture_pdf(shown, WORDS) == picture_pdf(shown, WORDS)
    assert picture_svg(shown, WORDS) == picture_svg(shown, WORDS)


def test_without_colour_nothing_is_lost():
    """Fills differ in grey by a tenth at least: dark, light, open (and hatched, by its strokes)."""
    image = Image.open(io.BytesIO(picture_png(picture(rates(4)), WORDS))).convert("L")
    shades = {shade for _, shade in image.getcolors() if _ > 400}
    assert len({shade // 25 for shade in shades}) >= 3


def test_a_png_has_200_dots_to_the_inch_and_fewer_where_it_would_be_too_high(monkeypatch):
    shown = picture(bars(3))
    image = Image.open(io.BytesIO(picture_png(shown, WORDS)))
    assert image.width == pytest.approx(WIDTH / 25.4 * 200, abs=2)
    assert image.info["dpi"][0] == pytest.approx(200, abs=1)
    monkeypatch.setattr(picture_page, "MOST_DOTS", 500)
    assert max(Image.open(io.BytesIO(picture_png(shown, WORDS))).size) == 500


def test_the_svg_says_its_words_tells_every_mark_and_needs_no_font():
    shown = picture(rates(4, ("A & <b>B</b>", HEBREW)), grid(2, 2))
    data = picture_svg(shown, WORDS, ("\x0bfrom & to",))
    root = ET.fromstring(data)
    words = [node.get("aria-label") for node in root.iter(f"{SVG}g") if node.get("aria-label")]
    assert "A & <b>B</b>" in words
    assert root.find(f"{SVG}title").text == "One transport type comes back more often than the rest"
    assert root.find(f"{SVG}desc").text.count("A mark.") == 6
    assert root.get("{http://www.w3.org/XML/1998/namespace}lang") == "en"
    assert float(root.get("width").removesuffix("mm")) == WIDTH
    assert b"font-family" not in data
    glyphs = {f"#{node.get('id')}" for node in root.find(f"{SVG}defs")}
    used = {node.get("{http://www.w3.org/1999/xlink}href") for node in root.iter(f"{SVG}use")}
    assert used == glyphs


def test_bars_without_a_value_stand_by_their_name_only():
    panel = bars(2)
    panel = replace(panel, bars=(panel.bars[0], replace(panel.bars[1], value=None, beside=None)))
    assert "Velk A1" in whole(picture_pdf(picture(panel), WORDS))


def test_a_picture_of_nothing_is_its_headline():
    assert "One transport type" in whole(picture_pdf(picture(), WORDS))
