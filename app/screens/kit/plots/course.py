"""Series of dots over a common axis, with a level line and the limits that belong to each dot."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen
from PySide6.QtWidgets import QWidget

from app.screens.kit import measure
from app.screens.kit.life_bands import halo_words
from app.screens.kit.measure import fx, px
from app.screens.kit.palette import ink
from app.screens.kit.plots.edge_words import EdgeWord
from app.screens.kit.plots.frame import Frame
from app.screens.kit.plots.line_room import Band, Stroke
from app.screens.kit.plots.looks import Look, look
from app.screens.kit.plots.marks import Mark, Spot, worded
from app.screens.kit.plots.plot_panel import DATE_TICK, TICK, PlotPanel
from app.screens.kit.plots.scales import Ruler, ruler
from app.screens.kit.shapes import marker
from app.screens.language import say
from app.trade.statistics.picture import Course, Ink, Point, Scale, Series

NEAR = 16  # px round a dot in which the pointer finds it
LATE = 0.1  # of the axis, how far from its end a series may stop and still be named there
DENSE = 9  # px from dot to dot, below which only the line and what stands out is drawn


class CourseView(PlotPanel):
    """Left and Right go along a series, Up and Down to the nearest dot of another."""

    def __init__(self, panel: Course, place: int, parent: QWidget | None = None) -> None:
        super().__init__(panel, place, parent)
        self.panel = panel
        self.names = [worded(series.name) for series in panel.series]
        self.centre_name = worded(panel.centre_name) if panel.centre_name is not None else ""
        self._marks = [
            [Mark(panel=place, key=p.key, name=name, told=worded(p.told), jobs=p.jobs) for p in series.points]
            for series, name in zip(panel.series, self.names, strict=True)
        ]
        points = [point for series in panel.series for point in series.points]
        self._xs = [point.x for point in points]
        ends = [v for point in points for v in (point.y, point.low, point.high)]
        self._ys = [v for v in (*ends, panel.centre) if v is not None and math.isfinite(v)]

    def looks(self) -> list[Look]:
        return [look(i) for i in range(len(self.panel.series))]

    # room

    def rulers(self, plot_width: float) -> tuple[Ruler, Ruler]:
        tick = DATE_TICK if self.panel.x.scale is Scale.DATE else TICK
        x = self.panel.x
        made = ruler(x, self._xs, pieces=plot_width / px(tick))
        if x.scale is Scale.DATE and x.least is None and x.most is None and self._xs:
            room = (made.most - made.least) * 0.02  # the first and the last dot stand clear of the edges
            xs = [min(self._xs) - room, max(self._xs) + room]
            made = ruler(x, xs, pieces=plot_width / px(tick))
        return made, ruler(self.panel.y, self._ys, pieces=5)

    def named(self) -> list[tuple[str, Look]]:
        return self.needed(self.names, self.looks())

    def direct_for(self, width: float) -> bool:
        """Beside the plot only where every series comes near its edge."""
        ends = [series.points[-1].x for series in self.panel.series if series.points]
        if not super().direct_for(width) or not ends:
            return False
        span = max(self._xs) - min(self._xs)
        return all(end >= max(self._xs) - LATE * span for end in ends)

    def edge_words(self, frame: Frame | None, direct: bool) -> list[EdgeWord]:
        made: list[EdgeWord] = []

        def y(value: float) -> float:
            return frame.at_y(value) if frame is not None else 0.0

        if direct:
            for (name, seen), series in zip(self.named(), self.panel.series, strict=False):
                if series.points:
                    made.append(EdgeWord(name, y(series.points[-1].y), seen))
        if self.panel.centre is not None:
            made.append(EdgeWord(self.centre_name, y(self.panel.centre), soft=True))
        limited = [s.points[-1] for s in self.panel.series if s.points and has_limits(s)]
        if limited:
            last = limited[0]
            if last.high is not None:
                made.append(EdgeWord(say("upper limit"), y(last.high), soft=True))
            if last.low is not None and frame is not None and last.low > frame.y.least:
                made.append(EdgeWord(say("lower limit"), y(last.low), soft=True))
        return made

    # marks

    def find_spots(self) -> list[Spot]:
        frame = self.frame()
        made: list[Spot] = []
        for line, (series, marks) in enumerate(zip(self.panel.series, self._marks, strict=True)):
            for point, mark in zip(series.points, marks, strict=True):
                if not frame.x.holds(point.x):
                    continue
                at = frame.at(point.x, point.y)
                near = QRectF(at.x() - px(NEAR), at.y() - px(NEAR), 2 * px(NEAR), 2 * px(NEAR))
                made.append(Spot(mark=mark, line=line, along=point.x, at=at, rect=near))
        return made

    def spot_near(self, point: QPointF) -> Spot | None:
        """The nearest of the dots around the pointer."""
        those = [spot for spot in self.spots() if spot.rect.contains(point)]
        return min(those, key=lambda spot: (spot.at - point).manhattanLength(), default=None)

    # drawing

    def strokes(self, frame: Frame, marked: Spot | None) -> Sequence[Stroke | Band]:
        made: list[Stroke | Band] = []
        if self.panel.centre is not None:
            level = QPen(ink("soft"), fx(1.2))
            ends = [frame.x.least, frame.x.most]
            made.append(Stroke(ends, [self.panel.centre, self.panel.centre], level))
        for series in self.panel.series:
            if has_limits(series):
                made += limit_strokes(series, frame)
        for series, seen in zip(self.panel.series, self.looks(), strict=True):
            if series.joined and len(series.points) > 1:
                xs, ys = [p.x for p in series.points], [p.y for p in series.points]
                made.append(Stroke(xs, ys, seen.pen()))
        return made

    def paint_marks(self, p: QPainter, frame: Frame, marked: Spot | None) -> None:
        dense = frame.room.width() / max((len(s.points) for s in self.panel.series), default=1) < px(DENSE)
        for series, seen in zip(self.panel.series, self.looks(), strict=True):
            quiet = dense and series.joined
            seen_points = [point for point in series.points if frame.x.holds(point.x)]
            for point in seen_points:
                if point.ink is Ink.PLAIN and not quiet:
                    seen.sign(p, frame.at(point.x, point.y), 7)
            for point in seen_points:
                if point.ink is not Ink.PLAIN:
                    self._apart(p, frame, point, seen)
        for spot, strong in ((self.over, False), (marked, True)):
            if spot is not None:
                self.paint_ring(p, spot.at, strong=strong)

    def _apart(self, p: QPainter, frame: Frame, point: Point, seen: Look) -> None:
        """A dot that rests on few is open; one that stands out is a large triangle with its word."""
        at = frame.at(point.x, point.y)
        if point.ink is Ink.FAINT:
            marker(p, at, "open dot", seen.colour, fx(7))
            return
        more = point.ink is Ink.MORE
        marker(p, at, "triangle" if more else "down", "text", fx(13))
        text = say("above") if more else say("below")
        wide, line = measure.width(text), measure.line()
        left = min(max(at.x() - wide / 2, frame.room.left() + 2), frame.room.right() - wide - 2)
        top = at.y() - line - px(9) if more else at.y() + px(9)
        if not frame.room.contains(QRectF(left, top, wide, line)):
            top = min(max(at.y() - line / 2, frame.room.top()), frame.room.bottom() - line - px(3))
            left = at.x() + px(11)
            if left + wide > frame.room.right():
                left = at.x() - px(11) - wide
        halo_words(p, QRectF(left, top, wide, line), text, "text", fill="base")


def has_limits(series: Series) -> bool:
    """Whether the dots of a series have limits of their own."""
    return any(point.low is not None or point.high is not None for point in series.points)


def limit_strokes(series: Series, frame: Frame) -> list[Stroke]:
    """The limits as two stepped lines: each dot's own reach half way to its neighbours."""
    drawn = QPen(ink("soft"), fx(1.2))
    drawn.setCapStyle(Qt.PenCapStyle.FlatCap)
    drawn.setDashPattern([4, 3])
    points = series.points
    middles = [(a.x + b.x) / 2 for a, b in pairwise(points)]
    edges = [frame.x.least, *middles, frame.x.most]
    made: list[Stroke] = []
    lows = [
        p.low if p.low is not None and p.low > frame.y.least else None for p in points
    ]  # 0 limits nothing
    for limits in (lows, [point.high for point in points]):
        xs: list[float] = []
        ys: list[float] = []
        for i, limit in enumerate([*limits, None]):
            if limit is not None:
                xs += [edges[i], edges[i + 1]]
                ys += [limit, limit]
            elif xs:
                made.append(Stroke(xs, ys, drawn))
                xs, ys = [], []
    return made
