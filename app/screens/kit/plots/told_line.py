"""The line under a panel that tells what is marked or pointed at."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QFontMetrics

from app.screens.kit import measure
from app.screens.kit.label import Label
from app.screens.kit.measure import px


class ToldLine(Label):
    """It keeps the height of the longest that it may have to tell, so that nothing below it moves."""

    def __init__(self, hint: str) -> None:
        super().__init__(hint, "soft", wrap=True)
        self._longest = hint
        self.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        self.refit()

    def refit(self) -> None:
        super().refit()
        self.setContentsMargins(px(9), px(4), px(9), 0)

    def set_longest(self, texts: Sequence[str]) -> None:
        """What it may have to tell."""
        self._longest = max((*texts, self._longest), key=len)
        self.updateGeometry()

    def heightForWidth(self, width: int) -> int:
        margins = self.contentsMargins()
        room = QRect(0, 0, max(width - margins.left() - margins.right(), 1), 100_000)
        flags = int(Qt.TextFlag.TextWordWrap)
        tall = QFontMetrics(measure.body()).boundingRect(room, flags, self._longest).height()
        return max(super().heightForWidth(width), tall + margins.top() + margins.bottom())
