"""Returned unrepaired and unsafe: nothing may be missing, and the warning is the largest thing on the sheet."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from app.papers.facts import PaperSize, Sign
from tests.papers.conftest import pdf_of
from tests.papers.reading import letters, picture, sizes, texts, whole, without_spaces
from tests.papers.story import SHEET, UNSAFE

Press = Callable[..., bytes]


@pytest.mark.parametrize("letter", [False, True])
def test_every_part_stands_on_one_sheet(letter: bool) -> None:
    (text,) = texts(pdf_of("unsafe", letter))
    for words in (
        "Returned unrepaired and unsafe", "job 2119 · 26 November 2026", "Do not use", "Do not plug it in",
        "can start a fire", "What is unsafe", "Stop. Fuse F1 (mains side): maker T 315 mA, 250 V; found bridged",
        "Not measured", "What has to happen first", "That law comes first.", "Zindermoor Zelkova 9", "Z 07 331",
        "Murn A7 no. 60 214", "class I", "Wilma Achterberg", "repair and test, 148.75 EUR", "declined",
        "26 Nov 2026, by telephone (Mirr Quistan)", "“It is her player.", "Ine Varloes, owner, 26 November 2026, 17:25",
        "The stop stays open on this player.", "I was told what is unsafe.", "fees only: 45.00 EUR with VAT.",
        "customer: signature", "owner: signature", "Plug tag:", "Do not plug in", "Fuse bridged with foil.",
        "Job 2119", "Take this tag off only after the repair and a passed safety test.",
        "one sheet for you, one signed sheet for the shop",
    ):  # fmt: skip
        assert words in text


def test_the_warning_is_larger_than_anything_else() -> None:
    by_size = sorted(letters(pdf_of("unsafe")), key=lambda one: -one.size)
    assert "".join(one.text for one in by_size[:8]) == "Donotuse"
    assert by_size[0].size == pytest.approx(50, abs=0.5)


def test_the_plug_tag_names_nobody() -> None:
    tag = "".join(one.text for one in letters(pdf_of("unsafe")) if 246 < one.top < 286)
    assert "Job2119" in tag
    for private in ("Achterberg", "Varloes", "Quistan"):
        assert private not in tag


def test_the_plug_tag_prints_alone() -> None:
    from app.papers.unsafe_return import plug_tag
    from tests.papers.story import ENGLISH

    pdf = plug_tag(UNSAFE, ENGLISH)
    assert sizes(pdf) == [pytest.approx((178, 40), abs=0.1)]
    assert "Do not use" in whole(pdf)
    long = replace(UNSAFE, tag_risk="Risk of fire and shock. " * 30)
    found = letters(plug_tag(long, ENGLISH))
    assert max(one.bottom for one in found) < 40


def test_no_fee_is_said_too(press: Press) -> None:
    assert "Nothing is charged." in whole(press(replace(UNSAFE, fee=None)))


@pytest.mark.parametrize("size", list(PaperSize))
def test_long_reasons_flow_on_and_the_tag_closes_the_last_page(press: Press, size: PaperSize) -> None:
    reason = "Because of this and that, " * 90 + "so it goes."
    facts = replace(UNSAFE, owner_reason=reason, unsafe=UNSAFE.unsafe * 3, sheet=replace(SHEET, size=size))
    pages = texts(press(facts))
    assert len(pages) > 1
    assert without_spaces(reason) in without_spaces(" ".join(pages).replace("page 1 of 2", ""))
    assert "Plug tag:" in pages[-1]
    assert "Plug tag:" not in pages[0]
    assert "page 1 of 2" in pages[0]


def test_the_safety_signs_given_are_drawn_and_no_other(press: Press) -> None:
    def yellow_and_blue(signs: tuple[Sign, ...]) -> tuple[bool, bool]:
        colours = picture(press(replace(UNSAFE, signs=signs)), 60).convert("RGB").getcolors(1 << 20)
        yellow = sum(count for count, (r, g, b) in colours if r > 230 and 180 < g < 225 and b < 80)
        blue = sum(count for count, (r, g, b) in colours if r < 40 and 40 < g < 90 and b > 110)
        return yellow > 20, blue > 20

    assert yellow_and_blue((Sign.GENERAL, Sign.ELECTRIC, Sign.PLUG)) == (True, True)
    assert yellow_and_blue((Sign.GENERAL,)) == (True, False)
    assert yellow_and_blue(()) == (False, False)
    assert yellow_and_blue(tuple(Sign)) == (True, True)
