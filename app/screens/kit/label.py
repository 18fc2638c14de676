"""Words on a screen: plain text always, in one of the two sizes and two weights."""

from __future__ import annotations

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.tips import plain_tip

_FONTS = {
    "body": measure.body,
    "soft": measure.body,
    "strong": measure.strong,
    "large": measure.large,
    "large strong": measure.large_strong,
}

LONGEST_WORD = 160  # px; a longer word does not widen the page, it is broken
MUCH = 100_000  # px, higher than any words


class Label(QLabel):
    """Words of kind ``body``, ``soft``, ``strong``, ``large`` or ``large strong``.

    ``wrap`` lets it take several lines; ``elide`` cuts it at the right, the whole text in its tooltip;
    ``names`` makes the words the accessible name of another widget.
    """

    def __init__(
        self,
        text: str = "",
        kind: str = "body",
        *,
        wrap: bool = False,
        elide: bool = False,
        names: QWidget | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self._kind = kind
        self._elide = elide
        self.setWordWrap(wrap)
        if kind == "soft":
            self.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        if elide:
            self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        elif wrap:
            policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
            policy.setHeightForWidth(True)
            self.setSizePolicy(policy)
        self.refit()
        self.setText(text)
        if names is not None:
            self.setBuddy(names)
            names.setAccessibleName(text)

    def refit(self) -> None:
        self.setFont(_FONTS[self._kind]())

    def set_soft(self, soft: bool) -> None:
        """Soft ink for words that are only beside the matter."""
        role = QPalette.ColorRole.PlaceholderText if soft else QPalette.ColorRole.WindowText
        self.setForegroundRole(role)

    def minimumSizeHint(self) -> QSize:
        least = super().minimumSizeHint()
        if self._elide:
            return QSize(0, least.height())
        if self.wordWrap():
            return least.boundedTo(QSize(measure.px(LONGEST_WORD), least.height()))
        return least

    def heightForWidth(self, width: int) -> int:
        if not self._breaks_words(width):
            return super().heightForWidth(width)
        room = QRect(0, 0, width, MUCH)
        return QFontMetrics(self.font()).boundingRect(room, self._breaking(), self.text()).height()

    def _breaks_words(self, width: int) -> bool:
        """Whether some word is wider than the line, so that it has to go on in the next."""
        if not self.wordWrap() or len(self.text()) * measure.px(2) < width:
            return False
        metrics = QFontMetrics(self.font())
        return any(metrics.horizontalAdvance(word) > width for word in self.text().split())

    def _breaking(self) -> int:
        flags = Qt.TextFlag.TextWordWrap | Qt.TextFlag.TextWrapAnywhere
        return int(self.alignment()) | int(flags)

    def paintEvent(self, event: QPaintEvent) -> None:
        if self._breaks_words(self.width()):
            painter = QPainter(self)
            painter.setPen(self.palette().color(self.foregroundRole()))
            painter.drawText(self.rect(), self._breaking(), self.text())
            return
        if not self._elide:
            super().paintEvent(event)
            return
        metrics = QFontMetrics(self.font())
        shown = metrics.elidedText(self.text(), Qt.TextElideMode.ElideRight, self.width())
        tip = plain_tip(self.text()) if shown != self.text() else ""
        if tip != self.toolTip():
            self.setToolTip(tip)
        painter = QPainter(self)
        painter.setPen(self.palette().color(self.foregroundRole()))
        painter.drawText(self.rect(), int(self.alignment() | Qt.TextFlag.TextSingleLine), shown)
