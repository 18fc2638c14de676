"""The label inside the cover: what was changed, what it does, how to undo it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from tests.papers.conftest import pdf_of
from tests.papers.reading import letters, picture, whole
from tests.papers.story import LABEL

Press = Callable[..., bytes]


def test_it_says_what_factors_and_the_way_back() -> None:
    text = whole(pdf_of("modified label"))
    for words in (
        "Modified", "job 2131 · 24 Nov 2026", "R314: 5.6 Ω in place of 6.8 Ω, not the design:",
        "coil current × 1.214, coil heat × 1.474", "to undo: fit 6.8 Ω again; read drive and seek",
    ):  # fmt: skip
        assert words in text


def test_it_is_printed_in_one_colour() -> None:
    colours = picture(pdf_of("modified label"), 100).convert("RGB").getcolors(1 << 20)
    assert all(max(rgb) - min(rgb) < 12 for _, rgb in colours)


def test_each_of_its_parts_stays_however_long_another_is(press: Press) -> None:
    long = replace(LABEL, what="R314 and much more " * 20)
    pdf = press(long)
    text = whole(pdf)
    assert "…" in text
    assert "coil current × 1.214" in text
    assert "to undo: fit 6.8 Ω again" in text
    assert all(one.bottom < 36 and one.right < 70 for one in letters(pdf))
    undo = press(replace(LABEL, undo="back " * 60))
    assert "coil current × 1.214" in whole(undo)
    assert all(one.bottom < 36 for one in letters(undo))


def test_without_factors_or_way_back_nothing_is_said_of_them(press: Press) -> None:
    assert "to undo" not in whole(press(replace(LABEL, undo="", factors="")))
