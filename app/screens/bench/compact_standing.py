"""What is still to do and the flags of a job in one line, while its sheet is scrolled."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.measure import px
from app.screens.kit.shapes import flag_shape, open_box
from app.screens.kit.strokes import words
from app.screens.language import say

MOST = 2  # of each; the rest is counted


class CompactStanding(QWidget):
    """Boxes with their words, then shapes with theirs, the gravest first."""

    def __init__(self) -> None:
        super().__init__()
        self._gates: tuple[str, ...] = ()
        self._flags: tuple[tuple[str, str], ...] = ()
        self._left = False
        self._with_flags = True
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    @property
    def empty(self) -> bool:
        """Nothing is to do and nothing flagged."""
        return not self._gates and not self._shown_flags()

    def set_standing(self, gates: Sequence[str], flags: Sequence[tuple[str, str]]) -> None:
        """``gates`` are words still to do, ``flags`` pairs of level and word, stops first."""
        self._gates, self._flags = tuple(gates), tuple(flags)
        said = ", ".join(gates)
        marked = ", ".join(word for _, word in flags)
        self.setAccessibleName(f"{say('Still to do')}: {said}. {marked}")
        self.updateGeometry()
        self.update()

    def show_flags(self, shown: bool) -> None:
        """Whether flags stand here too."""
        if self._with_flags != shown:
            self._with_flags = shown
            self.updateGeometry()
            self.update()

    def _shown_flags(self) -> tuple[tuple[str, str], ...]:
        return self._flags if self._with_flags else ()

    def set_left(self, left: bool) -> None:
        """Begin at the left edge, where it stands under the facts instead of beside them."""
        self._left = left
        self.update()

    def refit(self) -> None:
        """Take the measures anew."""
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        return QSize(self._walk(None), px(22))

    def minimumSizeHint(self) -> QSize:
        return QSize(px(60), px(22))

    def paintEvent(self, event: QPaintEvent) -> None:
        self._walk(QPainter(self))

    def _walk(self, p: QPainter | None) -> int:
        """Draw from the right end's start, or only measure; px taken."""
        x, mid = 0.0, self.height() / 2
        if p is not None and not self._left:
            x = float(max(self.width() - self._walk(None), 0))
        start = x
        if self._gates:
            x = self._word(p, x, say("Still to do"), strong=True) + px(13)
        for gate in self._gates[:MOST]:
            if p is not None:
                open_box(p, QRectF(x, mid - px(6), px(12), px(12)))
            x = self._word(p, x + px(20), gate) + px(17)
        x = self._rest(p, x, len(self._gates))
        flags = self._shown_flags()
        for level, word in flags[:MOST]:
            if p is not None:
                flag_shape(p, QRectF(x, mid - px(7), px(14), px(14)), level)
            x = self._word(p, x + px(20), word, strong=True, of=level) + px(14)
        x = self._rest(p, x, len(flags))
        return round(x - start)

    def _rest(self, p: QPainter | None, x: float, count: int) -> float:
        if count <= MOST:
            return x
        return self._word(p, x, say("{count} more", count=count - MOST), of="soft") + px(17)

    def _word(
        self, p: QPainter | None, x: float, text: str, *, strong: bool = False, of: str = "text"
    ) -> float:
        font = measure.strong() if strong else measure.body()
        if p is not None:
            words(p, QRectF(x, 0, self.width() - x, self.height()), text, font=font, of=of)
        return x + measure.width(text, font)
