"""How curves and series are told apart: each has its own ink, sign and dash, so that none depends on colour."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from app.screens.kit.measure import fx
from app.screens.kit.palette import inks
from app.screens.kit.shapes import marker
from app.trade.statistics.picture import Ink

# The cycle of the palette has four; with more, its inks come again under other signs and dashes.
_MORE = (
    ("diamond", (9.0, 3.0, 1.5, 3.0)),
    ("open square", (3.0, 2.0)),
    ("down", (12.0, 4.0)),
    ("dot", (1.5, 6.0)),
)
SIGN = 8  # px


@dataclass(frozen=True, slots=True)
class Look:
    """``dash`` is in px, empty for a solid line; ``faint`` draws thinner and lighter, as it rests on few."""

    ink: str
    shape: str
    dash: tuple[float, ...]
    faint: bool = False

    @property
    def colour(self) -> QColor:
        return QColor(self.ink)

    def veil(self, alpha: float = 0.15) -> QColor:
        """The fill of its band."""
        made = self.colour
        made.setAlphaF(alpha / 2 if self.faint else alpha)
        return made

    def pen(self, width: float = 1.9) -> QPen:
        """The pen of its line."""
        wide = fx(width * (0.7 if self.faint else 1.0))
        made = QPen(self.colour, wide)
        made.setCapStyle(Qt.PenCapStyle.FlatCap)
        if self.dash:
            made.setDashPattern([fx(part) / wide for part in self.dash])
        return made

    def sign(self, p: QPainter, at: QPointF, size: float = SIGN) -> None:
        """Its sign at a place."""
        marker(p, at, self.shape, self.colour, fx(size))


def look(place: int, ink: Ink = Ink.PLAIN) -> Look:
    """The look of the curve or series at ``place`` (from 0)."""
    cycle = inks().cycle
    at = cycle[place % len(cycle)]
    faint = ink is Ink.FAINT
    if place < len(cycle):
        return Look(at.ink, at.shape, at.dash, faint)
    shape, dash = _MORE[(place - len(cycle)) % len(_MORE)]
    return Look(at.ink, shape, dash, faint)
