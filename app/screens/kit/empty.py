"""What stands where nothing is yet: a drawing of the bench, one sentence, and how to begin."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Column, Row, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.kit.measure import fx, px
from app.screens.kit.palette import ink
from app.screens.kit.strokes import path_of


class BenchDrawing(QWidget):
    """A bench with a lamp and a dotted player: nothing stands there yet."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def refit(self) -> None:
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        return QSize(px(312), px(130))

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        p.setRenderHint(QPainter.RenderHint.Antialiasing)
        k = fx(1)
        p.scale(k, k)
        pen = QPen(ink("edge"), 1.8)
        pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        p.setPen(pen)
        for y in (104, 112):
            p.drawLine(QPointF(1, y), QPointF(311, y))
        for x in (36, 276):
            p.drawLine(QPointF(x, 112), QPointF(x, 128))
        p.drawLine(QPointF(17, 103.4), QPointF(35, 103.4))
        p.drawPath(path_of((26, 103), (26, 40), (66, 12), closed=False))
        p.drawPath(path_of((62, 6), (72, 2), (94, 20), (64, 32)))
        pen.setDashPattern([3.2, 2.2])
        p.setPen(pen)
        p.drawRect(QRectF(92, 52, 168, 44))
        p.drawRect(QRectF(108, 62, 70, 9))
        p.drawRect(QRectF(192, 62, 26, 9))
        p.drawEllipse(QPointF(238, 74), 8, 8)
        for x in (106, 230):
            p.drawLine(QPointF(x, 100), QPointF(x + 14, 100))


class EmptyPage(QWidget):
    """One large sentence what belongs here, one soft line, a main button and at most two plain ones.

    The drawing above them is shown only where it leaves the words and buttons their room.
    """

    def __init__(
        self, sentence: str, soft: str = "", buttons: tuple[Button, ...] = (), parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        centre = Qt.AlignmentFlag.AlignHCenter
        column = self._column = Column(self, gap=0, margins=(0, 27, 0, 27))
        column.addStretch(2)
        self.drawing = BenchDrawing()
        column.addWidget(self.drawing, 0, centre)
        column.add(18)
        for text, kind in ((sentence, "large"), (soft, "soft")):
            label = Label(text, kind, wrap=True)
            label.setAlignment(Qt.AlignmentFlag.AlignCenter)
            column.addWidget(label)
            column.add(5)
        column.add(8)
        row = Row(gap=9)
        row.addStretch(1)
        row.add(*buttons)
        row.addStretch(1)
        column.addLayout(row)
        column.addStretch(3)
        self.setAccessibleName(sentence)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit_drawing()
        self.updateGeometry()  # in another width the words need another height

    def event(self, event: QEvent) -> bool:
        done = super().event(event)
        if event.type() == QEvent.Type.LayoutRequest:  # other words, or another size of text
            self._fit_drawing()
        return done

    def minimumSizeHint(self) -> QSize:
        least = super().minimumSizeHint()
        return QSize(least.width(), self._words_height(max(self.width(), least.width())))

    def _words_height(self, width: int) -> int:
        """What is needed without the drawing."""
        whole = self._column.heightForWidth(max(width, 1))  # the words break into lines
        return whole if self.drawing.isHidden() else whole - self.drawing.sizeHint().height()

    def _fit_drawing(self) -> None:
        needed = self._words_height(self.width()) + self.drawing.sizeHint().height()
        set_shown(self.drawing, needed <= self.height())
