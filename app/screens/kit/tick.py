"""A box to tick, with its word and, soft behind it, a value."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRectF, QSize, Qt
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QCheckBox, QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.measure import px
from app.screens.kit.shapes import tick
from app.screens.kit.strokes import box, words


class Tick(QCheckBox):
    """A box with its word. ``detail`` stands soft behind the word."""

    def __init__(
        self, text: str, on: bool = False, *, detail: str = "", parent: QWidget | None = None
    ) -> None:
        super().__init__(text, parent)
        self._detail = detail
        self.setChecked(on)
        self.setAccessibleName(text)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def set_detail(self, detail: str) -> None:
        """The soft words behind."""
        self._detail = detail
        self.updateGeometry()
        self.update()

    def refit(self) -> None:
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        behind = measure.width(self._detail) + px(7) if self._detail else 0
        return QSize(px(24) + measure.width(self.text()) + behind + px(4), px(32))

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def hitButton(self, pos: QPoint) -> bool:
        return self.rect().contains(pos)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            event.ignore()  # the form moves on; Space ticks
            return
        super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        side = px(15)
        rect = QRectF(px(1), (self.height() - side) // 2, side, side)
        focused = self.hasFocus()
        box(p, rect, fill="base", border="accent" if focused else "edge", width=2 if focused else 1, radius=1)
        if self.isChecked():
            tick(p, rect.adjusted(1, 1, -1, -1))
        room = self.rect().adjusted(px(22), 0, 0, 0)
        taken = words(p, room, self.text(), font=measure.body(), elide=False)
        if self._detail:
            words(p, room.adjusted(round(taken) + px(7), 0, 0, 0), self._detail, of="soft", elide=False)
        if focused:
            box(p, QRectF(px(19), px(4), taken + px(6), self.height() - px(8)), border="accent", width=1)
