"""A safety note in a frame of its own: triangle, title and words; larger where the danger was at hand."""

from __future__ import annotations

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Column
from app.screens.kit.label import Label
from app.screens.kit.measure import px
from app.screens.kit.shapes import flag_shape
from app.screens.kit.strokes import box

SIDE = 14  # of the triangle
LEFT = 37  # of the words


class FramedNote(QWidget):
    """``large`` sets title and words in the larger size."""

    def __init__(self, title: str, text: str, *, large: bool = False) -> None:
        super().__init__()
        self.title = Label(title, "large strong" if large else "strong", wrap=True)
        self.text = Label(text, "large" if large else "body", wrap=True)
        Column(self, gap=2, margins=(LEFT, 8, 14, 9)).add(self.title, self.text)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.setAccessibleName(title)
        self.setAccessibleDescription(text)

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        box(p, self.rect(), border="caution", width=1.5)
        side = px(SIDE)
        middle = self.title.geometry().top() + self.title.fontMetrics().height() / 2
        flag_shape(p, QRectF(px(12), middle - side / 2, side, side), "caution")
