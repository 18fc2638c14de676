"""A line of quiet buttons that goes on below where the width ends."""

from __future__ import annotations

from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Column, Flow
from app.screens.kit.buttons import Button


def link_line(*buttons: Button) -> QWidget:
    """The buttons beside each other."""
    line = QWidget()
    Flow(line, gap=18, line_gap=3).add(*buttons)
    policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
    policy.setHeightForWidth(True)
    line.setSizePolicy(policy)
    return line


def inset(*items: QWidget, gap: float = 5) -> Column:
    """Things that stand under the words of a table which sticks out by u."""
    column = Column(gap=gap, margins=(9, 0, 9, 0))
    column.add(*items)
    return column
