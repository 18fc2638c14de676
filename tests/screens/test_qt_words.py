"""Qt's own words follow the window's language."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QApplication

from app.screens.kit.buttons import key_words
from app.screens.qt_words import speak


@pytest.fixture
def english_after(qapp: QApplication) -> Iterator[QApplication]:
    yield qapp
    speak(qapp, "en_GB")


def test_keys_are_named_as_the_keyboard_names_them(english_after: QApplication) -> None:
    speak(english_after, "de")
    assert key_words("Ctrl+N") == "Strg+N"
    assert key_words("Ctrl+Return") == "Strg+Enter"
    assert key_words("Ctrl+Shift+Del") == "Strg+Umschalt+Entf"
    speak(english_after, "en_GB")
    assert key_words("Ctrl+N") == "Ctrl+N"


def test_a_key_stays_the_same_key_in_another_language(english_after: QApplication) -> None:
    speak(english_after, "de")
    action = QAction()
    for key in ("Ctrl+N", "Ctrl+Shift+Z", "Ctrl+Del", "Alt+Left", "Esc", "Ctrl+,"):
        action.setShortcut(QKeySequence(key))
        assert action.shortcut().toString(QKeySequence.SequenceFormat.PortableText) == key


def test_a_language_that_qt_does_not_bring_stays_english(english_after: QApplication) -> None:
    speak(english_after, "xx")
    assert key_words("Ctrl+N") == "Ctrl+N"
