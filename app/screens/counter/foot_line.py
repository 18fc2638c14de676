"""The foot of a form: its buttons under a rule."""

from __future__ import annotations

from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from app.screens.kit.strokes import hline


class FootLine(QWidget):
    """Draws the rule; put a row of buttons into it."""

    def paintEvent(self, event: QPaintEvent) -> None:
        hline(QPainter(self), 0, self.width(), 0, "edge")
