"""The plot under the bands of a transport's life: readings, limit, trend, and where they meet."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from app.screens.kit import measure
from app.screens.kit.measure import fx, px
from app.screens.kit.palette import ink
from app.screens.kit.shapes import marker, pen
from app.screens.kit.strokes import CENTRE, LEFT, RIGHT, dotted, hline, path_of, vline, words
from app.screens.language import day, number

if TYPE_CHECKING:
    from app.screens.kit.life_line import LifeFacts, LifeReading


@dataclass(frozen=True)
class Axes:
    """Where days and values stand, in px."""

    left: float
    right: float
    top: float
    bottom: float
    start: date
    end: date
    low: float
    high: float
    step: float

    @classmethod
    def over(cls, facts: LifeFacts, left: float, right: float, top: float, bottom: float) -> Axes:
        """Axes that hold every reading, the limit and the trend, with round steps."""
        values = [r.value + d for r in facts.readings for d in (-r.spread, r.spread)]
        values += [v for _, *three in facts.trend for v in three]
        if facts.limit is not None:
            values.append(facts.limit.value)
        if facts.reference is not None:
            values.append(facts.reference[0])
        low, high = (min(values), max(values)) if values else (0.0, 1.0)
        step = nice_step((high - low) or abs(high) or 1.0)
        return cls(
            left,
            right,
            top,
            bottom,
            facts.start,
            facts.end,
            math.floor((low - step * 0.5) / step) * step,
            high + step * 0.35,
            step,
        )

    def x(self, day: date) -> float:
        """Px of a day."""
        return self.left + (day - self.start).days / max((self.end - self.start).days, 1) * (
            self.right - self.left
        )

    def y(self, value: float) -> float:
        """Px of a value."""
        return self.bottom - (value - self.low) / (self.high - self.low) * (self.bottom - self.top)


def nice_step(span: float) -> float:
    """A step of 1, 2 or 5 times a power of ten that cuts ``span`` into about five."""
    rough = span / 4
    power = 10.0 ** math.floor(math.log10(rough))
    return next((m * power for m in (1, 2, 5) if m * power >= rough), 10 * power)


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


def draw_plot(p: QPainter, facts: LifeFacts, axes: Axes) -> None:
    """Everything from the grid to the bracket on the time axis."""
    _grid(p, facts, axes)
    p.setRenderHint(QPainter.RenderHint.Antialiasing)
    _trend(p, facts, axes)
    _reference(p, facts, axes)
    _limit(p, facts, axes)
    _reaches(p, facts, axes)
    _readings(p, facts, axes)


def _grid(p: QPainter, facts: LifeFacts, axes: Axes) -> None:
    vline(p, axes.left, axes.top - px(10), axes.bottom, "edge")
    hline(p, axes.left, axes.right, axes.bottom, "edge")
    decimals = max(0, -math.floor(math.log10(axes.step)))
    value = axes.low
    while value <= axes.high + axes.step * 1e-6:
        y = axes.y(value)
        hline(p, axes.left - px(5), axes.left, y, "edge")
        text = number(Decimal(f"{value:.{decimals}f}"))
        words(
            p,
            QRectF(0, y - px(10), axes.left - px(10), px(20)),
            text,
            font=measure.body(),
            of="soft",
            align=RIGHT,
        )
        value += axes.step
    words(
        p,
        QRectF(0, axes.top - px(24), axes.left - px(10), px(20)),
        facts.unit,
        font=measure.body(),
        of="soft",
        align=RIGHT,
    )
    below = QRectF(0, axes.bottom + px(6), 0, px(18))
    for begin, end, text in spans(axes.start, axes.end, (axes.right - axes.left) / px(54)):
        x1, x2 = axes.x(max(begin, axes.start)), axes.x(min(end, axes.end))
        if begin > axes.start:
            vline(p, x1, axes.top - px(10), axes.bottom, "line")
        if x2 - x1 >= measure.width(text):
            below.setRect(x1, below.top(), x2 - x1, below.height())
            words(p, below, text, font=measure.body(), of="soft", align=CENTRE, elide=False)


def spans(start: date, end: date, most: float) -> list[tuple[date, date, str]]:
    """Years, or quarters of a short life, with their words; not more than ``most`` of them."""
    made: list[tuple[date, date, str]] = []
    if (end - start).days > 3 * 366:
        every = max(1, math.ceil((end.year - start.year + 1) / max(most, 1)))
        for year in range(start.year, end.year + 1, every):
            made.append((date(year, 1, 1), date(year + every, 1, 1), str(year)))
        return made
    months = (end.year - start.year) * 12 + end.month - start.month + 1
    every = next((m for m in (1, 2, 3, 6, 12) if months / m <= max(most, 1)), 12)
    at = date(start.year, (start.month - 1) // every * every + 1, 1)
    while at <= end:
        month = at.month - 1 + every
        after = date(at.year + month // 12, month % 12 + 1, 1)
        made.append((at, after, day(at, "MMM y" if at.month == 1 else "MMM")))
        at = after
    return made


def _trend(p: QPainter, facts: LifeFacts, axes: Axes) -> None:
    if len(facts.trend) < 2:
        return
    lows = [(axes.x(d), axes.y(low)) for d, low, _, _ in facts.trend]
    middles = [(axes.x(d), axes.y(middle)) for d, _, middle, _ in facts.trend]
    highs = [(axes.x(d), axes.y(high)) for d, _, _, high in facts.trend]
    p.fillPath(path_of(*lows, *reversed(highs)), ink("accent", 0.15))
    p.setBrush(Qt.BrushStyle.NoBrush)
    p.setPen(pen("accent", 1))
    p.drawPath(path_of(*lows, closed=False))
    p.drawPath(path_of(*highs, closed=False))
    dashed = QPen(ink("accent"), 1.7)
    dashed.setDashPattern([6, 3])
    p.setPen(dashed)
    p.drawPath(path_of(*middles, closed=False))


def _reference(p: QPainter, facts: LifeFacts, axes: Axes) -> None:
    if facts.reference is None:
        return
    value, text = facts.reference
    y = axes.y(value)
    dotted(p, QPointF(axes.left, y), QPointF(axes.right, y), "soft", 1)
    words(
        p,
        QRectF(axes.right + px(8), y - px(10), px(140), px(20)),
        text,
        font=measure.body(),
        of="soft",
        align=LEFT,
    )


def _limit(p: QPainter, facts: LifeFacts, axes: Axes) -> None:
    if facts.limit is None:
        return
    y, side = axes.y(facts.limit.value), -1 if facts.limit.upper else 1
    hline(p, axes.left, axes.right, y - 0.75, "stop", 1.5)
    p.setPen(pen("stop", 1.2))
    x = axes.left + px(8)
    while x < axes.right - px(4):
        p.drawLine(QPointF(x, y), QPointF(x + fx(5), y + side * fx(6)))
        x += px(17)
    line = measure.line()
    top = y - line * len(facts.limit.words) / 2
    for i, text in enumerate(facts.limit.words):
        room = QRectF(axes.right + px(8), top + i * line, px(160), line)
        words(p, room, text, font=measure.body(), of="stop", align=LEFT)


def _reaches(p: QPainter, facts: LifeFacts, axes: Axes) -> None:
    if facts.reaches is None or facts.limit is None:
        return
    first, last, text = facts.reaches
    x1, x2 = axes.x(max(first, axes.start)), axes.x(min(last, axes.end))
    y = axes.bottom - px(12)
    for x in (x1, x2):
        dotted(p, QPointF(x, axes.y(facts.limit.value)), QPointF(x, y), "stop", 1)
        vline(p, x - 0.75, y - fx(5), y + fx(5), "stop", 1.5)
    hline(p, x1, x2, y - 0.75, "stop", 1.5)
    wide = max(x2 - x1, measure.width(text) + px(8))
    room = QRectF((x1 + x2) / 2 - wide / 2, y - px(24), wide, px(18))
    halo_words(p, room, text, "stop", fill="alternate")


def _readings(p: QPainter, facts: LifeFacts, axes: Axes) -> None:
    before: LifeReading | None = None
    for reading in facts.readings:
        at = QPointF(axes.x(reading.day), axes.y(reading.value))
        if before is not None and before.fitting == reading.fitting:
            p.setPen(pen("text", 1.7))
            p.drawLine(QPointF(axes.x(before.day), axes.y(before.value)), at)
        before = reading
    for reading in facts.readings:
        at = QPointF(axes.x(reading.day), axes.y(reading.value))
        half = axes.y(reading.value) - axes.y(reading.value + reading.spread)
        if half > fx(4):
            vline(p, at.x() - 0.75, at.y() - half, at.y() + half, "text", 1.5)
        marker(p, at, "dot", "text", fx(8))
    for i, reading in enumerate(facts.readings):
        if reading.label:
            last = i == len(facts.readings) - 1
            at = QPointF(axes.x(reading.day), axes.y(reading.value))
            # Above the curve where a fitting ends, below it where the next one begins.
            begins = i > 0 and facts.readings[i - 1].fitting != reading.fitting
            dx, dy = (px(25), px(20)) if last else (px(18), px(22)) if begins else (px(-2), -px(25))
            wide = measure.width(reading.label) + px(6)
            room = QRectF(at.x() + dx - wide / 2, at.y() + dy - px(9), wide, px(18))
            room.moveLeft(max(room.left(), axes.left + px(2)))
            halo_words(p, room, reading.label, "text", strong=last)
