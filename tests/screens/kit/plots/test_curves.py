"""Curves: what pyqtgraph draws, numbers at risk, names, and what is said at a place."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.screens.kit import measure
from app.screens.kit.measure import px
from app.screens.kit.palette import DARK, Scheme, apply, inks
from app.screens.kit.plots.curves import CurvesView
from app.screens.kit.plots.line_room import Band, Stroke
from app.trade.statistics.picture import Curves, Ink
from tests.screens.kit.plots.conftest import CURVES, Shown, curve

K = Qt.Key


def drawn(shown: Shown, panel: Curves = CURVES, width: int = 838) -> CurvesView:
    view = shown(panel, width)
    assert isinstance(view, CurvesView)
    return view


def strokes(view: CurvesView) -> list[Stroke]:
    return [thing for thing in view.strokes(view.frame(), view.marked_spot()) if isinstance(thing, Stroke)]


def bands(view: CurvesView) -> list[Band]:
    return [thing for thing in view.strokes(view.frame(), view.marked_spot()) if isinstance(thing, Band)]


def told(view: CurvesView) -> list[str]:
    return [mark.told.replace("\u00a0", " ") for mark in view.marks()]


def test_each_curve_has_its_own_ink_sign_and_dash(shown: Shown) -> None:
    six = replace(CURVES, curves=tuple(curve(name, 0.8, 0.7, 0.6) for name in "abcdef"))
    looks = drawn(shown, six).looks()
    assert len({(look.shape, look.dash) for look in looks}) == 6
    assert len({(look.ink, look.shape) for look in looks}) == 6


def test_bands_are_see_through_and_fewer_are_darker(shown: Shown) -> None:
    two = bands(drawn(shown))
    assert [round(band.fill.alphaF(), 2) for band in two] == [0.15, 0.15]
    six = replace(CURVES, curves=tuple(curve(name, 0.8, 0.7, 0.6) for name in "abcdef"))
    assert max(round(band.fill.alphaF(), 2) for band in bands(drawn(shown, six))) == 0.06


def test_the_marked_curve_lies_above_the_others_and_is_thicker(shown: Shown) -> None:
    view = drawn(shown)
    view.mark(0)
    lines = strokes(view)
    assert lines[-1].pen.widthF() > lines[0].pen.widthF()
    assert lines[-1].pen.color() == QColor(inks().cycle[0].ink)


def test_the_image_has_the_curve_where_the_frame_says(shown: Shown) -> None:
    view = drawn(shown, replace(CURVES, curves=(curve("a", 0.5, 0.5, 0.5),), guide=None))
    image = view.grab().toImage()
    at = view.frame().at(250, 0.5).toPoint()
    darkest = min((image.pixelColor(at.x(), at.y() + dy).lightness(), dy) for dy in range(-9, 10))
    assert abs(darkest[1]) <= 1


def test_names_stand_beside_the_curves_where_they_fit_else_in_a_key(shown: Shown) -> None:
    wide = drawn(shown)
    words = wide.edge_words(wide.frame(), True)
    assert [word.text for word in words] == ["Velk A1", "Ponnik S5"]
    assert words[0].y == wide.frame().at_y(0.7)
    assert wide.direct_for(838)
    assert not wide.direct_for(520)
    narrow = drawn(shown, width=520)
    assert narrow._key_height(520) > 0
    long = replace(CURVES, curves=(curve("a name as long as a street " * 9, 0.9), curve("b", 0.5)))
    assert not drawn(shown, long).direct_for(838)


def test_a_curve_alone_needs_no_name_that_the_title_has_said(shown: Shown) -> None:
    alone = replace(CURVES, curves=(curve("repairs", 0.9, 0.8, 0.7),))
    assert drawn(shown, alone).named() == []
    other = replace(CURVES, curves=(curve("raised coil current", 0.9, 0.8, 0.7),))
    assert [name for name, _ in drawn(shown, other).named()] == ["raised coil current"]


def test_a_curve_is_told_as_a_whole_and_at_every_mark(shown: Shown) -> None:
    assert told(drawn(shown))[:4] == [
        "Velk A1 as a whole.",
        "Velk A1, after 0 days: 100 % (95 % to 100 %); still watched: 40",
        "Velk A1, after 150 days: 90 % (85 % to 95 %); still watched: 20",
        "Velk A1, after 350 days: 70 % (65 % to 75 %); still watched: 5",
    ]


def test_keys_go_along_a_curve_and_to_the_next(qtbot: QtBot, shown: Shown) -> None:
    view = drawn(shown)
    marked: list[Any] = []
    view.marked.connect(marked.append)
    view.mark(-1)
    for key in (K.Key_Right, K.Key_Right, K.Key_Right, K.Key_Down, K.Key_End, K.Key_Home):
        qtbot.keyClick(view, key)
    said = [mark.told.partition(":")[0] for mark in marked]
    assert said == [
        "Velk A1 as a whole.",
        "Velk A1, after 0\u00a0days".replace("\u00a0", " "),
        "Velk A1, after 150 days",
        "Ponnik S5, after 150 days",
        "Ponnik S5, after 350 days",
        "Ponnik S5 as a whole.",
    ]


def test_the_pointer_finds_the_nearest_curve_and_its_value_there(shown: Shown) -> None:
    view = drawn(shown)
    frame = view.frame()
    spot = view.spot_near(frame.at(250, 0.52))
    assert spot is not None
    assert spot.mark.told.replace("\u00a0", " ") == "Ponnik S5, after 250 days: 50 % (45 % to 55 %)"
    assert view.spot_near(frame.at(250, 0.1)) is None
    assert view.spot_near(QPointF(5, 5)) is None
    assert view._place_of(spot) == 6  # the mark nearest to 250: 150, which comes first


def test_the_name_beside_a_curve_stands_for_the_whole(shown: Shown) -> None:
    view = drawn(shown)
    frame = view.frame()
    spot = view.spot_near(QPointF(frame.room.right() + 60, frame.at_y(0.4)))
    assert spot is not None
    assert spot.mark.told == "Ponnik S5 as a whole."
    assert view._place_of(spot) == 4


def test_names_that_may_have_been_cut_are_whole_in_their_tooltips(shown: Shown) -> None:
    name = "a name as long as a street " * 12
    view = drawn(shown, replace(CURVES, curves=(curve(name, 0.9), curve("b", 0.5))), 500)
    room = view.frame().room
    assert view.tip_at(QPointF(30, view.top() + 5)) == " ".join(name.split())
    assert view.tip_at(QPointF(30, room.top() - 20)) == "share that holds"
    assert view.tip_at(QPointF(room.right() - 5, room.bottom() + 30)) == "days since it was handed back"
    assert view.tip_at(view.frame().at(50, 1.0)).startswith("a name")
    assert view.tip_at(QPointF(2, room.bottom() + 200)) == ""


def test_what_has_no_band_is_told_without(shown: Shown) -> None:
    bare = replace(curve("a", 0.9, 0.8, 0.7), low=(), high=(), at_risk=())
    view = drawn(shown, replace(CURVES, curves=(bare,)))
    assert told(view)[2] == "a, after 150 days: 90 %"
    assert view.risk_rows() == []
    assert bands(view) == []


def test_numbers_at_risk_stand_under_their_marks(shown: Shown) -> None:
    view = drawn(shown)
    assert view.risk_rows() == [0, 1]
    assert [value for value, _ in view.frame().x.ticks] == [0.0, 150.0, 350.0]
    many = replace(CURVES.curves[0], at_risk=(1234567, *CURVES.curves[0].at_risk[1:]))
    wide = drawn(shown, replace(CURVES, curves=(many, CURVES.curves[1])))
    room = wide.frame().room.left() - measure.width("1234567") / 2
    assert room >= px(9) + px(26)  # the sample of the line stands free of the first number
    without = drawn(shown, replace(CURVES, curves=(replace(CURVES.curves[0], at_risk=()),)))
    assert view.heightForWidth(838) > without.heightForWidth(838)


def test_a_guide_outside_the_axis_is_not_drawn(shown: Shown) -> None:
    view = drawn(shown, replace(CURVES, guide=None))
    bare = view.grab().toImage()
    assert drawn(shown).grab().toImage() != bare


def test_a_curve_that_goes_on_beyond_the_axis_is_told_by_what_is_seen(shown: Shown) -> None:
    view = drawn(shown, replace(CURVES, x=replace(CURVES.x, most=250.0)))
    frame = view.frame()
    assert view.edge_words(frame, True)[0].y == frame.at_y(0.8)  # it falls to 0.7 only at 300
    assert view.spots()[0].at == frame.at(250, 0.8)
    assert not any(spot.along == 350.0 for spot in view.spots())


def test_a_faint_curve_is_thinner(shown: Shown) -> None:
    faint = replace(CURVES, curves=(curve("a", 0.9), curve("b", 0.5, ink=Ink.FAINT)))
    widths = sorted(line.pen.widthF() for line in strokes(drawn(shown, faint)))
    assert widths[0] < widths[1]


def test_curves_without_steps_are_left_out(shown: Shown) -> None:
    empty = replace(curve("a", 0.9), x=(), y=(), low=(), high=())
    view = drawn(shown, replace(CURVES, curves=(empty,)))
    assert view.spots() == []
    view.grab()


def test_an_image_is_kept_until_something_changes(shown: Shown, qapp: QApplication) -> None:
    view = drawn(shown)
    view.grab()
    kept = view._image
    view.grab()
    assert view._image is kept
    try:
        apply(qapp, Scheme.DARK)
        image = view.grab().toImage()
        assert view._image is not kept
    finally:
        apply(qapp, Scheme.LIGHT)
    at = view.frame().at(150, 0.9).toPoint()  # the sign of the first curve
    assert image.pixelColor(at) == QColor(DARK.cycle[0].ink)


@pytest.mark.parametrize("width", [340, 1200])
def test_the_plot_keeps_within_its_panel(shown: Shown, width: int) -> None:
    view = drawn(shown, width=width)
    room = view.frame().room
    assert room.left() > 0
    assert room.right() < width
    assert room.bottom() < view.height()
