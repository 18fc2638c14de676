"""A box to tick."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.screens.kit import measure
from app.screens.kit.measure import px
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


def test_long_words_go_on_in_the_next_line_where_there_is_no_room(qtbot: QtBot) -> None:
    page = QWidget()
    qtbot.addWidget(page)
    tick = Tick("no longer used; what was measured with it keeps what was said of it then", parent=page)
    page.resize(700, 200)
    page.show()
    one = tick.heightForWidth(tick.sizeHint().width())
    assert one == px(32)
    assert tick.heightForWidth(px(240)) >= 2 * measure.line()
    assert tick.minimumSizeHint().width() == px(200)
    tick.resize(px(240), tick.heightForWidth(px(240)))
    tick.setFocus()
    blank = page.grab().toImage()
    tick.setChecked(True)
    assert page.grab().toImage() != blank
    assert Tick("mains lead", detail="black", parent=page).minimumSizeHint().width() > px(60)
