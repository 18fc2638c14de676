"""A whole picture: its panels, what is told of it, and the image to take away."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.screens.kit import measure
from app.screens.kit.palette import DARK, LIGHT, Scheme, apply, inks
from app.screens.kit.plots.picture_view import PictureView
from app.trade.sentence import Sentence
from app.trade.statistics.picture import Picture
from tests.screens.kit.plots.conftest import BARS, COURSE, CURVES, GRID

WHOLE = Picture(title=Sentence("One type comes back more often"), panels=(BARS, CURVES, COURSE, GRID))


@pytest.fixture
def view(qtbot: QtBot) -> PictureView:
    made = PictureView()
    qtbot.addWidget(made)
    made.show_picture(WHOLE)
    made.resize(838, made.heightForWidth(838))
    made.show()
    return made


def test_panels_stand_one_below_the_other_each_as_high_as_it_needs(view: PictureView) -> None:
    tops = [panel.y() for panel in view.panels]
    assert tops == sorted(tops)
    assert len(set(tops)) == 4
    assert [panel.height() for panel in view.panels] == [panel.heightForWidth(838) for panel in view.panels]


def test_the_text_alternative_tells_every_mark(view: PictureView) -> None:
    lines = view.text.split("\n")
    assert lines[:2] == ["Came back within 180 days", "Ponnik S5 is told."]
    assert "Ponnik S5 as a whole." in lines
    assert "Quarter 3 is told." in lines
    assert lines[-1] == "two"
    assert view.accessibleName() == "One type comes back more often"
    assert view.accessibleDescription() == view.text


def test_the_marked_mark_is_told_in_the_line_under_its_panel(qtbot: QtBot, view: PictureView) -> None:
    marked: list[Any] = []
    view.marked.connect(marked.append)
    assert view.mark("Ponnik S5", 1)
    assert view.told[1].text() == "Ponnik S5 as a whole."
    assert view.told[1].isVisible()
    assert not view.told[2].isVisible()  # nothing was marked there
    assert (marked[-1].panel, marked[-1].key) == (1, "Ponnik S5")
    assert view.marked_mark() == marked[-1]
    assert not view.mark("nobody", 0)
    assert not view.mark("Ponnik S5", 9)


def test_enter_hands_on_the_jobs_of_the_mark(qtbot: QtBot, view: PictureView) -> None:
    opened: list[Any] = []
    view.opened.connect(opened.append)
    view.mark("0.0", 3)
    qtbot.keyClick(view.panels[3], Qt.Key.Key_Return)
    assert [(mark.panel, mark.jobs) for mark in opened] == [(3, (1, 2))]


def test_nothing_below_the_line_moves_however_much_it_tells(view: PictureView) -> None:
    long = replace(BARS, bars=(*BARS.bars, replace(BARS.bars[0], key="x", told=Sentence("words " * 60))))
    view.show_picture(replace(WHOLE, panels=(long,)))
    before = view.heightForWidth(838)
    view.mark("x")
    assert view.heightForWidth(838) == before
    view.mark("Velk A1")
    assert view.heightForWidth(838) == before


def test_another_picture_keeps_the_mark_and_the_focus(qtbot: QtBot, view: PictureView) -> None:
    view.panels[1].setFocus()
    qtbot.waitUntil(view.panels[1].hasFocus)
    view.mark("Ponnik S5", 1)
    marked: list[Any] = []
    view.marked.connect(marked.append)
    view.show_picture(replace(WHOLE, panels=(BARS, CURVES)))
    qtbot.waitUntil(view.panels[1].hasFocus)
    mark = view.marked_mark()
    assert mark is not None
    assert (mark.panel, mark.key) == (1, "Ponnik S5")
    assert {(m.panel, m.key) for m in marked} == {(1, "Ponnik S5")}  # no other was marked on the way


def test_nothing_to_draw_is_nothing(view: PictureView) -> None:
    view.show_picture(None)
    assert view.panels == []
    assert view.text == ""
    assert view.marked_mark() is None
    view.image()
    view.show_picture(Picture(title=Sentence("Nothing"), panels=()))
    assert view.panels == []


def test_focus_on_the_picture_goes_to_its_first_panel(qtbot: QtBot, view: PictureView) -> None:
    view.panels[2].setFocus()
    view.setFocus()
    qtbot.waitUntil(view.panels[0].hasFocus)


def test_the_image_has_the_title_and_every_panel_and_nothing_marked(view: PictureView) -> None:
    view.mark("Velk A1")
    marked = view.image(1.0)
    view.panels[0].mark(-1)
    assert view.image(1.0) == marked
    assert marked.height() > sum(panel.height() for panel in view.panels)
    assert marked.pixelColor(2, 2) == QColor(LIGHT.base)
    twice = view.image(2.0)
    assert (twice.width(), twice.devicePixelRatio()) == (2 * marked.width(), 2.0)


def test_the_image_is_light_also_in_the_dark(view: PictureView, qapp: QApplication) -> None:
    light = view.image(1.0)
    try:
        apply(qapp, Scheme.DARK)
        assert view.image(1.0) == light
        assert inks() is DARK
    finally:
        apply(qapp, Scheme.LIGHT)


def test_larger_text_makes_all_of_it_larger(qapp: QApplication, view: PictureView) -> None:
    before = view.heightForWidth(838)
    try:
        measure.set_text_size(qapp, 200)
        assert view.heightForWidth(838) > 1.5 * before
        view.resize(838, view.heightForWidth(838))
        view.grab()
    finally:
        measure.set_text_size(qapp, 100)
