"""The start-up ladder: rungs from power up to the outer tracks; solid reached, half where it stopped."""

from __future__ import annotations

import math

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.ladder_drawing import (
    LEAST_PITCH,
    LEAST_WIDTH,
    PITCH,
    LadderFacts,
    draw_lying,
    draw_standing,
    pitch_of,
    state_of,
)
from app.screens.kit.measure import px
from app.screens.kit.strokes import box
from app.screens.language import say


class Ladder(QWidget):
    """Stands upright; ``lying`` lays it down for narrow pages. With ``marks``, a rung can be marked: by a click,
    or by the arrow keys; the same again, or Escape, takes the mark away."""

    marked = Signal(int)  # the rung; 0 for none

    def __init__(
        self,
        facts: LadderFacts | None = None,
        *,
        lying: bool = False,
        marks: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.facts = facts or LadderFacts((), 0)
        self.lying = lying
        self.mark = 0
        self._marks = marks
        if marks:
            self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
            self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.set_facts(self.facts)

    def set_facts(self, facts: LadderFacts) -> None:
        """Show another test."""
        self.facts = facts
        self.setAccessibleName(say("Start-up ladder"))
        self._describe()
        self.set_lying(self.lying)

    def set_mark(self, rung: int) -> None:
        """Mark a rung, 0 for none."""
        if rung != self.mark:
            self.mark = rung
            self._describe()
            self.update()
            self.marked.emit(rung)

    def _describe(self) -> None:
        facts = self.facts
        told = [facts.sentence] if facts.sentence else []
        if 0 < self.mark <= len(facts.rungs):
            word = {"reached": say("reached"), "stopped": say("stopped here"), "open": say("not reached")}
            told.append(f"{self.mark} {facts.rungs[self.mark - 1]}: {word[state_of(facts, self.mark)]}")
        self.setAccessibleDescription("\n".join(told))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        rung = self.rung_at(event.position())
        if self._marks and rung:
            self.set_mark(0 if rung == self.mark else rung)
        else:
            super().mousePressEvent(event)

    def event(self, event: QEvent) -> bool:
        """Escape first takes the mark away; only then may it mean more."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            if self.mark and event.key() == Qt.Key.Key_Escape:
                event.accept()
                return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = {Qt.Key.Key_Up: 1, Qt.Key.Key_Right: 1, Qt.Key.Key_Down: -1, Qt.Key.Key_Left: -1}
        key, count = Qt.Key(event.key()), len(self.facts.rungs)
        if self._marks and count and key in step:
            begin = self.facts.stopped or max(self.facts.reached, 1)
            self.set_mark(min(max(self.mark + step[key], 1), count) if self.mark else begin)
        elif self._marks and self.mark and key is Qt.Key.Key_Escape:
            self.set_mark(0)
        else:
            super().keyPressEvent(event)

    def rung_at(self, at: QPointF) -> int:
        """The rung at a place of the widget; 0 beside them."""
        count = len(self.facts.rungs)
        if not count:
            return 0
        if self.lying:
            pitch = (self.width() - px(70)) / max(count - 1, 1)
            rung = round((at.x() - px(35)) / pitch) + 1
        else:
            pitch = pitch_of(count, self._tall())
            rung = count - math.floor((at.y() - px(12)) / pitch)
        return rung if 1 <= rung <= count else 0

    def _tall(self) -> float:
        return min(self.height(), self.sizeHint().height())

    def set_lying(self, lying: bool) -> None:
        """Lay it down or stand it up."""
        self.lying = lying
        keeps = lying or self._marks  # what is shown of a marked rung does not press it together
        tall = QSizePolicy.Policy.Fixed if keeps else QSizePolicy.Policy.Preferred
        self.setSizePolicy(QSizePolicy.Policy.Preferred, tall)
        self.updateGeometry()
        self.update()

    def refit(self) -> None:
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        if self.lying:
            return QSize(px(600), px(38) + 2 * px(3) + px(34))
        return QSize(px(LEAST_WIDTH), len(self.facts.rungs) * px(PITCH) + px(24))

    def minimumSizeHint(self) -> QSize:
        if self.lying:
            return QSize(px(400), self.sizeHint().height())
        return QSize(px(LEAST_WIDTH), len(self.facts.rungs) * px(LEAST_PITCH) + px(24))

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        p.setRenderHint(QPainter.RenderHint.Antialiasing)
        if not self.facts.rungs:
            return
        if self.mark:
            self._paint_mark(p)
        if self.lying:
            draw_lying(p, self.facts, self.width())
        else:
            draw_standing(p, self.facts, self.width(), self._tall())
        if self.hasFocus() and not self.mark:
            box(p, QRectF(self.rect()).adjusted(1, 1, -1, -1), border="accent", width=1.4, radius=px(3))

    def _paint_mark(self, p: QPainter) -> None:
        count = len(self.facts.rungs)
        if self.lying:
            pitch = (self.width() - px(70)) / max(count - 1, 1)
            x = px(35) + (self.mark - 1) * pitch
            band = QRectF(x - px(13), 1, px(26), self.height() - 2)
        else:
            pitch = pitch_of(count, self._tall())
            y = px(12) + (count - self.mark) * pitch + pitch / 2
            band = QRectF(1, y - px(LEAST_PITCH) / 2, self.width() - 2, px(LEAST_PITCH))
        box(p, band, fill="tint", border="accent" if self.hasFocus() else None, width=1.4, radius=px(3))
