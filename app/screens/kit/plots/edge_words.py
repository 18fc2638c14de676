"""Words at the right edge of a plot, beside what they name, moved apart where they would lie on each other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter, QPen

from app.screens.kit import measure
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.plots.looks import Look
from app.screens.kit.plots.wrapped import wrapped
from app.screens.kit.strokes import words

SAMPLE = 26  # px of a line with its sign before the word
MOST = 0.27  # of the width of a panel
LINES = 3


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
    widest = max(measure.width(entry.text) + _before(entry) for entry in entries)
    return min(widest, width * MOST) + px(12) + px(9)


def _before(entry: EdgeWord) -> float:
    """Px of the sample before the word."""
    return px(SAMPLE) + px(6) if entry.look is not None else 0


def spread(wanted: Sequence[float], tall: Sequence[float], low: float, high: float) -> list[float]:
    """Middles of things ``tall`` px each that do not overlap and lie within ``low`` to ``high`` where that is
    possible, close to ``wanted``."""
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    places = [0.0] * len(wanted)
    edge = low - max(tall, default=0)
    for i in order:
        places[i] = max(wanted[i], edge + tall[i] / 2)
        edge = places[i] + tall[i] / 2
    edge = high + max(tall, default=0)
    for i in reversed(order):
        places[i] = min(places[i], edge - tall[i] / 2)
        edge = places[i] - tall[i] / 2
    return places


@dataclass(frozen=True, slots=True)
class EdgeRoom:
    """Where a word stands, and its lines."""

    rect: QRectF
    lines: tuple[str, ...]


def edge_rooms(entries: Sequence[EdgeWord], room: QRectF, width: float) -> list[EdgeRoom]:
    """The room of each word, at the right of the plot ``room`` in a panel of ``width`` px."""
    line, left = float(measure.line()), room.right() + px(12)
    wide = max(width - left - px(9), 1.0)
    texts = [tuple(wrapped(e.text, measure.body(), wide - _before(e), LINES)) for e in entries]
    tall = [line * max(len(text), 1) for text in texts]
    places = spread([e.y for e in entries], tall, room.top(), room.bottom())
    return [
        EdgeRoom(QRectF(left, y - high / 2, wide, high), text)
        for y, high, text in zip(places, tall, texts, strict=True)
    ]


def paint_edge_words(
    p: QPainter, entries: Sequence[EdgeWord], rooms: Sequence[EdgeRoom], edge: float
) -> None:
    """Draw them, each tied to its height at the ``edge`` of the plot where it was moved away from it."""
    line = measure.line()
    for entry, room in zip(entries, rooms, strict=True):
        y, left = room.rect.center().y(), room.rect.left()
        if abs(y - entry.y) > px(5):
            p.setPen(QPen(entry.look.colour if entry.look is not None else ink("edge"), 1))
            p.drawLine(QPointF(edge + px(2), entry.y), QPointF(left - px(2), y))
        if entry.look is not None:
            paint_sample(p, QPointF(left, y), entry.look)
        for k, text in enumerate(room.lines):
            at = QRectF(
                left + _before(entry), room.rect.top() + k * line, room.rect.width() - _before(entry), line
            )
            words(p, at, text, font=measure.body(), of="soft" if entry.soft else "text", elide=False)


def paint_sample(p: QPainter, at: QPointF, look: Look) -> None:
    """A piece of the line of a look with its sign, from ``at`` to the right."""
    p.save()
    p.setRenderHint(QPainter.RenderHint.Antialiasing)
    p.setPen(look.pen())
    p.drawLine(at, QPointF(at.x() + px(SAMPLE), at.y()))
    p.restore()
    look.sign(p, QPointF(at.x() + px(SAMPLE) / 2, at.y()))
