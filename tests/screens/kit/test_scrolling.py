"""A sheet scrolls by what stands on it, and not by more."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.screens.kit.boxes import Column
from app.screens.kit.label import Label
from app.screens.kit.scrolling import Scroller

LONG = "Local codes and the maker's documents come before anything that this program says. " * 3


def shown(qtbot: QtBot, *things: QWidget) -> Scroller:
    inside = QWidget()
    column = Column(inside)
    column.add(*things)
    column.addStretch(1)
    scroller = Scroller(inside)
    qtbot.addWidget(scroller)
    scroller.resize(900, 300)
    scroller.show()
    QApplication.processEvents()
    return scroller


def test_words_that_wrap_do_not_make_a_sheet_longer_than_it_is(qtbot: QtBot) -> None:
    scroller = shown(qtbot, *(Label(LONG, wrap=True) for _ in range(5)))
    assert scroller.verticalScrollBar().maximum() == 0
    scroller.resize(300, 300)
    QApplication.processEvents()
    assert scroller.verticalScrollBar().maximum() > 0


@pytest.mark.parametrize("wrap", [True, False])
def test_what_does_not_fit_can_be_reached(qtbot: QtBot, wrap: bool) -> None:
    labels = [Label("one line", wrap=wrap) for _ in range(60)]
    scroller = shown(qtbot, *labels)
    scroller.show_focus(labels[-1])
    bottom = labels[-1].mapTo(scroller.viewport(), labels[-1].rect().bottomLeft()).y()
    assert labels[-1].height() >= labels[-1].fontMetrics().height()
    assert 0 < bottom <= scroller.viewport().height()


def test_a_sheet_that_comes_to_hold_words_that_wrap_is_measured_anew(qtbot: QtBot) -> None:
    scroller = shown(qtbot, Label("one line"))
    inside = scroller.widget()
    layout = inside.layout()
    assert isinstance(layout, Column)
    for _ in range(5):
        layout.insertWidget(0, Label(LONG, wrap=True))
    QApplication.processEvents()
    assert scroller.verticalScrollBar().maximum() == 0
