"""A box to tick, with its words and, soft behind them, a value."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetrics, QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QCheckBox, QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.shapes import tick
from app.screens.kit.strokes import box, words

LEAST = 200  # px that longer words get before they go on in the next line
MUCH = 100_000  # px, higher than any words


class Tick(QCheckBox):
    """A box with its words, in several lines where there is no room. ``detail`` stands soft behind the words."""

    def __init__(
        self, text: str, on: bool = False, *, detail: str = "", parent: QWidget | None = None
    ) -> None:
        super().__init__(text, parent)
        self._detail = detail
        self.setChecked(on)
        self.setAccessibleName(text)
        policy = QSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

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
        whole = self.sizeHint()
        return whole if self._detail else whole.boundedTo(QSize(px(LEAST), whole.height()))

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return px(32) if width >= self.sizeHint().width() else self._words_in(width).height() + px(13)

    def _words_in(self, width: int) -> QRect:
        """The room that the words take in lines of a box of ``width``."""
        room = QRect(px(22), 0, width - px(26), MUCH)
        return QFontMetrics(measure.body()).boundingRect(room, int(Qt.TextFlag.TextWordWrap), self.text())

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
        broken = self.width() < self.sizeHint().width() and not self._detail
        rect = QRectF(px(1), (min(self.height(), px(32)) - side) // 2, side, side)
        focused = self.hasFocus()
        box(p, rect, fill="base", border="accent" if focused else "edge", width=2 if focused else 1, radius=1)
        if self.isChecked():
            tick(p, rect.adjusted(1, 1, -1, -1))
        room = self.rect().adjusted(px(22), 0, 0, 0)
        if broken:
            at = self._words_in(self.width()).translated(0, (px(32) - measure.line()) // 2)
            p.setFont(measure.body())
            p.setPen(ink("text"))
            p.drawText(at, int(Qt.TextFlag.TextWordWrap), self.text())
            taken = float(at.width())
        else:
            taken = words(p, room, self.text(), font=measure.body(), elide=False)
        if self._detail:
            words(p, room.adjusted(round(taken) + px(7), 0, 0, 0), self._detail, of="soft", elide=False)
        if focused:
            box(p, QRectF(px(19), px(4), taken + px(6), self.height() - px(8)), border="accent", width=1)
