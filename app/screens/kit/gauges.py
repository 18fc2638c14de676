"""The small pictures in cells: a value between its limits, a share with its interval, a ratio."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter

from app.screens.kit.cells import Drawing
from app.screens.kit.measure import body, fx, px
from app.screens.kit.palette import ink
from app.screens.kit.shapes import marker, pen
from app.screens.kit.strokes import CENTRE, box, hline, path_of, vline, words
from app.trade.bench.scale import on_scale


@dataclass(frozen=True)
class GaugeFacts:
    """A value with its expanded uncertainty and its limits, all in one unit; ``verdict`` is ``within``,
    ``outside``, ``close`` (too close to call) or empty; ``last`` is the value of the time before."""

    value: float
    spread: float = 0.0
    low: float | None = None
    high: float | None = None
    verdict: str = "within"
    last: float | None = None


def place(facts: GaugeFacts, value: float) -> float:
    """Where ``value`` stands on the line, 0 to 1; beyond both ends it is pinned there."""
    return min(max(on_scale(value, facts.low, facts.high), 0.0), 1.0)


def paint_gauge(facts: GaugeFacts, p: QPainter, rect: QRectF) -> None:
    """Line, zone, brackets, last value open, value filled; its ink and shape tell the verdict."""
    line = QRectF(rect.left() + px(2), rect.top(), rect.width() - px(4), rect.height())
    y = rect.center().y()

    def x(value: float) -> float:
        return line.left() + place(facts, value) * line.width()

    hline(p, line.left(), line.right(), y - 0.5, "line", 1)
    left = x(facts.low) if facts.low is not None else line.left()
    right = x(facts.high) if facts.high is not None else line.right()
    if facts.low is not None or facts.high is not None:
        p.fillRect(QRectF(left, y - fx(2.5), right - left, fx(5)), ink("edge", 0.37))
    p.setRenderHint(QPainter.RenderHint.Antialiasing)
    _bracket(p, facts.low, x, y, inward=1)
    _bracket(p, facts.high, x, y, inward=-1)
    if facts.last is not None:
        marker(p, QPointF(x(facts.last), y), "open dot", "text", fx(5))
    role = {"outside": "stop", "close": "caution"}.get(facts.verdict, "text")
    at = x(facts.value)
    half = abs(x(facts.value + facts.spread) - x(facts.value - facts.spread)) / 2
    pinned = place(facts, facts.value) in (0.0, 1.0)
    if half > fx(3.5) and not pinned:
        p.setPen(pen(role, 1.5))
        p.drawLine(QPointF(at - half, y), QPointF(at + half, y))
        if 2 * half > fx(12):
            for end in (at - half, at + half):
                p.drawLine(QPointF(end, y - fx(3.5)), QPointF(end, y + fx(3.5)))
    marker(p, QPointF(at, y), "open dot" if facts.verdict == "close" else "dot", role, fx(7))


def _bracket(p: QPainter, limit: float | None, x: Callable[[float], float], y: float, *, inward: int) -> None:
    if limit is None:
        return
    at, tall, foot = x(limit), fx(6), inward * fx(3.5)
    p.setPen(pen("text", 1.3))
    p.setBrush(Qt.BrushStyle.NoBrush)
    p.drawPath(
        path_of((at + foot, y - tall), (at, y - tall), (at, y + tall), (at + foot, y + tall), closed=False)
    )


def gauge(facts: GaugeFacts, plain: str, tip: str = "") -> Drawing:
    """The gauge as a cell; ``plain`` says the same in words."""
    return Drawing(partial(paint_gauge, facts), plain, tip)


def gauge_key(now: str, last: str) -> Callable[[QPainter, QRectF], None]:
    """A header that carries the key: filled dot ``now``, open dot ``last``."""

    def paint(p: QPainter, rect: QRectF) -> None:
        y, x = rect.center().y(), rect.left() + fx(4)
        for shape, word in (("dot", now), ("open dot", last)):
            marker(p, QPointF(x, y), shape, "text", fx(7 if shape == "dot" else 5))
            x += fx(9)
            x += words(
                p, QRectF(x, rect.top(), rect.right() - x, rect.height()), word, font=body(), of="soft"
            )
            x += fx(12)

    return paint


@dataclass(frozen=True)
class ShareFacts:
    """A share of one with its 95 % interval; ``few`` when it rests on fewer than five."""

    share: float
    low: float
    high: float
    few: bool = False


def paint_share(facts: ShareFacts, p: QPainter, rect: QRectF) -> None:
    """A line from 0 to 100 %, the interval with end ticks, the share a block, open when few."""
    left, wide, y = rect.left() + px(2), rect.width() - px(6), rect.center().y()

    def x(share: float) -> float:
        return left + min(max(share, 0.0), 1.0) * wide

    hline(p, left, left + wide, y - 0.5, "line", 1)
    hline(p, x(facts.low), x(facts.high), y - 0.75, "text" if not facts.few else "soft", 1.5)
    for end in (x(facts.low), x(facts.high)):
        vline(p, end - 0.5, y - fx(4), y + fx(4), "text" if not facts.few else "soft", 1.2)
    block = QRectF(x(facts.share) - fx(2), y - fx(6), fx(4), fx(12))
    if facts.few:
        box(p, block.adjusted(-0.5, 0, 0.5, 0), fill="base", border="accent", width=1.3, radius=0)
    else:
        p.fillRect(block, ink("accent"))


def share(facts: ShareFacts, plain: str, tip: str = "") -> Drawing:
    """The share as a cell; ``plain`` says the same in words."""
    return Drawing(partial(paint_share, facts), plain, tip)


@dataclass(frozen=True)
class RatioFacts:
    """A ratio to what was before; beyond ``caution`` (e.g. 1.10 for current, its square for heat) it warns."""

    ratio: float
    caution: float | None = None

    @property
    def warns(self) -> bool:
        """Whether it lies beyond the caution."""
        return self.caution is not None and self.ratio > self.caution


def _log_place(ratio: float) -> float:
    """0 at one half, 0.5 at one, 1 at double."""
    return min(max((math.log2(ratio) + 1) / 2, 0.0), 1.0) if ratio > 0 else 0.0


def paint_ratio(facts: RatioFacts, p: QPainter, rect: QRectF) -> None:
    """Logarithmic from half to double: a bar from 1 to the ratio with a dot at its end."""
    left, wide, y = rect.left() + px(4), rect.width() - px(8), rect.center().y()

    def x(ratio: float) -> float:
        return left + _log_place(ratio) * wide

    role = "caution" if facts.warns else "text"
    hline(p, left, left + wide, y - 0.5, "line", 1)
    vline(p, x(1) - 0.5, y - fx(6), y + fx(6), role if facts.warns else "text", 1.2)
    a, b = sorted((x(1), x(facts.ratio)))
    p.fillRect(QRectF(a, y - fx(1.5), b - a, fx(3)), ink(role))
    if facts.caution is not None:
        vline(p, x(facts.caution) - 0.75, y - fx(9), y + fx(9), "caution", 1.5)
    marker(p, QPointF(x(facts.ratio), y), "dot", role, fx(8))


def ratio(facts: RatioFacts, plain: str, tip: str = "") -> Drawing:
    """The ratio rule as a cell; ``plain`` says the same in words."""
    return Drawing(partial(paint_ratio, facts), plain, tip)


def ratio_scale(p: QPainter, rect: QRectF) -> None:
    """A header for the ratio rule: ×½ ×1 ×2 over their places."""
    left, wide = rect.left() + px(4), rect.width() - px(8)
    for text, value in (("×½", 0.5), ("×1", 1.0), ("×2", 2.0)):
        at = left + _log_place(value) * wide
        words(
            p,
            QRectF(at - px(14), rect.top(), px(28), rect.height()),
            text,
            font=body(),
            of="soft",
            align=CENTRE,
            elide=False,
        )
