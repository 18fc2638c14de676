"""Matches while typing: in the margin, marked by Down, taken by Enter."""

from __future__ import annotations

from typing import Any

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.screens.kit.boxes import Column
from app.screens.kit.fields import Field
from app.screens.kit.matches import ROW, Match, MatchesList, parts
from app.screens.kit.measure import px

THREE = (
    Match("0420 158", "Quellmar Larch 2", "Benedikt Arnsvik", 1),
    Match("0420 611", "Quellmar Larch 2", "last seen 2022", 2),
    Match("20 0420", "Ostrind Osier 7", "last seen 2021", 3),
)


class Page(QWidget):
    """Two fields and one list beside them."""

    def __init__(self) -> None:
        super().__init__()
        self.serial, self.maker, self.matches = Field("Serial number"), Field("Maker"), MatchesList()
        self.taken: list[Any] = []
        Column(self).add(self.serial, self.maker, self.matches).addStretch(1)
        self.matches.attach(self.serial, self.taken.append)
        self.matches.attach(self.maker, lambda target: self.taken.append(("maker", target)))


@pytest.fixture
def page(qtbot: QtBot) -> Page:
    made = Page()
    qtbot.addWidget(made)
    made.resize(500, 400)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    made.serial.setFocus()
    made.serial.set_text("0420")
    made.matches.show_matches(made.serial, "Serial numbers with “0420”", THREE)
    return made


def test_down_marks_and_enter_takes(qtbot: QtBot, page: Page) -> None:
    assert page.matches.isVisible()
    qtbot.keyClick(page.serial.edit, Qt.Key.Key_Down)
    qtbot.keyClick(page.serial.edit, Qt.Key.Key_Down)
    assert page.matches.rows.accessibleDescription() == "0420 611 Quellmar Larch 2 last seen 2022"
    page.grab()
    qtbot.keyClick(page.serial.edit, Qt.Key.Key_Return)
    assert page.taken == [2]
    assert not page.matches.isVisible()


def test_enter_with_nothing_marked_takes_nothing(qtbot: QtBot, page: Page) -> None:
    qtbot.keyClick(page.serial.edit, Qt.Key.Key_Return)
    assert page.taken == []


def test_the_mark_stops_at_both_ends(qtbot: QtBot, page: Page) -> None:
    for _ in range(9):
        qtbot.keyClick(page.serial.edit, Qt.Key.Key_Down)
    assert page.matches.rows.marked == 2
    for _ in range(9):
        qtbot.keyClick(page.serial.edit, Qt.Key.Key_Up)
    assert page.matches.rows.marked == -1


def test_a_click_takes_and_the_pointer_marks(qtbot: QtBot, page: Page) -> None:
    at = QPoint(40, px(ROW) * 2 + px(10))
    qtbot.mouseMove(page.matches.rows, at)
    qtbot.mouseClick(page.matches.rows, Qt.MouseButton.LeftButton, pos=at)
    assert page.taken == [3]


def test_matches_that_come_too_late_are_not_shown(qtbot: QtBot, page: Page) -> None:
    page.maker.setFocus()
    assert not page.matches.isVisible()
    page.matches.show_matches(page.serial, "Serial numbers", THREE)
    assert not page.matches.isVisible()
    page.matches.show_matches(page.maker, "Makers", THREE[:1])
    qtbot.keyClick(page.maker.edit, Qt.Key.Key_Down)
    qtbot.keyClick(page.maker.edit, Qt.Key.Key_Return)
    assert page.taken == [("maker", 1)]


def test_no_match_hides_the_list(page: Page) -> None:
    page.matches.show_matches(page.serial, "Serial numbers", ())
    assert not page.matches.isVisible()


@pytest.mark.parametrize(
    ("title", "typed", "cut"),
    [
        ("0420 158", "0420", [("0420", True), (" 158", False)]),
        ("20 0420", "0420", [("20 ", False), ("0420", True)]),
        ("0420 158", "0420158", [("0420 158", True)]),
        ("Benedikt Arnsvik", "arn", [("Benedikt ", False), ("Arn", True), ("svik", False)]),
        ("Benedikt", "x", [("Benedikt", False)]),
        ("Benedikt", "", [("Benedikt", False)]),
    ],
)
def test_the_part_that_was_typed_is_heavier(title: str, typed: str, cut: list[tuple[str, bool]]) -> None:
    assert parts(title, typed) == cut
