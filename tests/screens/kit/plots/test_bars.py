"""Bars: what is drawn where, told apart without colour, and whole in narrow pages."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import QPointF
from PySide6.QtGui import QColor, QImage
from PySide6.QtWidgets import QApplication

from app.screens.kit import measure
from app.screens.kit.palette import DARK, LIGHT, Scheme, apply
from app.screens.kit.plots.bar_paint import key_of
from app.screens.kit.plots.bars import BarsView
from app.screens.kit.plots.panel import PanelView
from app.trade.sentence import Sentence
from app.trade.statistics.picture import Bars, Ink
from tests.screens.kit.plots.conftest import BARS, Shown, bar

PARETO = replace(
    BARS,
    bars=tuple(replace(bar(name, v), reached=r) for name, v, r in (("laser", 0.6, 0.6), ("disc", 0.4, 1.0))),
)


def inks_in(view: PanelView, place: int) -> set[str]:
    """The colours in the block of a bar, right of the line of its interval's start."""
    image: QImage = view.grab().toImage()
    rect = view.spots()[place].rect.toRect()
    return {
        image.pixelColor(x, y).name().upper()
        for y in range(rect.top() + 4, rect.bottom() - 20)
        for x in range(rect.left() + 130, rect.right() - 300)
    }


def drawn(shown: Shown, panel: Bars) -> BarsView:
    view = shown(panel)
    assert isinstance(view, BarsView)
    return view


def test_a_bar_ends_where_the_axis_says(shown: Shown) -> None:
    view = drawn(shown, BARS)
    rooms, scale = view._rooms(), view.ruler()
    ends = [spot.at.x() for spot in view.spots()]
    assert ends[0] == pytest.approx(rooms.left + 0.27 / scale.most * (rooms.right - rooms.left))
    assert ends[-1] == rooms.left  # nothing to draw
    assert all(rooms.left <= x <= rooms.right for x in ends)


def test_every_interval_lies_within_the_axis(shown: Shown) -> None:
    assert drawn(shown, BARS).ruler().most >= max(b.high or 0 for b in BARS.bars)


def test_what_stands_out_is_told_by_fill_and_not_by_colour_alone(shown: Shown) -> None:
    view = drawn(shown, BARS)
    accent = LIGHT.accent.upper()
    assert accent in inks_in(view, 0)
    assert accent not in inks_in(view, 1)
    assert accent not in inks_in(view, 2)
    assert accent in inks_in(view, 3)
    more, less = (
        view.grab(view.spots()[i].rect.toRect()).toImage().convertToFormat(QImage.Format.Format_Grayscale8)
        for i in (0, 3)
    )
    y = round(view.spots()[0].at.y() - view.spots()[0].rect.top()) - 6 - 4
    left = round(view._rooms().left)
    full = {more.pixelColor(x, y).red() // 16 for x in range(left + 3, left + 12)}
    hatched = {less.pixelColor(x, y).red() // 16 for x in range(left + 3, left + 12)}
    assert len(full) < len(hatched)  # grey alone tells a full block from a hatched one


def test_the_key_explains_what_is_drawn_and_nothing_else() -> None:
    assert [entry.text for entry in key_of(BARS)] == [
        "more than the others",
        "less than the others",
        "rests on few",
        "95 % interval",
        "all the others together",
    ]
    bare = replace(bar("a", 0.2), low=None, other=None)
    assert key_of(replace(BARS, bars=(bare,))) == []


def test_the_cumulated_line_has_its_own_axis_beside_the_bars(shown: Shown) -> None:
    view = drawn(shown, PARETO)
    rooms = view._rooms()
    assert rooms.line > rooms.right
    assert view.axis_above
    image = view.grab().toImage()
    row = view.spots()[1].rect.center().y()
    assert image.pixelColor(round(rooms.line_end), round(row)) == QColor(LIGHT.text)  # all: 100 %


def test_many_bars_have_their_axis_above_too(shown: Shown) -> None:
    many = replace(BARS, bars=tuple(bar(f"type {i}", 0.1) for i in range(40)))
    view = drawn(shown, many)
    assert view.axis_above
    assert len(view.spots()) == 40
    assert not drawn(shown, BARS).axis_above


def test_a_long_name_takes_two_lines_and_the_bar_keeps_its_room(shown: Shown) -> None:
    long = replace(BARS, bars=(bar("a player with a name " * 15, 0.2, Ink.MORE), bar("שלום עולם " * 20, 0.1)))
    view = drawn(shown, long)
    assert view.row >= 2 * measure.line()
    rooms = view._rooms()
    assert rooms.right - rooms.left > 300
    view.grab()


def test_a_name_that_a_bar_does_not_tell_stands_in_its_tooltip(shown: Shown) -> None:
    told = replace(
        bar("in the shop, 9 of 10 at most", 0.2), told=Sentence("9 of 10 jobs stayed 12 days at most.")
    )
    view = drawn(shown, replace(BARS, bars=(told, bar("Velk A1", 0.1))))
    first, second = (spot.rect.center() for spot in view.spots())
    assert view.tip_at(first) == "in the shop, 9 of 10 at most\n9 of 10 jobs stayed 12 days at most."
    assert view.tip_at(second) == "Velk A1 is told."
    assert view.tip_at(QPointF(10, 2)) == ""


def test_the_picture_takes_the_inks_of_the_scheme(shown: Shown, qapp: QApplication) -> None:
    view = drawn(shown, BARS)
    assert LIGHT.accent.upper() in inks_in(view, 0)
    try:
        apply(qapp, Scheme.DARK)
        found = inks_in(view, 0)
    finally:
        apply(qapp, Scheme.LIGHT)
    assert DARK.accent.upper() in found
    assert LIGHT.accent.upper() not in found


def test_sizes_follow_the_text(shown: Shown, qapp: QApplication) -> None:
    view = drawn(shown, BARS)
    before = view.heightForWidth(838)
    try:
        measure.set_text_size(qapp, 200)
        view.refit()
        assert view.heightForWidth(1400) > 1.7 * before
        view.resize(700, view.heightForWidth(700))
        view.grab()
    finally:
        measure.set_text_size(qapp, 100)
