"""Trouble is a bar at the top: what happened, why, what to do, details to copy."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.screens.kit.boxes import Column
from app.screens.kit.buttons import Button
from app.screens.kit.trouble import TroubleBar


@pytest.fixture
def bar(qtbot: QtBot) -> TroubleBar:
    page = QWidget()
    qtbot.addWidget(page)
    made = TroubleBar()
    Column(page).add(made).addStretch(1)
    page.resize(1200, 400)
    page.show()
    page.activateWindow()
    qtbot.waitUntil(page.isActiveWindow)
    page.setProperty("bar", made)
    made._page = page  # type: ignore[attr-defined]  # keeps the page alive as long as its bar
    return made


def test_it_is_not_there_until_something_happens(bar: TroubleBar) -> None:
    assert not bar.isVisible()
    assert bar.words == ""


def test_it_says_what_why_and_what_to_do_and_the_first_action_has_the_focus(
    qtbot: QtBot, bar: TroubleBar
) -> None:
    again: list[int] = []
    bar.show_trouble(
        "The disk is full: this reading is not in the book yet.",
        "The book needs 4 MB and the disk has 0.6 MB left.",
        [("Save again", lambda: again.append(1)), ("Show large files", lambda: None)],
        details="OSError 28",
    )
    assert bar.words.startswith("The disk is full")
    buttons = [b for b in bar.findChildren(Button) if b.isVisible()]
    assert [b.words() for b in buttons] == ["Save again", "Show large files", "Copy details", "Hide this"]
    qtbot.waitUntil(buttons[0].hasFocus)
    buttons[0].click()
    assert again == [1]
    buttons[2].click()
    assert "OSError 28" in QGuiApplication.clipboard().text()
    bar.grab()
    buttons[3].click()
    assert not bar.isVisible()


def test_new_trouble_takes_the_place_of_the_old(bar: TroubleBar) -> None:
    bar.show_trouble("First.", details="x")
    bar.show_trouble("Second.")
    assert bar.words == "Second."


@pytest.mark.parametrize("width", [700, 1240])
def test_words_keep_their_room(bar: TroubleBar, width: int) -> None:
    bar.window().resize(width, 400)
    bar.show_trouble("Something happened. " * 6, "And this is why. " * 8, [("Do this", lambda: None)] * 3)
    bar.window().grab()
    assert bar._what.width() >= width * 0.45
    for button in bar.findChildren(Button):
        if button.isVisible():
            assert button.mapTo(bar, button.rect().bottomRight()).x() <= bar.width()
