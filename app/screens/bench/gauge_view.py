"""A gauge beside a field: where the value that is being typed would lie."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.cells import Words
from app.screens.kit.gauges import GaugeFacts, paint_gauge
from app.screens.kit.measure import px
from app.screens.kit.strokes import words

GAUGE = 110


class GaugeView(QWidget):
    """The drawing, and the verdict in words behind it. Empty until there is something to say."""

    def __init__(self) -> None:
        super().__init__()
        self._facts: GaugeFacts | None = None
        self._verdict = Words("")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    @property
    def words(self) -> str:
        """What it says."""
        return self._verdict.plain

    def show_value(self, facts: GaugeFacts | None, verdict: Words) -> None:
        """Show a value between its limits, with the verdict; without facts only words."""
        self._facts, self._verdict = facts, verdict
        self.setAccessibleName(verdict.plain)
        self.update()

    def clear(self) -> None:
        """Nothing is typed."""
        self.show_value(None, Words(""))

    def refit(self) -> None:
        """Take the measures anew."""
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        return QSize(px(GAUGE) + px(220), px(32))

    def minimumSizeHint(self) -> QSize:
        return QSize(px(120), px(32))

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        left = 0.0
        if self._facts is not None:
            paint_gauge(self._facts, p, QRectF(0, 0, px(GAUGE), self.height()))
            left = px(GAUGE) + px(14)
        cell = self._verdict
        font = measure.strong() if cell.strong else measure.body()
        role = cell.ink or ("soft" if cell.soft else "text")
        taken = words(p, QRectF(left, 0, self.width() - left, self.height()), cell.text, font=font, of=role)
        left += taken + px(7)
        words(
            p,
            QRectF(left, 0, self.width() - left, self.height()),
            cell.second,
            font=measure.body(),
            of="soft",
        )
