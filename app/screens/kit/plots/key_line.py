"""The key of a picture: a sample and its words, one after the other, wrapped where they do not fit."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from app.screens.kit import measure
from app.screens.kit.measure import px
from app.screens.kit.strokes import words

SAMPLE, GAP, LINE = 26, 20, 22  # px


@dataclass(frozen=True)
class KeyEntry:
    """``paint`` draws the sample into the room it is handed."""

    text: str
    paint: Callable[[QPainter, QRectF], None]


def key_rooms(entries: Sequence[KeyEntry], left: float, wide: float) -> tuple[list[QRectF], float]:
    """The room of each entry from the top left of the key, and the height of all."""
    rooms: list[QRectF] = []
    x, y, tall = left, 0.0, max(px(LINE), measure.line())
    for entry in entries:
        takes = min(px(SAMPLE) + px(6) + measure.width(entry.text), wide)
        if x > left and x + takes > left + wide:
            x, y = left, y + tall
        rooms.append(QRectF(x, y, takes, tall))
        x += takes + px(GAP)
    return rooms, y + tall if entries else 0.0


def paint_key(p: QPainter, entries: Sequence[KeyEntry], left: float, top: float, wide: float) -> None:
    """Draw the key with its top left at (``left``, ``top``)."""
    rooms, _ = key_rooms(entries, left, wide)
    for entry, room in zip(entries, rooms, strict=True):
        at = room.translated(0, top)
        p.save()
        entry.paint(p, QRectF(at.left(), at.top(), px(SAMPLE), at.height()))
        p.restore()
        words(p, at.adjusted(px(SAMPLE) + px(6), 0, 0, 0), entry.text, font=measure.body(), of="soft")
