"""A combo box gives keys, not places."""

from __future__ import annotations

from typing import Any

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.screens.kit import measure
from app.screens.kit.combo import Combo

WORDS = (("warm", "stops when warm"), ("dead", "dead"), ("skips", "skips"))


@pytest.fixture
def combo(qtbot: QtBot) -> Combo:
    made = Combo("Fault, in short", WORDS, "dead")
    qtbot.addWidget(made)
    made.show()
    return made


def test_it_is_named_and_as_wide_as_its_longest_word(combo: Combo) -> None:
    assert combo.accessibleName() == "Fault, in short"
    assert combo.sizeHint().width() > measure.width("stops when warm")
    combo.set_name("Fault")
    assert combo.accessibleName() == "Fault"


def test_keys_come_back(qtbot: QtBot, combo: Combo) -> None:
    heard: list[Any] = []
    combo.changed.connect(heard.append)
    qtbot.keyClick(combo, Qt.Key.Key_Down)
    assert combo.value() == "skips"
    combo.set_value("warm")
    combo.set_value(None)
    assert combo.value() is None
    assert heard == ["skips", "warm", None]
    combo.grab()


def test_new_words_are_no_change_by_the_person(combo: Combo) -> None:
    heard: list[Any] = []
    combo.changed.connect(heard.append)
    combo.set_options((("a", "first"), ("b", "second")), "b")
    assert combo.value() == "b"
    combo.set_options((("a", "first"),), "gone")
    assert combo.value() == "a"
    assert heard == []


def test_enter_is_left_to_the_form(qtbot: QtBot, combo: Combo) -> None:
    qtbot.keyClick(combo, Qt.Key.Key_Return)
    assert not combo.view().isVisible()


def test_a_width_can_be_given(qtbot: QtBot) -> None:
    combo = Combo("Unit", WORDS, width=96)
    qtbot.addWidget(combo)
    assert combo.width() == measure.px(96)
    combo.setProperty("wrong", True)
    combo.refit()
    combo.grab()
