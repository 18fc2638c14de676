"""The style under everything: menus, open lists, frames."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtWidgets import (
    QApplication,
    QMainWindow,
    QMenu,
    QPlainTextEdit,
    QPushButton,
    QStyle,
    QStyleOptionFocusRect,
)
from pytestqt.qtbot import QtBot

from app.screens.kit import palette
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field, TextArea
from app.screens.kit.palette import DARK, LIGHT, Inks
from app.screens.kit.style import SheetStyle, frame_state
from app.screens.kit.table import Table

SCHEMES = pytest.mark.parametrize("scheme", ["light", "dark"])
INKS = {"light": LIGHT, "dark": DARK}


def has(image: QImage, ink: str) -> bool:
    wanted = QColor(ink)
    return any(image.pixelColor(x, y) == wanted for x in range(image.width()) for y in range(image.height()))


def inks_of(scheme: str) -> Inks:
    return INKS[scheme]


@SCHEMES
def test_menus_lie_on_the_sheet_with_an_edge_and_what_nobody_serves_is_soft(
    qapp: QApplication, qtbot: QtBot, scheme: str
) -> None:
    palette.apply(qapp, scheme)
    of = inks_of(scheme)
    pictures = []
    for enabled in (True, False):
        menu = QMenu()
        qtbot.addWidget(menu)
        menu.addAction("IIII").setEnabled(enabled)
        menu.popup(QPoint(0, 0))
        pictures.append(menu.grab().toImage())
        menu.close()
    for image in pictures:
        assert image.pixelColor(0, 3) == QColor(of.edge)
        assert has(image, of.base)
    assert has(pictures[0], of.text)
    assert not has(pictures[1], of.text)


@SCHEMES
def test_the_menu_bar_shows_which_menu_is_open(qapp: QApplication, qtbot: QtBot, scheme: str) -> None:
    palette.apply(qapp, scheme)
    window = QMainWindow()
    qtbot.addWidget(window)
    menu = window.menuBar().addMenu("&Book")
    menu.addAction("&Open")
    window.resize(400, 200)
    window.show()
    bar = window.menuBar()
    assert not has(bar.grab().toImage(), inks_of(scheme).tint)
    bar.setActiveAction(menu.menuAction())
    assert has(bar.grab().toImage(), inks_of(scheme).tint)
    menu.close()


@SCHEMES
def test_an_open_list_marks_its_line_with_tint_and_accent(
    qapp: QApplication, qtbot: QtBot, scheme: str
) -> None:
    palette.apply(qapp, scheme)
    combo = Combo("Fault", [(i, f"word {i}") for i in range(5)], 2)
    qtbot.addWidget(combo)
    combo.show()
    combo.showPopup()
    popup = combo.view().window()
    image = popup.grab().toImage()
    of = inks_of(scheme)
    assert has(image, of.tint)
    assert has(image, of.accent)
    assert has(image, of.edge)
    combo.hidePopup()


def test_entries_show_focus_fault_and_that_they_are_fixed(qtbot: QtBot) -> None:
    field = Field("Serial")
    qtbot.addWidget(field)
    field.show()
    field.activateWindow()
    assert frame_state(None) == ("edge", 1, False)
    assert frame_state(field.edit) == ("edge", 1, False)
    field.set_fixed(True)
    assert frame_state(field.edit) == ("edge", 1, True)
    field.set_fixed(False)
    field.set_error("no")
    assert frame_state(field.edit) == ("stop", 1, False)
    field.setFocus()
    qtbot.waitUntil(field.edit.hasFocus)
    assert frame_state(field.edit) == ("stop", 2, False)
    field.set_error("")
    assert frame_state(field.edit) == ("accent", 2, False)


def test_focus_moves_nothing(qtbot: QtBot) -> None:
    area = TextArea("Fault", text="stops when warm")
    qtbot.addWidget(area)
    area.resize(300, 60)
    area.show()
    area.activateWindow()
    before = area.viewport().geometry()
    area.setFocus()
    qtbot.waitUntil(area.hasFocus)
    assert area.viewport().geometry() == before
    assert has(area.grab().toImage(), LIGHT.accent)


def test_qts_own_focus_frame_is_ours_too(qapp: QApplication, qtbot: QtBot) -> None:
    style = qapp.style()
    assert isinstance(style, SheetStyle)
    image = QImage(40, 30, QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.white)
    from PySide6.QtGui import QPainter

    option = QStyleOptionFocusRect()
    option.rect = image.rect()
    painter = QPainter(image)
    style.drawPrimitive(QStyle.PrimitiveElement.PE_FrameFocusRect, option, painter, None)
    painter.end()
    assert image.pixelColor(20, 0) == QColor(LIGHT.accent)
    assert image.pixelColor(20, 1) == QColor(LIGHT.accent)
    assert image.pixelColor(20, 2) == QColor("white")


def test_widgets_that_are_not_ours_still_work(qtbot: QtBot) -> None:
    for widget in (QPushButton("Qt"), QPlainTextEdit("Qt")):
        qtbot.addWidget(widget)
        widget.resize(80, 40)
        assert not widget.grab().isNull()


def test_the_corner_between_scroll_bars_is_sheet(qtbot: QtBot) -> None:
    from app.screens.kit.cells import Column, Row, Words
    from app.screens.kit.rows import RowsModel

    rows = [Row(i, (Words("a"), Words("b"))) for i in range(50)]
    table = Table("wide", RowsModel((Column("a", "A", 300), Column("b", "B", 300)), rows))
    qtbot.addWidget(table)
    table.resize(300, 200)
    table.show()
    image = table.grab().toImage()
    assert image.pixelColor(image.width() - 3, image.height() - 3) == QColor(LIGHT.base)
