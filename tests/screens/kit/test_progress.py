"""Progress: only after a second, with a count, and a way to stop."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.screens.kit.boxes import Column
from app.screens.kit.buttons import Button
from app.screens.kit.progress import ProgressLine


@pytest.fixture
def page(qtbot: QtBot) -> QWidget:
    made = QWidget()
    qtbot.addWidget(made)
    Column(made).add(ProgressLine(after_ms=20))
    made.resize(600, 60)
    made.show()
    return made


def line_of(page: QWidget) -> ProgressLine:
    found = page.findChild(ProgressLine)
    assert found is not None
    return found


def test_short_work_shows_nothing(page: QWidget) -> None:
    line = line_of(page)
    line.begin("Checking the book")
    assert not line.isVisible()
    line.end()
    assert not line._timer.isActive()


def test_long_work_tells_how_far_it_is(qtbot: QtBot, page: QWidget) -> None:
    line = line_of(page)
    line.begin("Checking the book", lambda: None)
    qtbot.waitUntil(line.isVisible)
    unknown = page.grab().toImage()
    line.step(30, 100)
    assert line.accessibleName() == "Checking the book"
    assert line.accessibleDescription() == "30 of 100"
    third = page.grab().toImage()
    line.step(100, 100)
    assert page.grab().toImage() != third != unknown
    line._bar.refit()
    line.end()
    assert not line.isVisible()


def test_it_can_be_stopped(qtbot: QtBot, page: QWidget) -> None:
    line = line_of(page)
    stopped: list[int] = []
    line.begin("Copying", lambda: stopped.append(1))
    qtbot.waitUntil(line.isVisible)
    line.findChild(Button).click()
    assert stopped == [1]
    assert not line.isVisible()


def test_what_cannot_be_stopped_offers_no_button(qtbot: QtBot, page: QWidget) -> None:
    line = line_of(page)
    line.begin("Saving")
    qtbot.waitUntil(line.isVisible)
    assert not line.findChild(Button).isVisible()
    line._stopped()
