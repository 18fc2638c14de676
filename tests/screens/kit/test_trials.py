"""The trial strip: one tile a change, the newest in sight."""

from __future__ import annotations

import itertools
from dataclasses import replace
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from pytestqt.qtbot import QtBot

from app.screens.kit.measure import px
from app.screens.kit.palette import LIGHT
from app.screens.kit.trials import TrialFacts, TrialReading, TrialStrip, TrialTile

FACTS = TrialFacts(
    "Trial 4", "14:30", "R314 replaced, 6.8 by 5.6 Ω", "better", "better",
    (TrialReading("seek time", "4.7", "1.3", "s"), TrialReading("rung", "10", "12", "of 12")),
    "left inside: a modification, agreed by telephone 24 Nov", key=4,
)  # fmt: skip


def strip_of(qtbot: QtBot, count: int, width: int = 1186) -> TrialStrip:
    strip = TrialStrip()
    qtbot.addWidget(strip)
    strip.set_trials([replace(FACTS, title=f"Trial {i}", key=i) for i in range(1, count + 1)])
    strip.resize(width, strip.sizeHint().height())
    strip.show()
    return strip


def test_a_tile_is_heard_in_words(qtbot: QtBot) -> None:
    tile = TrialTile(FACTS)
    qtbot.addWidget(tile)
    assert tile.accessibleName() == (
        "Trial 4, 14:30. R314 replaced, 6.8 by 5.6 Ω. seek time 4.7 then 1.3 s; rung 10 then 12 of 12. better. "
        "left inside: a modification, agreed by telephone 24 Nov"
    )


def test_a_change_that_stays_inside_is_marked_whatever_it_did(qtbot: QtBot) -> None:
    for outcome in ("cured", "better", "none", "worse"):
        tile = TrialTile(replace(FACTS, outcome=outcome, stays=True))
        qtbot.addWidget(tile)
        tile.resize(286, px(180))
        assert tile.grab().toImage().pixelColor(143, 100) == QColor(LIGHT.tint)
        assert tile.grab().toImage().pixelColor(0, 100) == QColor(LIGHT.accent)
    plain = TrialTile(replace(FACTS, outcome="none"))
    qtbot.addWidget(plain)
    plain.resize(286, px(180))
    assert plain.grab().toImage().pixelColor(143, 100) == QColor(LIGHT.alternate)


def test_a_struck_tile_tells_why(qtbot: QtBot) -> None:
    tile = TrialTile(replace(FACTS, struck="struck out 10:51, Tobbe Ruskamp: wrong unit"))
    qtbot.addWidget(tile)
    tile.resize(286, px(180))
    assert "struck out" in tile.accessibleName()
    tile.grab()


def test_what_is_cut_short_on_a_tile_is_told_by_its_tip(qtbot: QtBot) -> None:
    tile = TrialTile(replace(FACTS, struck="struck out 14:40, Tobbe Ruskamp: the wrong player, see job 2140"))
    qtbot.addWidget(tile)
    for whole in (FACTS.change, FACTS.fate, "the wrong player, see job 2140"):
        assert whole in tile.toolTip()


def test_tiles_open_by_click_and_by_enter_and_arrows_walk(qtbot: QtBot) -> None:
    strip = strip_of(qtbot, 3)
    opened: list[Any] = []
    strip.opened.connect(opened.append)
    strip.activateWindow()
    qtbot.waitUntil(strip.isActiveWindow)
    first, second, _ = strip.findChildren(TrialTile)
    qtbot.mouseClick(second, Qt.MouseButton.LeftButton)
    first.setFocus()
    qtbot.keyClick(first, Qt.Key.Key_Return)
    qtbot.keyClick(first, Qt.Key.Key_Right)
    assert second.hasFocus()
    qtbot.keyClick(second, Qt.Key.Key_Left)
    assert first.hasFocus()
    first.grab()
    assert opened == [2, 1]


def test_more_than_fit_scroll_with_the_newest_in_sight(qtbot: QtBot) -> None:
    strip = strip_of(qtbot, 9)
    tiles = strip.findChildren(TrialTile)
    assert all(tile.width() >= px(230) for tile in tiles)
    last = tiles[-1]
    assert strip.rect().contains(last.mapTo(strip, last.rect().center()))


@pytest.mark.parametrize("count", [1, 2, 4])
def test_tiles_are_of_equal_width_and_do_not_overlap(qtbot: QtBot, count: int) -> None:
    strip = strip_of(qtbot, count)
    tiles = strip.findChildren(TrialTile)
    assert len({tile.width() for tile in tiles}) == 1
    for a, b in itertools.pairwise(tiles):
        assert b.x() - (a.x() + a.width()) >= px(12)


def test_narrow_puts_two_in_a_row(qtbot: QtBot) -> None:
    strip = strip_of(qtbot, 3, 700)
    strip.set_narrow(True)
    strip.resize(700, strip.sizeHint().height())
    a, b, c = strip.findChildren(TrialTile)
    assert a.y() == b.y() < c.y()
    assert strip.rect().contains(c.mapTo(strip, c.rect().bottomRight()))


def test_no_trials_take_no_room(qtbot: QtBot) -> None:
    strip = strip_of(qtbot, 2)
    strip.set_trials([])
    strip.refit()
    assert strip.sizeHint().height() == 0


def test_a_tile_put_back_has_a_broken_outline_and_says_what_the_book_made_of_it(qtbot: QtBot) -> None:
    tile = TrialTile(replace(FACTS, put_back=True, book="none", book_words="the book: no difference"))
    qtbot.addWidget(tile)
    tile.resize(286, px(180))
    image = tile.grab().toImage()
    left = {image.pixelColor(0, y).name() for y in range(20, 160)}
    assert len(left) > 1
    assert "the book: no difference" in tile.accessibleName()
    bare = TrialTile(replace(FACTS, put_back=True))
    qtbot.addWidget(bare)
    bare.resize(286, px(180))
    assert bare.grab().toImage() != image
    bare.facts = replace(
        FACTS, put_back=True, book="none", outcome_word="a very long word for an outcome indeed"
    )
    tile.facts = replace(bare.facts, book="")
    assert bare.grab().toImage() == tile.grab().toImage()  # no room: the tooltip still has it
