"""Words broken into a few lines, the last one cut where they are still too long."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont, QFontMetricsF


def wrapped(text: str, font: QFont, wide: float, most: int) -> list[str]:
    """``text`` in at most ``most`` lines of ``wide`` px, broken between words; what does not fit ends in an ellipsis."""
    metrics = QFontMetricsF(font)
    lines: list[str] = []
    rest = text.split()
    while rest and len(lines) < most:
        if len(lines) == most - 1:
            lines.append(" ".join(rest))
            break
        line = rest.pop(0)
        while rest and metrics.horizontalAdvance(f"{line} {rest[0]}") <= wide:
            line = f"{line} {rest.pop(0)}"
        lines.append(line)
    return [metrics.elidedText(line, Qt.TextElideMode.ElideRight, max(wide, 1)) for line in lines]


def fits(text: str, font: QFont, wide: float, most: int) -> bool:
    """Whether nothing has to be cut."""
    return " ".join(wrapped(text, font, wide, most)) == " ".join(text.split())
