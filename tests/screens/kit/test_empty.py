"""What stands where nothing is yet."""

from __future__ import annotations

from pytestqt.qtbot import QtBot

from app.screens.kit.buttons import Button
from app.screens.kit.empty import BenchDrawing, EmptyPage


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
