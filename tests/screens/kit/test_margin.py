"""The margin behind its double ruled line."""

from __future__ import annotations

from PySide6.QtGui import QColor
from pytestqt.qtbot import QtBot

from app.screens.kit.label import Label
from app.screens.kit.margin import MarginPage
from app.screens.kit.measure import px
from app.screens.kit.palette import LIGHT


def test_it_has_its_width_its_ground_and_two_lines(qtbot: QtBot) -> None:
    margin = MarginPage("What the book knows", width=384)
    margin.column.add(Label("Two earlier visits", "strong")).addStretch(1)
    qtbot.addWidget(margin)
    margin.resize(px(384), 400)
    margin.show()
    image = margin.grab().toImage()
    y = 300
    assert margin.width() == px(384)
    assert image.pixelColor(0, y) == QColor(LIGHT.edge)
    assert image.pixelColor(1, y) == QColor(LIGHT.alternate)
    assert image.pixelColor(3, y) == QColor(LIGHT.line)
    assert image.pixelColor(200, y) == QColor(LIGHT.alternate)
    assert margin.accessibleName() == "What the book knows"
