"""Buttons: main, plain, quiet and blocked, by mouse and by keyboard."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.screens.kit import measure
from app.screens.kit.buttons import Button, key_words
from app.screens.kit.measure import px

KINDS = pytest.mark.parametrize("kind", ["main", "plain", "quiet"])


@KINDS
def test_a_click_space_and_enter_do_it(qtbot: QtBot, kind: str) -> None:
    done: list[int] = []
    button = Button("Save", lambda: done.append(1), kind=kind, key="Ctrl+Return")
    qtbot.addWidget(button)
    button.show()
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    for key in (Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter):
        qtbot.keyClick(button, key)
    assert len(done) == 4


def test_ctrl_enter_is_left_to_the_page(qtbot: QtBot) -> None:
    done: list[int] = []
    button = Button("Cancel", lambda: done.append(1))
    qtbot.addWidget(button)
    qtbot.keyClick(button, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    assert done == []


def test_a_blocked_button_says_what_holds_it_and_does_not_act(qtbot: QtBot) -> None:
    done: list[int] = []
    held: list[int] = []
    button = Button("Hand back", lambda: done.append(1))
    button.held.connect(lambda: held.append(1))
    qtbot.addWidget(button)
    button.block("safety test, final readings to do")
    assert button.blocked
    assert button.words() == "Hand back: safety test, final readings to do"
    assert button.accessibleName() == button.words()
    assert button.isEnabled()
    assert button.focusPolicy() == Qt.FocusPolicy.StrongFocus
    button.click()
    assert (done, held) == ([], [1])
    button.free()
    button.click()
    assert (done, held) == ([1], [1])


@KINDS
@pytest.mark.parametrize("percent", measure.TEXT_SIZES)
def test_words_and_key_fit_at_every_text_size(
    qapp: QApplication, qtbot: QtBot, kind: str, percent: int
) -> None:
    measure.set_text_size(qapp, percent)
    button = Button("Save and print the ticket", kind=kind, key="Ctrl+Return")
    qtbot.addWidget(button)
    font = measure.strong() if kind == "main" else measure.body()
    need = measure.width("Save and print the ticket", font) + measure.width("Ctrl+Enter") + px(9)
    assert button.sizeHint().width() >= need
    assert button.sizeHint().height() >= measure.line()


def test_a_mnemonic_is_no_letter_and_a_doubled_ampersand_is_one(qtbot: QtBot) -> None:
    button = Button("&Save && print")
    qtbot.addWidget(button)
    assert button.accessibleName() == "Save & print"


def test_keys_are_written_as_people_read_them() -> None:
    assert key_words("Ctrl+Return") == "Ctrl+Enter"
    assert key_words("") == ""


@pytest.mark.parametrize("level", ["gate", "stop"])
@KINDS
def test_every_kind_paints_itself_focused_and_not(qtbot: QtBot, kind: str, level: str) -> None:
    button = Button("Change", kind=kind, key="Ctrl+U")
    qtbot.addWidget(button)
    button.show()
    button.activateWindow()
    plain = button.grab().toImage()
    button.setFocus()
    qtbot.waitUntil(button.hasFocus)
    assert button.grab().toImage() != plain
    button.block("fuse", level)
    button.resize(button.sizeHint())
    focused = button.grab().toImage()
    button.clearFocus()
    assert button.grab().toImage() != focused
