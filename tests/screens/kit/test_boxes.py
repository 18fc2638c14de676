"""Layouts in measures, and things that go on in the next line."""

from __future__ import annotations

import itertools

import pytest
from PySide6.QtWidgets import QLabel, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from app.screens.kit.boxes import Column, Flow, Row, clear_layout, set_shown
from app.screens.kit.measure import px


class Block(QWidget):
    """A thing of a fixed size."""

    def __init__(self, width: int, height: int = 20) -> None:
        super().__init__()
        self.setFixedSize(width, height)


def test_columns_and_rows_take_widgets_layouts_and_space(qtbot: QtBot) -> None:
    page = QWidget()
    qtbot.addWidget(page)
    a, b, c = Block(50), Block(50), Block(50)
    Column(page, gap=9, margins=(27, 0, 0, 0)).add(a, 18, Row(gap=4).add(b, c))
    page.resize(300, 200)
    page.show()
    assert a.x() == px(27)
    assert c.x() - b.x() >= 50 + px(4)
    assert b.y() > a.y()


@pytest.mark.parametrize("width", [60, 130, 300, 1000])
def test_a_flow_uses_the_width_there_is_and_nothing_overlaps_or_sticks_out(qtbot: QtBot, width: int) -> None:
    page = QWidget()
    qtbot.addWidget(page)
    flow = Flow(page, gap=10, line_gap=4)
    blocks = [Block(55, 20 + i) for i in range(7)]
    flow.add(*blocks)
    page.resize(width, flow.heightForWidth(width))
    page.show()
    seen = [block.geometry() for block in blocks]
    for i, one in enumerate(seen):
        assert page.rect().contains(one)
        assert not any(one.intersects(other) for other in seen[i + 1 :])
    for one, after in itertools.pairwise(seen):
        assert after.left() > one.right() or after.top() > one.top()


def test_hidden_things_take_no_room_in_a_flow(qtbot: QtBot) -> None:
    page = QWidget()
    qtbot.addWidget(page)
    flow = Flow(page, gap=10)
    a, b, c = Block(50), Block(50), Block(50)
    flow.add(a, b, c)
    b.hide()
    page.resize(400, 40)
    page.show()
    assert c.x() == 50 + px(10)
    assert flow.sizeHint().width() == 100 + px(10)


def test_a_flow_is_a_layout_as_qt_wants_it(qtbot: QtBot) -> None:
    page = QWidget()
    qtbot.addWidget(page)
    flow = Flow(page)
    flow.add(Block(10))
    assert flow.count() == 1
    assert flow.itemAt(0) is not None
    assert flow.itemAt(5) is None
    assert flow.takeAt(5) is None
    assert flow.expandingDirections().value == 0
    flow.refit()


def test_clearing_lets_everything_go(qtbot: QtBot) -> None:
    page = QWidget()
    qtbot.addWidget(page)
    column = Column(page)
    column.add(QPushButton("x"), Row(), 5)
    clear_layout(column)
    assert column.count() == 0


def test_showing_a_part_before_it_has_its_page_makes_no_window(qtbot: QtBot) -> None:
    part = QLabel("part")
    set_shown(part, True)
    assert not part.isVisible()
    set_shown(part, False)
    set_shown(part, True)
    page = QWidget()
    qtbot.addWidget(page)
    Column(page).add(part)
    page.show()
    assert part.isVisible()
    set_shown(part, False)
    assert not part.isVisible()


def test_margins_can_be_set_anew(qtbot: QtBot) -> None:
    page = QWidget()
    qtbot.addWidget(page)
    row = Row(page)
    row.set_margins((18, 0, 18, 0))
    assert row.contentsMargins().left() == px(18)
