"""Grids: fields by their place, heads that are never clipped, keys over gaps."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor
from pytestqt.qtbot import QtBot

from app.screens.kit.palette import DARK, LIGHT, Inks
from app.screens.kit.plots.grid import DARKEST, GridView
from app.trade.sentence import Sentence
from app.trade.statistics.picture import Grid
from tests.screens.kit.plots.conftest import GRID, Shown


def drawn(shown: Shown, panel: Grid = GRID, width: int = 838) -> GridView:
    view = shown(panel, width)
    assert isinstance(view, GridView)
    return view


def luminance(colour: QColor) -> float:
    """WCAG 2.1, relative luminance, from memory."""
    parts = [c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in colour.getRgbF()[:3]]
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


def test_the_keys_go_by_rows_and_pass_over_empty_places(qtbot: QtBot, shown: Shown) -> None:
    view = drawn(shown)
    assert [mark.told for mark in view.marks()] == ["nine", "none", "two"]
    assert [mark.key for mark in view.marks()] == ["0.0", "0.2", "1.0"]
    view.mark(0)
    qtbot.keyClick(view, Qt.Key.Key_Right)
    assert view.at == 1
    qtbot.keyClick(view, Qt.Key.Key_Down)
    assert view.at == 2
    assert view.marks()[2].name == "4 spindle, lens cleaned"


def test_a_field_is_the_darker_the_more_it_counts(shown: Shown) -> None:
    image = drawn(shown).grab().toImage()
    view = drawn(shown)
    light = [
        image.pixelColor(spot.rect.topLeft().toPoint() + QPointF(4, 4).toPoint()).lightness()
        for spot in view.spots()
    ]
    nine, none, two = light
    assert nine < two < none


@pytest.mark.parametrize("scheme", [LIGHT, DARK])
def test_the_number_on_the_darkest_field_can_be_read(scheme: Inks) -> None:
    """4.5 : 1 is the least for text in WCAG 2.1, 1.4.3."""
    base, accent = QColor(scheme.base), QColor(scheme.accent)
    mixed = QColor.fromRgbF(
        *(b + (a - b) * DARKEST for a, b in zip(accent.getRgbF()[:3], base.getRgbF()[:3], strict=True))
    )
    one, other = sorted((luminance(mixed), luminance(QColor(scheme.text))))
    assert (other + 0.05) / (one + 0.05) >= 4.5


def test_a_head_or_a_name_that_was_cut_is_whole_in_its_tooltip(shown: Shown) -> None:
    view = drawn(shown)
    room = view._room()
    assert view.tip_at(QPointF(20, room.top + room.tall * 1.5)) == "4 spindle"
    assert view.tip_at(QPointF(room.left + room.wide * 1.5, room.top - 8)) == "laser renewed"
    assert view.tip_at(view.spots()[0].rect.center()) == "nine"
    assert view.tip_at(QPointF(room.left + room.wide * 1.5, room.top + 3)) == ""


def test_the_marked_field_and_the_one_under_the_pointer_are_framed(shown: Shown) -> None:
    view = drawn(shown)
    bare = view.grab().toImage()
    view.over = view.spots()[0]
    pointed = view.grab().toImage()
    view.mark(2)
    assert len({bare.cacheKey(), pointed.cacheKey()}) == 2
    assert view.grab().toImage() != pointed != bare


def test_a_long_name_of_a_row_goes_on_in_the_next_line(shown: Shown) -> None:
    long = replace(GRID, rows=("3 focus", "4 the spindle runs up to speed and stays there under load"))
    assert drawn(shown, long)._room().tall > drawn(shown)._room().tall
    drawn(shown, long).grab()


def test_an_empty_grid_has_its_names(shown: Shown) -> None:
    view = drawn(shown, replace(GRID, rows=(), columns=(), cells=()))
    assert view.spots() == []
    view.grab()
    narrow = drawn(shown, replace(GRID, columns_are=Sentence("what it was cured by " * 6)), 340)
    narrow.grab()
