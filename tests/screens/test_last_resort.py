"""What nobody handled is told and logged, and the program goes on."""

from __future__ import annotations

import logging
import sys
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QTimer, qInstallMessageHandler, qWarning
from PySide6.QtGui import QPaintEvent
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.screens.desk import Desk
from app.screens.last_resort import LastResort
from app.screens.page import Page
from app.screens.window import MainWindow
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence

pytestmark = [
    pytest.mark.logs_errors("these are about errors that nobody handled"),
    pytest.mark.qt_no_exception_capture,
]
TYPED = "Mirr Quistan, 01632 960 142"
OURS = "Something went wrong that is not your doing."


@pytest.fixture
def last() -> Iterator[LastResort]:
    hooks = sys.excepthook, threading.excepthook
    heard = qInstallMessageHandler(None)
    made = LastResort()
    made.install()
    yield made
    made.remove()
    assert (sys.excepthook, threading.excepthook) == (sys.__excepthook__, threading.__excepthook__)
    sys.excepthook, threading.excepthook = hooks
    qInstallMessageHandler(heard)


@pytest.fixture
def window(qtbot: QtBot, desk: Desk, tmp_path: Path, last: LastResort) -> MainWindow:
    made = MainWindow(desk, settings=tmp_path / "window.ini")
    qtbot.addWidget(made)
    made.register("counter", "counter", lambda desk, key: Page(desk), root=True)
    made.go_to("counter")
    made.show()
    last.watch(made, desk.doors)
    return made


def told(window: MainWindow) -> str:
    assert window.page is not None
    return window.page.trouble.words


def raise_value() -> None:
    raise ValueError(TYPED)


def test_an_error_in_a_slot_is_told_and_the_program_goes_on(qtbot: QtBot, window: MainWindow) -> None:
    QTimer.singleShot(0, raise_value)
    qtbot.waitUntil(lambda: told(window).startswith(OURS))
    window.page.trouble._copy()  # type: ignore[union-attr]
    copied = QApplication.clipboard().text()
    assert "Spindlebook 0.1.0, Python" in copied
    assert "in raise_value" in copied
    assert copied.rstrip().endswith("ValueError")
    assert TYPED not in copied


def test_an_error_in_a_thread_of_its_own_is_told(qtbot: QtBot, window: MainWindow) -> None:
    thread = threading.Thread(target=raise_value)
    thread.start()
    thread.join()
    qtbot.waitUntil(lambda: told(window).startswith(OURS))


def test_an_error_that_a_page_left_to_the_doors_is_told(qtbot: QtBot, window: MainWindow, desk: Desk) -> None:
    desk.doors.look_up(window, raise_value, lambda _: None)
    qtbot.waitUntil(lambda: told(window).startswith(OURS))


def test_a_refusal_that_a_page_left_to_the_doors_says_what_it_has_to_say(
    qtbot: QtBot, window: MainWindow, desk: Desk, caplog: pytest.LogCaptureFixture
) -> None:
    def refuse() -> None:
        raise Refusal(Sentence("{path} is gone.", {"path": "/media/book"}), Sentence("Plug the drive in."))

    desk.doors.change(window, refuse)
    qtbot.waitUntil(lambda: told(window) == "/media/book is gone. Plug the drive in.")
    assert [record.getMessage() for record in caplog.records] == ["nobody told the person: {path} is gone."]


class Broken(QWidget):
    """A widget that cannot be painted."""

    def paintEvent(self, event: QPaintEvent) -> None:
        raise ZeroDivisionError


def test_a_widget_that_cannot_be_painted_is_told_once_and_logged_a_few_times(
    qtbot: QtBot, window: MainWindow, caplog: pytest.LogCaptureFixture
) -> None:
    assert window.page is not None
    broken = Broken()
    broken.setMinimumSize(20, 20)
    window.page.sheet.add(broken)
    qtbot.waitUntil(lambda: told(window).startswith(OURS))
    for _ in range(24):
        broken.update()
        QApplication.processEvents()
    assert told(window).startswith(OURS)
    assert 2 <= len(caplog.records) <= 3  # the first and the tenth, perhaps the hundredth
    broken.hide()


def test_another_error_while_one_is_told_leaves_the_words_and_is_logged(
    qtbot: QtBot, window: MainWindow, caplog: pytest.LogCaptureFixture
) -> None:
    QTimer.singleShot(0, raise_value)
    qtbot.waitUntil(lambda: told(window).startswith(OURS))
    QTimer.singleShot(0, lambda: {}["nothing"])
    qtbot.waitUntil(lambda: len(caplog.records) == 2)
    QApplication.processEvents()
    window.page.trouble._copy()  # type: ignore[union-attr]
    assert "in raise_value" in QApplication.clipboard().text()


def test_what_goes_wrong_in_the_telling_is_logged_and_not_told_for_ever(
    qtbot: QtBot, window: MainWindow, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    tries: list[str] = []

    def cannot(*words: str, **details: str) -> None:
        tries.append(words[0])
        raise RuntimeError

    monkeypatch.setattr(window.page.trouble, "show_trouble", cannot)  # type: ignore[union-attr]
    QTimer.singleShot(0, raise_value)
    qtbot.waitUntil(lambda: len(caplog.records) == 2)
    for _ in range(20):
        QApplication.processEvents()
    assert len(tries) == 1


def test_before_there_is_a_window_it_is_logged(
    qtbot: QtBot, last: LastResort, caplog: pytest.LogCaptureFixture
) -> None:
    last.take(ValueError())
    QApplication.processEvents()
    assert [record.levelno for record in caplog.records] == [logging.ERROR]


def test_what_qt_says_is_logged(last: LastResort, caplog: pytest.LogCaptureFixture) -> None:
    qWarning("no such slot")
    assert [(r.name, r.getMessage()) for r in caplog.records] == [("qt", "no such slot")]
