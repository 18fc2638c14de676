"""The heads of the columns of a grid: level where they fit, slanted over narrow columns, letters over the narrowest."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter

from app.screens.kit import measure
from app.screens.kit.measure import px
from app.screens.kit.plots.key_line import KeyEntry, key_rooms, paint_key
from app.screens.kit.plots.wrapped import fits, wrapped
from app.screens.kit.strokes import CENTRE, words

WIDEST, UPRIGHT = (
    132,
    72,
)  # px: the most width of a column, and the width from which its head is never slanted
LINES = 3  # of a level head
SLANTED = 220  # px, the longest a slanted head may be
APART = 1.45  # lines of text from one slanted head to the next, so that they do not touch
_SLOPE = math.sin(math.radians(45))


class Way(Enum):
    """How the heads stand."""

    LEVEL = "level"
    SLANTED = "slanted"
    LETTERS = "letters"  # with a key under the grid


@dataclass(frozen=True, slots=True)
class Heads:
    """``wide`` is the width of a column in px, ``tall`` the height of the heads, ``key`` that of the key below."""

    names: tuple[str, ...]
    way: Way
    wide: float
    tall: float
    key: float = 0.0

    def entries(self) -> list[KeyEntry]:
        """What the letters stand for."""
        made = []
        for i, name in enumerate(self.names):

            def paint(p: QPainter, room: QRectF, i: int = i) -> None:
                words(p, room, letter(i), font=measure.body(), elide=False)

            made.append(KeyEntry(name, paint))
        return made


def letter(i: int) -> str:
    """The letter of a column: a to z, then aa."""
    return chr(ord("a") + i % 26) * (i // 26 + 1)


def rise(name: str) -> float:
    """Px that a slanted head goes up, and to the right."""
    return min(measure.width(name), px(SLANTED)) * _SLOPE


def lay_heads(names: Sequence[str], left: float, width: float, least: float) -> Heads:
    """The heads of columns that begin at ``left`` in a panel of ``width`` px; ``least`` px hold every number."""
    names, line = tuple(names), measure.line()
    if not names:
        return Heads(names, Way.LEVEL, 0.0, 0.0)
    room = max(width - left - px(9), 1.0)
    wide = min(room / len(names), px(WIDEST))
    if wide >= px(UPRIGHT) or all(fits(name, measure.body(), wide - px(8), LINES) for name in names):
        most = max(len(wrapped(name, measure.body(), wide - px(8), LINES)) for name in names)
        return Heads(names, Way.LEVEL, wide, most * line + px(4))
    reach = max(rise(name) + px(9) - (len(names) - i - 0.5) * wide for i, name in enumerate(names))
    slanted = min((room - max(reach, 0)) / len(names), wide)
    if slanted >= max(APART * line, least):
        return Heads(names, Way.SLANTED, slanted, max(rise(name) for name in names) + line)
    made = Heads(names, Way.LETTERS, wide, line + px(4))
    key = key_rooms(made.entries(), px(9), width - 2 * px(9))[1] + px(9)
    return Heads(names, Way.LETTERS, wide, line + px(4), key)


def paint_heads(p: QPainter, heads: Heads, left: float, foot: float) -> None:
    """Draw the heads so that they stand on ``foot``, the first column beginning at ``left``."""
    font, line = measure.body(), measure.line()
    for i, name in enumerate(heads.names):
        middle = left + (i + 0.5) * heads.wide
        if heads.way is Way.SLANTED:
            p.save()
            p.translate(QPointF(middle, foot - px(6)))
            p.rotate(-45)
            words(p, QRectF(0, -line / 2, px(SLANTED), line), name, font=font)
            p.restore()
            continue
        level = heads.way is Way.LEVEL
        lines = wrapped(name, font, heads.wide - px(8), LINES) if level else [letter(i)]
        for k, text in enumerate(lines):
            top = foot - px(4) - (len(lines) - k) * line
            at = QRectF(middle - heads.wide / 2, top, heads.wide, line)
            words(p, at, text, font=font, align=CENTRE, elide=False)


def paint_heads_key(p: QPainter, heads: Heads, top: float, width: float) -> None:
    """Say under the grid what the letters stand for."""
    if heads.way is Way.LETTERS:
        paint_key(p, heads.entries(), px(9), top + px(9), width - 2 * px(9))
