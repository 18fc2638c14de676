"""The find box: results while typing, grouped, by keys and by mouse."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from app.screens.desk import FindHit
from app.screens.frame.find_box import FindBox
from app.screens.kit.boxes import Column

HITS = (
    FindHit("Jobs", "2131", "Quellmar Larch 2", ("job", 1)),
    FindHit("Customers", "Benedikt Arnsvik", "01632 960 142", ("customer", 2)),
    FindHit("Jobs", "2113", "Kestovar Kelp 1", ("job", 3)),
)


class Window(QWidget):
    """A box over a page."""

    def __init__(self) -> None:
        super().__init__()
        self.box, self.page = FindBox(), QLineEdit()
        self.asked: list[str] = []
        self.late: list[Callable[[Sequence[FindHit]], None]] = []
        self.opened: list[Any] = []
        self.box.look_up = self.look_up
        self.box.opened.connect(self.opened.append)
        self.answers_at_once = True
        Column(self).add(self.box, self.page).addStretch(1)

    def look_up(self, text: str, deliver: Callable[[Sequence[FindHit]], None]) -> None:
        self.asked.append(text)
        if self.answers_at_once:
            deliver([hit for hit in HITS if text.casefold() in f"{hit.title} {hit.second}".casefold()])
        else:
            self.late.append(deliver)


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    made = Window()
    qtbot.addWidget(made)
    made.resize(700, 500)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    made.box.setFocus()
    return made


def test_results_stand_under_the_box_grouped_by_kind(qtbot: QtBot, window: Window) -> None:
    qtbot.keyClicks(window.box, "1")
    results = window.box.results
    assert results.isVisible()
    assert [hit.kind for hit in results.hits] == ["Jobs", "Jobs", "Customers"]
    assert results.y() >= window.box.geometry().bottom() - 2
    window.grab()


def test_down_marks_and_enter_opens(qtbot: QtBot, window: Window) -> None:
    qtbot.keyClicks(window.box, "21")
    assert window.box.results.accessibleName() == "Jobs: 2131 Quellmar Larch 2"
    qtbot.keyClick(window.box, Qt.Key.Key_Down)
    qtbot.keyClick(window.box, Qt.Key.Key_Down)
    qtbot.keyClick(window.box, Qt.Key.Key_Up)
    qtbot.keyClick(window.box, Qt.Key.Key_Return)
    assert window.opened == [("job", 1)]
    assert not window.box.results.isVisible()
    assert window.box.text() == ""


def test_the_pointer_marks_and_a_click_opens(qtbot: QtBot, window: Window) -> None:
    qtbot.keyClicks(window.box, "1")
    results = window.box.results
    top = next(top for top, i in results._tops() if i == 2)
    at = QPoint(60, round(top) + 10)
    qtbot.mouseMove(results, at)
    assert results.marked == 2
    qtbot.mouseClick(results, Qt.MouseButton.LeftButton, pos=at)
    assert window.opened == [("customer", 2)]


def test_nothing_found_is_said(qtbot: QtBot, window: Window) -> None:
    qtbot.keyClicks(window.box, "zz")
    assert window.box.results.isVisible()
    assert window.box.results.hits == ()
    assert window.box.results.accessibleName() == "Results"
    window.grab()
    qtbot.keyClick(window.box, Qt.Key.Key_Return)
    assert window.opened == []


def test_answers_that_come_too_late_are_not_shown(qtbot: QtBot, window: Window) -> None:
    window.answers_at_once = False
    qtbot.keyClicks(window.box, "21")
    assert window.asked == ["2", "21"]
    window.late[0](HITS)
    assert not window.box.results.isVisible()
    window.late[1](HITS[:1])
    assert window.box.results.isVisible()
    window.page.setFocus()
    assert not window.box.results.isVisible()
    window.late[1](HITS)
    assert not window.box.results.isVisible()


def test_esc_empties_the_box_then_gives_up(qtbot: QtBot, window: Window) -> None:
    qtbot.keyClicks(window.box, "21")
    qtbot.keyClick(window.box, Qt.Key.Key_Escape)
    assert window.box.text() == ""
    assert not window.box.results.isVisible()
    with qtbot.waitSignal(window.box.given_up):
        qtbot.keyClick(window.box, Qt.Key.Key_Escape)


def test_emptying_the_box_takes_the_results_away(qtbot: QtBot, window: Window) -> None:
    qtbot.keyClicks(window.box, "2")
    qtbot.keyClick(window.box, Qt.Key.Key_Backspace)
    assert not window.box.results.isVisible()


def test_coming_back_to_the_box_asks_again(qtbot: QtBot, window: Window) -> None:
    qtbot.keyClicks(window.box, "2")
    window.page.setFocus()
    window.box.setFocus()
    assert window.box.results.isVisible()
    assert window.box.selectedText() == "2"
    window.box.refit()
