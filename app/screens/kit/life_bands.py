"""The bands of a life line: players along time, and under them the changes that were inside."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter

from app.screens.kit import measure
from app.screens.kit.life import LifeChange, LifeFacts
from app.screens.kit.life_axes import Axes
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.shapes import flag_shape, marker
from app.screens.kit.strokes import CENTRE, LEFT, box, dotted, hline, vline, words
from app.screens.language import say

BAND, TICK, NUMBERS, LANE = 46, 8, 20, 22
LANES = 3  # more changes at one time than that share the last
SIGN = 13  # px of the triangle of a modification and the diamond of a renewed part


def lanes_of(changes: Sequence[LifeChange]) -> list[int]:
    """The lane of each change, so that two inside at one time stand below each other as far as lanes go."""
    ends: list[date] = []
    lanes = []
    for change in changes:
        until = change.day if change.part else change.end or date.max
        free = next((lane for lane, end in enumerate(ends) if end < change.day), len(ends))
        lane = min(free, LANES - 1)
        if lane == len(ends):
            ends.append(until)
        else:
            ends[lane] = max(ends[lane], until)
        lanes.append(lane)
    return lanes


def halo_words(
    p: QPainter, rect: QRectF, text: str, of: str, *, fill: str = "base", strong: bool = False
) -> None:
    """Words with a halo of the sheet behind them, so that lines do not cut them."""
    font = measure.strong() if strong else measure.body()
    wide = measure.width(text, font)
    p.fillRect(
        QRectF(rect.center().x() - wide / 2 - 1, rect.top() + 1, wide + 2, rect.height() - 2), ink(fill, 0.85)
    )
    words(p, rect, text, font=font, of=of, align=CENTRE, elide=False)


def paint_bands(p: QPainter, facts: LifeFacts, axes: Axes, top: float) -> None:
    """Players as bands, the present one marked; the shelf as a dotted line."""
    line = measure.line()
    for band in facts.bands:
        x1 = axes.x(max(band.start, facts.start))
        x2 = axes.x(min(band.end or facts.today, facts.today))
        if not band.name:
            middle = top + px(BAND) / 2
            dotted(p, QPointF(x1, middle), QPointF(x2, middle), "soft", 1.3)
            room = QRectF(x1, middle - line - px(1), x2 - x1, line)
            words(p, room, band.second or say("shelf"), font=measure.body(), of="soft", align=CENTRE)
            continue
        rect = QRectF(x1, top, x2 - x1, px(BAND))
        present = band.present
        box(p, rect, fill="tint" if present else "alternate", border="accent" if present else "edge",
            width=2 if present else 1, radius=0)  # fmt: skip
        pad = px(9) if rect.width() > px(60) else px(4)
        upper = QRectF(x1 + pad, top + px(BAND) / 2 - line, rect.width() - 2 * pad, line)
        words(p, upper, band.name, font=measure.strong(), align=LEFT)
        words(p, upper.translated(0, line), band.second, font=measure.body(), of="soft", align=LEFT)


def paint_change(
    p: QPainter, change: LifeChange, axes: Axes, room: QRectF, today: date, *, marked: bool
) -> QRectF:
    """One change in its lane: triangle or diamond where it was made, its words, and a line for as long as it was
    inside, with an end tick when it was put back. Gives where a click finds it; ``room`` ends at the next one."""
    x, y = axes.x(max(change.day, axes.start)), room.center().y()
    half = px(SIGN) / 2
    ended = axes.x(min(change.end or today, axes.end))
    wide = min(measure.width(change.words), max(room.right() - x - half - px(8), 0))
    if not change.part:
        hline(p, x, ended, y - 0.75, "caution", 1.5)
        if change.end is not None:
            vline(p, ended - 0.75, y - px(5), y + px(5), "caution", 1.5)
    sign = QRectF(x - half, y - half, 2 * half, 2 * half)
    p.fillRect(sign.adjusted(-1, 0, 1, 0), ink("base"))
    if change.part:
        marker(p, sign.center(), "diamond", "text", px(10))
    else:
        flag_shape(p, sign, "caution")
    text = QRectF(x + half + px(3), room.top(), wide, room.height())
    if wide >= px(24):
        p.fillRect(text.adjusted(-px(2), 2, px(2), -2), ink("base"))
        words(p, text, change.words, font=measure.body(), align=LEFT)
    spot = sign.united(text) if wide >= px(24) else sign
    if marked:
        box(p, spot.adjusted(-3, -1, 3, 1), border="accent", width=2)
    return spot
