"""Lines of words with who and when at the left, wrapped, each with what can be done at its right."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QPointF, Qt, Signal
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QGridLayout, QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.kit.measure import px
from app.screens.kit.strokes import hline

LEFT = 210


@dataclass(frozen=True)
class TextLine:
    """``before`` stands soft at the left; a line with ``struck`` is crossed out and says why below."""

    key: Any
    before: str
    text: str
    struck: str = ""
    action: str = ""


class TextLines(QWidget):
    """`asked` brings the key of the line whose action was pressed."""

    asked = Signal(object)

    def __init__(self, name: str, *, left: float = LEFT) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self._left = left
        self._grid = QGridLayout(self)
        self._buttons: list[tuple[Any, Button]] = []
        self._rows: list[QWidget] = []
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.refit()

    def refit(self) -> None:
        """Take the measures anew."""
        self._grid.setContentsMargins(px(9), 0, px(9), 0)
        self._grid.setHorizontalSpacing(px(14))
        self._grid.setVerticalSpacing(px(9))
        self._grid.setColumnMinimumWidth(0, px(self._left))
        self._grid.setColumnStretch(1, 1)

    def set_lines(self, lines: Sequence[TextLine]) -> None:
        """Show these."""
        while (item := self._grid.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        self._buttons, self._rows = [], []
        top = Qt.AlignmentFlag.AlignTop
        for at, line in enumerate(lines):
            before = Label(line.before, "soft", wrap=True)
            text = _Struck(line.text) if line.struck else Label(line.text, wrap=True)
            text.setAccessibleName(f"{line.before}: {line.text}")
            self._grid.addWidget(before, 2 * at, 0, top)
            self._grid.addWidget(text, 2 * at, 1, top)
            if line.struck:
                self._grid.addWidget(Label(line.struck, "soft", wrap=True), 2 * at + 1, 1, top)
            if line.action:
                button = Button(line.action, kind="quiet")
                button.done.connect(lambda key=line.key: self.asked.emit(key))
                button.setAccessibleDescription(line.text)
                self._grid.addWidget(button, 2 * at, 2, top)
                self._buttons.append((line.key, button))
            self._rows.append(text)
        self.updateGeometry()

    def marked_key(self) -> Any:
        """The key of the line whose action has the focus, or None."""
        return next((key for key, button in self._buttons if button.hasFocus()), None)

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        for row in self._rows[1:]:
            hline(p, px(9), self.width() - px(9), row.y() - px(5), "line")


class _Struck(Label):
    """Words that are struck out and stay legible: soft, a line through each of their lines."""

    def __init__(self, text: str) -> None:
        super().__init__(text, "soft", wrap=True)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        p = QPainter(self)
        metrics = QFontMetrics(measure.body())
        flags = int(Qt.TextFlag.TextWordWrap)
        bounds = metrics.boundingRect(0, 0, self.width(), 1 << 16, flags, self.text())
        lines = max(round(bounds.height() / metrics.lineSpacing()), 1)
        wide = bounds.width() if lines == 1 else self.width()
        for line in range(lines):
            y = line * metrics.lineSpacing() + metrics.height() / 2
            hline(p, 0, QPointF(wide, y).x(), y, "soft", 1.3)
