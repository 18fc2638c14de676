"""The frame of a plot: where values stand, the lines behind them, and the words of both axes."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter

from app.screens.kit import measure
from app.screens.kit.measure import px
from app.screens.kit.plots.scales import Ruler
from app.screens.kit.strokes import CENTRE, LEFT, RIGHT, hline, vline, words


@dataclass(frozen=True, slots=True)
class Frame:
    """``room`` is where the data lie, in px of the panel."""

    room: QRectF
    x: Ruler
    y: Ruler

    def at_x(self, value: float) -> float:
        """Px of a value of the level axis."""
        return self.room.left() + self.x.share(value) * self.room.width()

    def at_y(self, value: float) -> float:
        """Px of a value of the upright axis."""
        return self.room.bottom() - self.y.share(value) * self.room.height()

    def at(self, x: float, y: float) -> QPointF:
        """Px of a point."""
        return QPointF(self.at_x(x), self.at_y(y))

    def value_x(self, at: float) -> float:
        """The value of the level axis that stands at a px."""
        share = (at - self.room.left()) / max(self.room.width(), 1.0)
        return self.x.least + share * (self.x.most - self.x.least)


def upright_gutter(y: Ruler) -> float:
    """Px left of the plot for the words of the upright axis."""
    return max(max((measure.width(text) for _, text in y.ticks), default=0) + px(9) + px(8), px(40))


def level_height(x: Ruler) -> float:
    """Px under the plot for the words of the level axis and its name."""
    rows = (1 if x.ticks else 0) + len(x.spans)
    return px(6) + (rows + 1) * measure.line()


def paint_ground(p: QPainter, frame: Frame) -> None:
    """The hairlines behind the data, and the two axes."""
    room = frame.room
    for value, _ in frame.y.ticks:
        if value > frame.y.least:
            hline(p, room.left(), room.right(), frame.at_y(value), "line")
    for value in upright_lines(frame.x):
        vline(p, frame.at_x(value), room.top(), room.bottom(), "line")
    hline(p, room.left(), room.right() + 1, room.bottom(), "edge")
    vline(p, room.left(), room.top(), room.bottom(), "edge")


def upright_lines(x: Ruler) -> list[float]:
    """Where an upright hairline stands: at ticks, else where a new stretch of time begins."""
    if x.ticks:
        return [value for value, _ in x.ticks if value > x.least]
    finest = x.spans[0] if x.spans else ()
    return [begin for begin, _, _ in finest if begin > x.least]


def paint_words(p: QPainter, frame: Frame, x_name: str, y_name: str) -> None:
    """The words of the ticks, and the names of the axes: above the upright one, at the right under the level one."""
    font, line, room = measure.body(), measure.line(), frame.room
    for value, text in frame.y.ticks:
        at = QRectF(0, frame.at_y(value) - line / 2, room.left() - px(8), line)
        words(p, at, text, font=font, of="soft", align=RIGHT, elide=False)
    top = QRectF(px(9), room.top() - 1.5 * line - px(4), room.right() - px(9), line)
    words(p, top, y_name, font=font, of="soft", align=LEFT)
    y = room.bottom() + px(6)
    if frame.x.ticks:
        _ticks(p, frame, y)
        y += line
    for row in frame.x.spans:
        for begin, end, text in row:
            x1, x2 = frame.at_x(max(begin, frame.x.least)), frame.at_x(min(end, frame.x.most))
            if x2 - x1 >= measure.width(text):
                words(p, QRectF(x1, y, x2 - x1, line), text, font=font, of="soft", align=CENTRE, elide=False)
        y += line
    words(p, QRectF(px(9), y, room.right() - px(9), line), x_name, font=font, of="soft", align=RIGHT)


def _ticks(p: QPainter, frame: Frame, y: float) -> None:
    """Words centred under their ticks; one that would run into its neighbour stays away."""
    taken = float("-inf")
    for value, text in frame.x.ticks:
        x, wide = frame.at_x(value), measure.width(text)
        if x - wide / 2 < taken + px(6):
            continue
        at = QRectF(x - wide / 2, y, wide, measure.line())
        words(p, at, text, font=measure.body(), of="soft", align=CENTRE, elide=False)
        taken = x + wide / 2
