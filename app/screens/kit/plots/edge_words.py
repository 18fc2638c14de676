"""Words at the right edge of a plot, beside what they name, moved apart where they would lie on each other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter, QPen

from app.screens.kit import measure
from app.screens.kit.measure import fx, px
from app.screens.kit.palette import ink
from app.screens.kit.plots.looks import Look
from app.screens.kit.strokes import words

SAMPLE = 26  # px of a line with its sign before the word
MOST = 0.27  # of the width of a panel


@dataclass(frozen=True, slots=True)
class EdgeWord:
    """``y`` is where it would stand, in px; ``look`` paints a sample before the word."""

    text: str
    y: float
    look: Look | None = None
    soft: bool = False


def gutter(entries: Sequence[EdgeWord], width: float) -> float:
    """Px that the words take at the right of the plot."""
    if not entries:
        return px(20)
    widest = max(measure.width(e.text) + (px(SAMPLE) + px(6) if e.look is not None else 0) for e in entries)
    return min(widest, width * MOST) + px(12) + px(9)


def spread(wanted: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Places at least ``gap`` apart and within ``low`` to ``high`` where that is possible, close to ``wanted``."""
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    places = [0.0] * len(wanted)
    at = low - gap
    for i in order:
        at = places[i] = max(wanted[i], at + gap)
    at = high + gap
    for i in reversed(order):
        at = places[i] = min(places[i], at - gap)
    return places


def edge_rooms(entries: Sequence[EdgeWord], room: QRectF, width: float) -> list[QRectF]:
    """The room of each word, at the right of the plot ``room`` in a panel of ``width`` px."""
    line = float(measure.line())
    places = spread([e.y for e in entries], line, room.top(), room.bottom())
    left = room.right() + px(12)
    return [QRectF(left, y - line / 2, max(width - left - px(9), 0), line) for y in places]


def paint_edge_words(p: QPainter, entries: Sequence[EdgeWord], rooms: Sequence[QRectF], edge: float) -> None:
    """Draw them, each tied to its height at the ``edge`` of the plot where it was moved away from it."""
    for entry, room in zip(entries, rooms, strict=True):
        y = room.center().y()
        if abs(y - entry.y) > px(5):
            p.setPen(QPen(entry.look.colour if entry.look is not None else ink("edge"), 1))
            p.drawLine(QPointF(edge + px(2), entry.y), QPointF(room.left() - px(2), y))
        text = QRectF(room)
        if entry.look is not None:
            paint_sample(p, QPointF(room.left(), y), entry.look)
            text.setLeft(room.left() + px(SAMPLE) + px(6))
        words(p, text, entry.text, font=measure.body(), of="soft" if entry.soft else "text")


def paint_sample(p: QPainter, at: QPointF, look: Look) -> None:
    """A piece of the line of a look with its sign, from ``at`` to the right."""
    p.save()
    p.setRenderHint(QPainter.RenderHint.Antialiasing)
    p.setPen(look.pen())
    p.drawLine(at, QPointF(at.x() + px(SAMPLE), at.y()))
    p.restore()
    look.sign(p, QPointF(at.x() + px(SAMPLE) / 2, at.y()), fx(8) / fx(1))
