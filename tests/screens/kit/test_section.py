"""Parts of a sheet that fold."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.kit.section import Section


@pytest.fixture
def section(qtbot: QtBot) -> Section:
    made = Section("Readings", "9 on arrival, for Velk A1")
    made.column.add(Label("laser current"))
    made.set_links(Button("Add a reading", kind="quiet", key="Ctrl+R"))
    qtbot.addWidget(made)
    made.show()
    return made


def test_a_click_folds_and_opens_it(qtbot: QtBot, section: Section) -> None:
    folds: list[bool] = []
    section.folded.connect(folds.append)
    body = section.column.itemAt(0).widget()
    qtbot.mouseClick(section.head, Qt.MouseButton.LeftButton)
    assert not section.is_open
    assert not body.isVisible()
    qtbot.mouseClick(section.head, Qt.MouseButton.LeftButton)
    assert body.isVisible()
    assert folds == [True, False]


def test_left_folds_right_opens_and_enter_turns(qtbot: QtBot, section: Section) -> None:
    for key, opened in (
        (Qt.Key.Key_Right, True),
        (Qt.Key.Key_Left, False),
        (Qt.Key.Key_Left, False),
        (Qt.Key.Key_Right, True),
        (Qt.Key.Key_Return, False),
    ):
        qtbot.keyClick(section.head, key)
        assert section.is_open is opened


def test_the_folded_line_tells_what_it_holds(section: Section) -> None:
    section.set_summary("none yet", (("caution", "coil current up"), ("stop", "fuse")))
    section.set_opened(False)
    assert section.head.accessibleName() == "Readings none yet"
    section.head.setFocus()
    section.grab()


def test_a_part_can_begin_folded(qtbot: QtBot) -> None:
    section = Section("Trials", "none yet", opened=False)
    section.column.add(Label("x"))
    qtbot.addWidget(section)
    section.show()
    assert not section.is_open
    assert not section.column.itemAt(0).widget().isVisible()


def test_links_stand_below_the_word_where_it_would_be_cut(qtbot: QtBot, section: Section) -> None:
    section.resize(600, 80)
    QApplication.processEvents()
    link = section.findChildren(Button)[0]
    assert link.mapTo(section, QPoint()).x() > 300
    section.resize(section.head.least_width() + link.width(), 80)
    QApplication.processEvents()
    assert link.mapTo(section, QPoint()).x() == 0
    assert link.mapTo(section, QPoint()).y() >= section.head.geometry().bottom()
    section.resize(600, 80)
    QApplication.processEvents()
    assert link.mapTo(section, QPoint()).x() > 300
