"""A box to tick."""

from __future__ import annotations

from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.screens.kit import measure
from app.screens.kit.tick import Tick


def test_space_and_a_click_anywhere_on_it_tick(qtbot: QtBot) -> None:
    tick = Tick("remote control")
    qtbot.addWidget(tick)
    tick.show()
    qtbot.keyClick(tick, Qt.Key.Key_Space)
    assert tick.isChecked()
    qtbot.mouseClick(tick, Qt.MouseButton.LeftButton, pos=tick.rect().center())
    assert not tick.isChecked()
    qtbot.keyClick(tick, Qt.Key.Key_Return)
    assert not tick.isChecked()


def test_it_shows_a_value_behind_its_word(qtbot: QtBot) -> None:
    tick = Tick("driver temperature", True)
    qtbot.addWidget(tick)
    before = tick.sizeHint().width()
    tick.set_detail("48 °C")
    assert tick.sizeHint().width() >= before + measure.width("48 °C")
    assert tick.accessibleName() == "driver temperature"
    tick.setFocus()
    tick.refit()
    tick.grab()
