"""A choice: words in a row, by arrow keys and by mouse."""

from __future__ import annotations

from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.screens.kit import measure
from app.screens.kit.choice import Choice
from app.screens.kit.palette import ink

MAINS = (("I", "class I"), ("II", "class II"), ("battery", "battery"), ("not_known", "not known"))


@pytest.fixture
def choice(qtbot: QtBot) -> Choice:
    made = Choice("Mains", MAINS, "II")
    qtbot.addWidget(made)
    made.resize(600, 40)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def words_of(choice: Choice) -> list[Any]:
    return choice._group.buttons()


def test_why_it_cannot_stand_is_said_behind_the_words_until_something_is_chosen(choice: Choice) -> None:
    choice.set_value(None)
    choice.set_error("Choose one.")
    choice.set_error("Choose what the customer answered.")
    assert choice.error() == "Choose what the customer answered."
    assert words_of(choice)[0].accessibleDescription() == choice.error()
    choice.set_value("I")
    assert choice.error() == ""
    assert words_of(choice)[0].accessibleDescription() == ""


def test_arrow_keys_move_and_choose(qtbot: QtBot, choice: Choice) -> None:
    heard: list[Any] = []
    choice.changed.connect(heard.append)
    choice.setFocus()
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Right)
    assert choice.value() == "battery"
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Left)
    assert heard == ["battery", "II"]


def test_a_click_chooses(qtbot: QtBot, choice: Choice) -> None:
    qtbot.mouseClick(words_of(choice)[3], Qt.MouseButton.LeftButton)
    assert choice.value() == "not_known"


def test_space_and_enter_choose_when_nothing_is_chosen_yet(qtbot: QtBot) -> None:
    choice = Choice("Mains", MAINS)
    qtbot.addWidget(choice)
    choice.show()
    assert choice.value() is None
    qtbot.keyClick(words_of(choice)[0], Qt.Key.Key_Return)
    assert choice.value() == "I"


def test_a_choice_can_be_set_and_taken_back(choice: Choice) -> None:
    choice.set_value("battery")
    assert choice.value() == "battery"
    choice.set_value(None)
    assert choice.value() is None
    choice.set_value(None)
    choice.set_value("I")
    assert choice.value() == "I"


def test_every_word_is_heard_with_its_question(choice: Choice) -> None:
    assert [w.accessibleName() for w in words_of(choice)][1] == "Mains: class II"
    choice.set_name("Mains class")
    assert [w.accessibleName() for w in words_of(choice)][1] == "Mains class: class II"


def test_choosing_moves_nothing(choice: Choice) -> None:
    before = [w.geometry() for w in words_of(choice)]
    choice.set_value("not_known")
    QApplication.processEvents()
    assert [w.geometry() for w in words_of(choice)] == before


def test_other_words_can_be_offered(choice: Choice) -> None:
    choice.set_options((("a", "Ready 3"), ("b", "All 14")), "b")
    assert choice.value() == "b"
    assert [w.text() for w in words_of(choice)] == ["Ready 3", "All 14"]
    choice.grab()


@pytest.mark.parametrize("percent", measure.TEXT_SIZES)
def test_words_that_do_not_fit_go_on_in_the_next_line(qapp: QApplication, qtbot: QtBot, percent: int) -> None:
    measure.set_text_size(qapp, percent)
    choice = Choice("Mains", MAINS, "II")
    qtbot.addWidget(choice)
    width = 150 * percent // 100
    choice.resize(width, choice.heightForWidth(width))
    choice.show()
    for word in words_of(choice):
        assert choice.rect().contains(word.geometry())
        assert word.width() >= measure.width(word.text())


@pytest.mark.parametrize("percent", [100, 200])
def test_the_frame_of_the_focus_stands_whole_around_its_word(
    qtbot: QtBot, qapp: QApplication, choice: Choice, percent: int
) -> None:
    measure.set_text_size(qapp, percent)
    choice.resize(choice.sizeHint())
    choice.setFocus()
    word = QApplication.focusWidget()
    assert isinstance(word, QWidget)
    qtbot.waitUntil(word.hasFocus)
    picture = word.grab().toImage()
    middle, right = picture.height() // 2, picture.width() - 1
    accent = ink("accent").rgb()
    assert [picture.pixel(x, middle) for x in (0, 1, right - 1, right)] == [accent] * 4
    free = picture.pixel(2, middle)  # the word itself keeps away from the frame
    assert [picture.pixel(x, middle) for x in (3, right - 3, right - 2)] == [free] * 3
    assert choice.rect().contains(word.geometry())
