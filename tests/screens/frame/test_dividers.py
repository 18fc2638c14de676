"""The dividers: three places, by mouse and keys, and which one is open."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.screens.frame.dividers import Dividers
from app.screens.kit import measure
from app.screens.kit.measure import px


@pytest.fixture
def dividers(qtbot: QtBot) -> Dividers:
    made = Dividers()
    qtbot.addWidget(made)
    made.resize(px(126), 600)
    made.set_open("bench")
    made.set_counts(counter="14 in the shop", bench="8 to work on")
    made.set_book("Lanternfield Workshop", "copied 07:02")
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def test_a_click_and_enter_choose_a_place(qtbot: QtBot, dividers: Dividers) -> None:
    chosen: list[str] = []
    dividers.chosen.connect(chosen.append)
    qtbot.mouseClick(dividers.dividers["office"], Qt.MouseButton.LeftButton)
    qtbot.keyClick(dividers.dividers["counter"], Qt.Key.Key_Return)
    qtbot.keyClick(dividers.dividers["bench"], Qt.Key.Key_Space)
    assert chosen == ["office", "counter", "bench"]


def test_arrows_walk_round(qtbot: QtBot, dividers: Dividers) -> None:
    dividers.dividers["office"].setFocus()
    qtbot.keyClick(dividers.dividers["office"], Qt.Key.Key_Down)
    assert dividers.dividers["counter"].hasFocus()
    qtbot.keyClick(dividers.dividers["counter"], Qt.Key.Key_Up)
    assert dividers.dividers["office"].hasFocus()
    qtbot.keyClick(dividers.dividers["office"], Qt.Key.Key_Tab)


def test_they_are_heard_with_their_counts(dividers: Dividers) -> None:
    counter = dividers.dividers["counter"]
    assert counter.accessibleName() == "Counter"
    assert counter.accessibleDescription() == "14 in the shop"


def test_the_open_one_runs_into_the_sheet(dividers: Dividers) -> None:
    image = dividers.grab().toImage()
    line = dividers.width() - 1
    opened, closed = dividers.dividers["bench"], dividers.dividers["office"]
    beside = image.pixelColor(line, opened.geometry().center().y())
    assert beside != image.pixelColor(line, closed.geometry().center().y())
    assert beside.lightness() > 240


@pytest.mark.parametrize("percent", measure.TEXT_SIZES)
def test_both_lines_fit_at_every_text_size(qapp: QApplication, dividers: Dividers, percent: int) -> None:
    measure.set_text_size(qapp, percent)
    counter = dividers.dividers["counter"]
    assert counter.sizeHint().height() >= 2 * measure.line()
    assert dividers.width() == px(126)
    assert measure.width("14 in the shop") <= dividers.width() - px(8 + 14)
    counter.setFocus()
    dividers.grab()
