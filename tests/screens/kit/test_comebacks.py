"""Comebacks: bars with intervals, by keyboard, and in words."""

from __future__ import annotations

from typing import Any

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor
from pytestqt.qtbot import QtBot

from app.screens.kit.comebacks import HEAD, ROW, ComebackBars, ComebackFacts, ComebackKey
from app.screens.kit.measure import px
from app.screens.kit.palette import LIGHT

ROWS = (
    ComebackFacts("Ponnik S5", "sled, three-beam", 0.27, 0.15, 0.44, "9 of 33", 0.10, "57 of 560", "more",
                  "more often", "adjusted p 0.040", "a difference as large would arise by chance in 4 of 100", 1),
    ComebackFacts("Velk A2", "swing arm", 0.20, 0.12, 0.305, "14 of 71", 0.10, "52 of 522", "unclear",
                  "cannot tell", "adjusted p 0.12", key=2),
    ComebackFacts("Murn A7", "swing arm", 0.14, 0.025, 0.513, "1 of 7", 0.11, "65 of 586", "few",
                  "too few to say", "under 10 jobs", key=3),
)  # fmt: skip


@pytest.fixture
def bars(qtbot: QtBot) -> ComebackBars:
    made = ComebackBars("Transport type")
    qtbot.addWidget(made)
    made.set_rows(ROWS)
    made.resize(820, made.sizeHint().height())
    made.show()
    return made


def test_rows_are_marked_and_opened_by_keys(qtbot: QtBot, bars: ComebackBars) -> None:
    marked: list[Any] = []
    opened: list[Any] = []
    bars.marked.connect(marked.append)
    bars.opened.connect(opened.append)
    for key in (Qt.Key.Key_Down, Qt.Key.Key_Down, Qt.Key.Key_Down, Qt.Key.Key_Up, Qt.Key.Key_Return):
        qtbot.keyClick(bars, key)
    assert marked == [2, 3, 3, 2]
    assert opened == [2]


def test_rows_are_marked_and_opened_by_mouse(qtbot: QtBot, bars: ComebackBars) -> None:
    opened: list[Any] = []
    bars.opened.connect(opened.append)
    at = QPoint(30, px(HEAD) + px(ROW) * 2 + 10)
    qtbot.mouseMove(bars, QPoint(30, px(HEAD) + 10))
    qtbot.mouseClick(bars, Qt.MouseButton.LeftButton, pos=at)
    assert bars.at == 2
    qtbot.mouseDClick(bars, Qt.MouseButton.LeftButton, pos=at)
    assert opened == [3]
    qtbot.mouseClick(bars, Qt.MouseButton.LeftButton, pos=QPoint(30, 5))
    assert bars.at == 2


def test_the_marked_row_is_heard_with_its_figures(bars: ComebackBars) -> None:
    said = bars.accessibleDescription().replace("\u00a0", " ")
    assert said.startswith("Ponnik S5: 27 % (9 of 33)")
    assert "more often" in said


def test_only_more_often_is_filled_with_the_accent(bars: ComebackBars) -> None:
    image = bars.grab().toImage()
    accent = QColor(LIGHT.accent)

    def rows_with(ink: QColor) -> set[int]:
        left, wide = bars._plot()
        found = set()
        for y in range(px(HEAD), image.height()):
            if any(image.pixelColor(x, y) == ink for x in range(int(left), int(left + wide))):
                found.add((y - px(HEAD)) // px(ROW))
        return found

    assert rows_with(accent) == {0}


@pytest.mark.parametrize("highest", [0.03, 0.3, 0.95])
def test_the_scale_holds_every_interval(qtbot: QtBot, highest: float) -> None:
    bars = ComebackBars("x")
    qtbot.addWidget(bars)
    bars.set_rows(
        [ComebackFacts("a", "", highest / 2, 0, highest, "", 0.01, "", "unclear", "")], "Fault group"
    )
    bars.resize(700, 200)
    left, wide = bars._plot()
    assert left <= bars._x(highest) <= left + wide + 0.5
    bars.grab()


def test_nothing_to_show(qtbot: QtBot) -> None:
    bars = ComebackBars("x")
    qtbot.addWidget(bars)
    bars.set_rows([])
    bars.grab()
    bars.refit()
    key = ComebackKey()
    qtbot.addWidget(key)
    key.resize(700, 30)
    key.grab()
