"""The foot of a form: every button whole, whatever the width; keys go before words do."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.screens.kit import measure
from app.screens.kit.buttons import Button
from app.screens.kit.foot import Foot


def foot_of(width: int, qtbot: QtBot) -> tuple[QWidget, Foot, list[Button]]:
    page = QWidget()
    qtbot.addWidget(page)
    save = Button("Save and print the ticket", kind="main", key="Ctrl+Return")
    empty = Button("Forget what was typed", kind="quiet")
    leave = Button("Leave, keep the draft", kind="quiet", key="Esc")
    foot = Foot(save, empty, leave=leave, parent=page)
    page.resize(width, 400)
    page.show()
    foot.resize(width, foot.heightForWidth(width))
    foot.grab()
    return page, foot, [save, empty, leave]


def test_with_room_the_way_out_stands_at_the_right_end(qtbot: QtBot) -> None:
    _page, foot, (save, empty, leave) = foot_of(1200, qtbot)
    assert save.width() == save.sizeHint().width()
    assert leave.geometry().right() == foot.width() - 1
    assert save.x() == 0
    assert empty.x() < 600
    assert {button.geometry().center().y() // 4 for button in (save, empty, leave)} == {
        save.geometry().center().y() // 4
    }


def test_keys_give_way_before_the_line_breaks(qtbot: QtBot) -> None:
    _page, _, buttons = foot_of(1200, qtbot)
    words_alone = sum(button.minimumSizeHint().width() for button in buttons) + 2 * measure.px(9)
    _narrow, _, (save, empty, leave) = foot_of(words_alone + 4, qtbot)
    assert save.width() == save.minimumSizeHint().width() < save.sizeHint().width()
    assert empty.y() == leave.y()


@pytest.mark.parametrize("percent", [100, 200])
@pytest.mark.parametrize("width", [320, 520, 760])
def test_no_word_is_cut_where_the_line_breaks(
    qtbot: QtBot, qapp: QApplication, percent: int, width: int
) -> None:
    measure.set_text_size(qapp, percent)
    _page, foot, buttons = foot_of(width * percent // 100, qtbot)
    for button in buttons:
        assert button.width() >= button.minimumSizeHint().width()
        assert foot.rect().right() >= button.mapTo(foot, button.rect().topRight()).x()
