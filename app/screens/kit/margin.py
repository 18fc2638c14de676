"""The margin of a page, behind a double ruled line: what the book knows, why this number."""

from __future__ import annotations

from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.boxes import Column
from app.screens.kit.palette import ink
from app.screens.kit.scrolling import Scroller
from app.screens.kit.strokes import vline


class MarginPage(QWidget):
    """A page in the margin; put things into ``column``. ``width`` is 384 to 468 for L = 18."""

    def __init__(self, name: str, *, width: float = 468, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Expanding)
        measure.fix(self, width=width)
        inside = QWidget()
        self.column = Column(inside, gap=9, margins=(23, 18, 18, 18))
        self._scroller = Scroller(inside)
        self._scroller.setParent(self)
        Column(self, margins=(4, 0, 0, 0)).add(self._scroller, stretch=1)

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        p.fillRect(self.rect(), ink("alternate"))
        vline(p, 0, 0, self.height(), "edge")
        vline(p, 3, 0, self.height(), "line")
