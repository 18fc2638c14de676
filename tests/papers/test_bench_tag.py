"""The bench tag: number, worst flag, player and fault at a glance, on a roll or a small label."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from app.papers.facts import Flag, FlagLevel, Player, TagSize
from app.trade.sentence import Sentence
from tests.papers.conftest import pdf_of
from tests.papers.reading import letters, sizes, whole
from tests.papers.story import COIL_UP, DISC_INSIDE, SMALL_TAG, TAG

Press = Callable[..., bytes]
STOP = Flag(FlagLevel.STOP, Sentence("Fuse bridged."), Sentence("Fuse"))


def test_the_roll_says_what_the_bench_needs() -> None:
    text = whole(pdf_of("roll tag"))
    for words in (
        "2131", "Quellmar Larch 2", "serial … 0158 · Velk A1", "Hangs, then stops", "Caution. A disc",
        "in 19 Nov 2026", "promised Fri 27 Nov", "shelf B 3", "limit 220.00 EUR", "J2131",
    ):  # fmt: skip
        assert words in text


def test_the_small_label_says_it_in_fewer_words() -> None:
    text = whole(pdf_of("small tag"))
    for words in ("2131", "Disc inside", "Quellmar Larch 2 · … 0158", "in 19 Nov · shelf B 3", "Velk A1"):
        assert words in text


def test_the_worst_flag_prints_alone(press: Press) -> None:
    for facts in (TAG, SMALL_TAG):
        text = whole(press(replace(facts, flags=(DISC_INSIDE, STOP, COIL_UP))))
        assert "Fuse" in text
        assert "isc" not in text.replace("Disc player", "")


def test_without_short_words_the_level_is_named(press: Press) -> None:
    text = whole(press(replace(SMALL_TAG, flags=(Flag(FlagLevel.STOP, "Fuse bridged."),))))
    assert "Stop" in text
    assert "Fuse" not in text


def test_the_number_is_the_largest_thing(press: Press) -> None:
    for facts, size in ((TAG, 50), (SMALL_TAG, 38)):
        largest = max(letters(press(facts)), key=lambda one: one.size)
        assert round(largest.size) == size
        assert largest.text in "2131"


def test_a_number_of_six_figures_stays_clear_of_the_code(press: Press) -> None:
    for facts, edge in ((TAG, 62 - 3.5 - 14.7 - 2.8), (SMALL_TAG, 70 - 3 - 12.6 - 2.4)):
        figures = [one for one in letters(press(replace(facts, job=987654))) if one.size > 20]
        assert len(figures) == 6
        assert max(one.right for one in figures) <= edge + 0.3


def test_long_texts_are_shortened_and_stay_on_the_label(press: Press) -> None:
    player = Player("Quellmar " + "very long " * 30, "", transport_type="Velk " * 20)
    for facts in (TAG, SMALL_TAG):
        long = replace(
            facts, player=player, fault="Because " * 200, shelf="shelf " * 20, promised=None, limit=None
        )
        pdf = press(replace(long, flags=(COIL_UP,)))
        ((width, height),) = sizes(pdf)
        assert all(one.left > 0 and one.right < width and one.bottom < height for one in letters(pdf))
        assert "no serial" in whole(pdf) or facts is SMALL_TAG
        assert "…" in whole(pdf)


def test_a_tag_without_flag_shelf_or_promise_is_short(press: Press) -> None:
    bare = replace(TAG, flags=(), shelf="", promised=None, limit=None)
    pdf = press(bare)
    assert sizes(pdf)[0][1] < sizes(pdf_of("roll tag"))[0][1]
    assert "no limit: ask" in whole(pdf)
    assert "Caution" not in whole(press(replace(bare, size=TagSize.SHEET_70X36)))
