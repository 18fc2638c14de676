"""Fields: what was read beside them, what cannot be right below them, and keys that move on."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from app.screens.kit.fields import Field, TextArea
from app.screens.kit.measure import px


@pytest.fixture
def field(qtbot: QtBot) -> Field:
    made = Field("Serial number", width=220)
    qtbot.addWidget(made)
    made.show()
    return made


def test_it_is_named_and_takes_the_focus_for_its_entry(qtbot: QtBot, field: Field) -> None:
    assert field.edit.accessibleName() == "Serial number"
    assert field.edit.width() == px(220)
    assert field.edit.height() == px(32)
    assert field.focusProxy() is field.edit
    field.set_name("Serial, or not readable")
    assert field.edit.accessibleName() == "Serial, or not readable"


def test_the_value_as_read_stands_beside_it(field: Field) -> None:
    field.set_echo("read as 4.7 kΩ")
    assert field.echo() == "read as 4.7 kΩ"
    assert field._echo.isVisible()
    field.set_echo("")
    assert not field._echo.isVisible()


def test_what_cannot_be_right_stands_below_it_and_is_heard(field: Field) -> None:
    field.set_error("A laser current of 900 mA cannot be right.")
    assert field.error() == "A laser current of 900 mA cannot be right."
    assert field._error.geometry().top() >= field.edit.geometry().bottom()
    assert field.edit.accessibleDescription() == field.error()
    assert field.edit.property("wrong")
    field.grab()
    field.set_error("")
    assert not field._error.isVisible()
    assert not field.edit.property("wrong")


def test_text_comes_without_space_at_its_ends(field: Field) -> None:
    heard: list[str] = []
    field.changed.connect(heard.append)
    field.set_text("  0420 158 ")
    assert field.text() == "0420 158"
    assert heard == ["  0420 158 "]


def test_arrows_step_and_enter_takes(qtbot: QtBot, field: Field) -> None:
    steps: list[int] = []
    enters: list[int] = []
    field.edit.stepped.connect(steps.append)
    field.entered.connect(lambda: enters.append(1))
    for key in (Qt.Key.Key_Down, Qt.Key.Key_Down, Qt.Key.Key_Up, Qt.Key.Key_Return):
        qtbot.keyClick(field.edit, key)
    assert steps == [1, 1, -1]
    assert enters == [1]


def test_words_seen_before_complete_in_the_line_itself(qtbot: QtBot) -> None:
    field = Field("Maker", seen=("Quellmar", "Quellmar", "Ostrind"))
    qtbot.addWidget(field)
    field.show()
    field.activateWindow()
    qtbot.waitUntil(field.isActiveWindow)
    field.edit.setFocus()
    qtbot.keyClicks(field.edit, "Qu")
    assert field.edit.text().casefold() == "quellmar"
    assert field.edit.selectedText() == "ellmar"


def test_a_field_only_to_be_read_takes_no_keys(qtbot: QtBot, field: Field) -> None:
    field.set_text("fixed")
    field.set_fixed(True)
    qtbot.keyClicks(field.edit, "x")
    assert field.text() == "fixed"
    field.grab()


def test_a_secret_is_not_shown(qtbot: QtBot) -> None:
    field = Field("PIN", secret=True)
    qtbot.addWidget(field)
    assert field.edit.echoMode() == QLineEdit.EchoMode.Password


def test_leaving_is_told(qtbot: QtBot) -> None:
    page = QWidget()
    qtbot.addWidget(page)
    layout = QVBoxLayout(page)
    field, area, other = Field("One"), TextArea("Two"), Field("Three")
    for widget in (field, area, other):
        layout.addWidget(widget)
    page.show()
    page.activateWindow()
    qtbot.waitUntil(page.isActiveWindow)
    gone: list[str] = []
    field.left.connect(lambda: gone.append("field"))
    area.left.connect(lambda: gone.append("area"))
    for widget in (field, area, other):
        widget.setFocus()
    assert gone == ["field", "area"]


def test_tab_leaves_a_text_area(qtbot: QtBot) -> None:
    page = QWidget()
    qtbot.addWidget(page)
    layout = QVBoxLayout(page)
    area, other = TextArea("Fault, as they say it", lines=3), Field("Next")
    layout.addWidget(area)
    layout.addWidget(other)
    page.show()
    page.activateWindow()
    qtbot.waitUntil(page.isActiveWindow)
    area.setFocus()
    qtbot.keyClick(area, Qt.Key.Key_Tab)
    assert other.edit.hasFocus()
    assert area.text() == ""


def test_a_text_area_keeps_lines_and_tells_changes(qtbot: QtBot) -> None:
    area = TextArea("Fault", text="dead")
    qtbot.addWidget(area)
    heard: list[int] = []
    area.changed.connect(lambda: heard.append(1))
    area.set_text("stops\nwhen warm ")
    assert area.text() == "stops\nwhen warm"
    assert heard
    area.set_name("Fault as they say it")
    assert area.accessibleName() == "Fault as they say it"
    assert area.sizeHint().height() > area.fontMetrics().height() * 2
    area.refit()
    area.grab()
