"""What stands where nothing is yet."""

from __future__ import annotations

from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.screens.kit import measure
from app.screens.kit.buttons import Button
from app.screens.kit.empty import BenchDrawing, EmptyPage
from app.screens.kit.label import Label


def test_it_says_what_belongs_here_and_how_to_begin(qtbot: QtBot) -> None:
    begun: list[int] = []
    page = EmptyPage(
        "Every player in the shop stands here, the soonest promise first",
        "A line appears when you take one in.",
        (Button("Take in the first player", lambda: begun.append(1), kind="main", key="Ctrl+N"),),
    )
    qtbot.addWidget(page)
    page.resize(900, 600)
    page.show()
    assert page.accessibleName().startswith("Every player")
    page.findChild(Button).click()
    assert begun == [1]
    page.findChild(BenchDrawing).refit()
    page.grab()


def test_the_drawing_leaves_where_words_and_button_need_the_room(qtbot: QtBot) -> None:
    room = QWidget()
    page = EmptyPage(
        "Every player in the shop stands here, the soonest promise first",
        "A line appears when you take one in, and leaves when it is handed back.",
        (Button("Take in the first player", lambda: None, kind="main", key="Ctrl+N"),),
        parent=room,
    )
    qtbot.addWidget(room)
    page.resize(700, 500)
    room.show()
    assert page.drawing.isVisible()
    low = page.minimumSizeHint().height()
    assert low < 300
    page.resize(700, 240)
    assert page.drawing.isHidden()
    parts = [*page.findChildren(Label), *page.findChildren(Button)]
    qtbot.waitUntil(lambda: all(page.rect().contains(part.geometry()) for part in parts))
    assert [part for part in parts if part.height() < part.minimumSizeHint().height()] == []
    page.resize(700, 500)
    assert page.drawing.isVisible()


def test_with_large_text_the_drawing_asks_anew_for_room(qtbot: QtBot, qapp: QApplication) -> None:
    room = QWidget()
    page = EmptyPage(
        "Every player in the shop stands here", "A line appears when you take one in.", parent=room
    )
    qtbot.addWidget(room)
    page.resize(700, 330)
    room.show()
    assert page.drawing.isVisible()
    measure.set_text_size(qapp, 200)
    qtbot.waitUntil(page.drawing.isHidden)
    measure.set_text_size(qapp, 100)
    qtbot.waitUntil(page.drawing.isVisible)
