"""The wheel over a form: it scrolls the sheet, it never changes a value nobody looks at."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QPoint, QPointF
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QApplication,
    QComboBox,
    QDoubleSpinBox,
    QScrollArea,
    QSlider,
    QVBoxLayout,
    QWidget,
)
from pytestqt.qtbot import QtBot

from app.screens.kit.combo import Combo
from app.screens.kit.scrolling import Scroller
from app.screens.wheel import WheelGuard


@pytest.fixture
def guard(qapp: QApplication) -> Iterator[WheelGuard]:
    made = WheelGuard(qapp)
    yield made
    qapp.removeEventFilter(made)
    made.setParent(None)


@pytest.fixture
def sheet(qtbot: QtBot, guard: WheelGuard) -> Scroller:
    inside = QWidget()
    layout = QVBoxLayout(inside)
    for widget in (Combo("Unit", [(1, "days"), (2, "weeks")], 1), QComboBox(), QDoubleSpinBox(), QSlider()):
        layout.addWidget(widget)
    below = QWidget()
    below.setFixedHeight(2000)
    layout.addWidget(below)
    made = Scroller(inside)
    qtbot.addWidget(made)
    made.resize(300, 200)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def wheel(widget: QWidget) -> None:
    """One notch down over the middle of a widget, through its window as the platform sends it."""
    window = widget.window()
    at = widget.mapTo(window, widget.rect().center())
    handle = window.windowHandle()
    assert handle is not None
    QTest.wheelEvent(handle, QPointF(at), QPoint(0, -120))


@pytest.mark.parametrize("kind", [Combo, QDoubleSpinBox, QSlider])
def test_an_unfocused_field_keeps_its_value_and_the_sheet_scrolls(sheet: QScrollArea, kind: type) -> None:
    field = sheet.widget().findChild(kind)
    assert field is not None
    field.clearFocus()
    sheet.setFocus()
    before = field.currentIndex() if isinstance(field, QComboBox) else field.value()
    wheel(field)
    assert (field.currentIndex() if isinstance(field, QComboBox) else field.value()) == before
    assert sheet.verticalScrollBar().value() > 0


def test_a_focused_field_takes_the_wheel(sheet: QScrollArea) -> None:
    field = sheet.widget().findChild(QDoubleSpinBox)
    field.setValue(5)
    field.setFocus()
    wheel(field)
    assert field.value() != 5


def test_scroll_bars_themselves_are_free(sheet: QScrollArea) -> None:
    bar = sheet.verticalScrollBar()
    wheel(bar)
    assert bar.value() > 0
