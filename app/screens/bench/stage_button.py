"""The stage of a job in its facts: five boxes and the word, pressed to move it on."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QRectF, QSize, Qt
from PySide6.QtGui import QEnterEvent, QFontMetricsF, QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy

from app.screens.kit import measure
from app.screens.kit.measure import px
from app.screens.kit.shapes import stage_boxes, stage_width
from app.screens.kit.strokes import box, underline, words
from app.screens.language import say


class StageButton(QAbstractButton):
    """Looks like the stage word itself; the underline comes under the pointer and with the focus."""

    def __init__(self, pressed: Callable[[], object]) -> None:
        super().__init__()
        self._stage, self._second = 0, ""
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setToolTip(say("Move the job on, or say what it waits for"))
        self.clicked.connect(pressed)

    def set_stage(self, stage: int, word: str, second: str) -> None:
        """``stage`` 0 taken in to 4 handed back."""
        self._stage, self._second = stage, second
        self.setText(word)
        self.setAccessibleName(say("Stage: {stage}", stage=f"{word} {second}".strip()))
        self.updateGeometry()
        self.update()

    def refit(self) -> None:
        """Take the measures anew."""
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        behind = measure.width(self._second) + px(7) if self._second else 0
        return QSize(stage_width() + px(10) + measure.width(self.text()) + behind + px(4), px(22))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not event.modifiers():
            self.click()
            return
        super().keyPressEvent(event)

    def enterEvent(self, event: QEnterEvent) -> None:
        self.update()
        super().enterEvent(event)

    def leaveEvent(self, event: QEvent) -> None:
        self.update()
        super().leaveEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        stage_boxes(p, 0, self.height() / 2, self._stage)
        left = stage_width() + px(10)
        room = QRectF(self.rect()).adjusted(left, 0, 0, 0)
        font = measure.body()
        taken = words(p, room, self.text(), font=font, elide=False)
        if self._second:
            words(p, room.adjusted(taken + px(7), 0, 0, 0), self._second, of="soft", elide=False)
        if self.underMouse():
            metrics = QFontMetricsF(font)
            baseline = (self.height() + metrics.ascent() - metrics.descent()) / 2
            underline(p, left, taken, baseline, "text")
        if self.hasFocus():
            box(p, self.rect(), border="accent", width=2)
