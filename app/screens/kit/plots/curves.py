"""Step curves with their bands, a guide line, and the numbers at risk under the marks."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QWidget

from app.screens.kit import measure
from app.screens.kit.life_bands import halo_words
from app.screens.kit.measure import px
from app.screens.kit.plots.curve_stops import mark_at, marks_of, spot_at, whole_spot
from app.screens.kit.plots.edge_words import SAMPLE, EdgeWord, edge_rooms, paint_sample
from app.screens.kit.plots.frame import Frame, level_height
from app.screens.kit.plots.line_room import Band, Stroke
from app.screens.kit.plots.looks import Look, look
from app.screens.kit.plots.marks import Spot, worded
from app.screens.kit.plots.plot_panel import TICK, PlotPanel
from app.screens.kit.plots.scales import Ruler, ruler, tick_words
from app.screens.kit.plots.steps import band_of, end_of, step_at, stepped, thinned
from app.screens.kit.strokes import CENTRE, LEFT, vline, words
from app.screens.language import number
from app.trade.statistics.picture import Curves

FEW = 3  # curves, up to which every band is as dark as one alone; more would be mud
NEAR = 26  # px from a curve in which the pointer finds it


class CurvesView(PlotPanel):
    """A curve is a line of marks: the curve as a whole, then its value at every mark of the level axis."""

    def __init__(self, panel: Curves, place: int, parent: QWidget | None = None) -> None:
        super().__init__(panel, place, parent)
        self.panel = panel
        self.drawn = [curve for curve in panel.curves if curve.x and len(curve.x) == len(curve.y)]
        self.names = [worded(curve.name) for curve in self.drawn]
        self.risk_name = worded(panel.risk_name) if panel.risk_name is not None else ""
        self.guide_name = worded(panel.guide_name) if panel.guide_name is not None else ""
        xs = [x for curve in self.drawn for x in (curve.x[0], curve.x[-1], curve.until)]
        self._xs = [*xs, *panel.marks, panel.guide]
        ys = [v for curve in self.drawn for v in (*curve.y, *curve.low, *curve.high) if math.isfinite(v)]
        self._marks = [marks_of(self, i) for i in range(len(self.drawn))]
        self._ys = (min(ys), max(ys)) if ys else ()

    def looks(self) -> list[Look]:
        return [look(i, curve.ink) for i, curve in enumerate(self.drawn)]

    # room

    def rulers(self, plot_width: float) -> tuple[Ruler, Ruler]:
        panel = self.panel
        x = ruler(panel.x, self._xs, pieces=plot_width / px(TICK))
        marks = [mark for mark in panel.marks if x.least <= mark <= x.most]
        if marks:
            step = min((b - a for a, b in pairwise(marks)), default=1.0)
            x = replace(x, ticks=tuple((m, tick_words(m, panel.x.scale, step)) for m in marks), spans=())
        return x, ruler(panel.y, self._ys, pieces=5)

    def named(self) -> list[tuple[str, Look]]:
        return self.needed(self.names, self.looks())

    def edge_words(self, frame: Frame | None, direct: bool) -> list[EdgeWord]:
        if not direct:
            return []
        made = []
        for (name, seen), curve in zip(self.named(), self.drawn, strict=False):
            made.append(
                EdgeWord(name, frame.at_y(end_of(curve, frame.x.most)[1]) if frame is not None else 0.0, seen)
            )
        return made

    def risk_rows(self) -> list[int]:
        """The curves whose numbers at risk are known."""
        marks = len(self.panel.marks)
        return [i for i, curve in enumerate(self.drawn) if marks and len(curve.at_risk) == marks]

    def below(self) -> float:
        rows = len(self.risk_rows())
        return (rows + 1) * (measure.line() + px(2)) + px(6) if rows else 0.0

    def least_gutter(self) -> float:
        """A sample of the line stands before the first number at risk."""
        rows = self.risk_rows()
        return px(9) + self._before_first(rows) if len(self.drawn) > 1 and rows else 0.0

    def _before_first(self, rows: list[int]) -> float:
        """Px from the left of the samples to the middle of the first numbers."""
        firsts = (number(self.drawn[i].at_risk[0], grouped=True) for i in rows)
        return px(SAMPLE) + px(6) + max(measure.width(first) for first in firsts) / 2

    # marks

    def find_spots(self) -> list[Spot]:
        frame = self.frame()
        made: list[Spot] = []
        for i, (whole, stops) in enumerate(self._marks):
            made.append(whole_spot(self, frame, i, whole))
            made += [spot_at(self, frame, i, x, mark) for x, mark in stops if frame.x.holds(x)]
        return made

    def spot_near(self, point: QPointF) -> Spot | None:
        """The nearest curve above or under the pointer, with its value there."""
        frame = self.frame()
        if (named := self._named_at(point, frame)) is not None:
            return named
        if not frame.room.adjusted(0, -px(9), px(3), px(9)).contains(point):
            return None
        x = frame.value_x(point.x())
        best: tuple[float, int] | None = None
        for i, curve in enumerate(self.drawn):
            at = step_at(curve, x)
            if at >= 0:
                away = abs(frame.at_y(curve.y[at]) - point.y())
                if away <= px(NEAR) and (best is None or away < best[0]):
                    best = (away, i)
        if best is None:
            return None
        return spot_at(self, frame, best[1], x, mark_at(self, best[1], x))

    def _named_at(self, point: QPointF, frame: Frame) -> Spot | None:
        """The curve whose name at the edge the pointer is on, as a whole."""
        entries = self.edge_words(frame, self.direct_for(self.width()))
        rooms = edge_rooms(entries, frame.room, self.width())
        for i, room in enumerate(rooms):
            if room.rect.contains(point):
                return whole_spot(self, frame, i, self._marks[i][0])
        return None

    # drawing

    def strokes(self, frame: Frame, marked: Spot | None) -> Sequence[Stroke | Band]:
        bands: list[Stroke | Band] = []
        lines: list[Stroke | Band] = []
        columns = max(round(frame.room.width()), 1)
        least, most = frame.x.least, frame.x.most
        key = marked.mark.key if marked is not None else None
        few = len(self.drawn) <= FEW
        for curve, seen in zip(self.drawn, self.looks(), strict=True):
            if (band := band_of(curve)) is not None:
                fill = seen.veil(0.15 if few or curve.key == key else 0.06)
                x, low, high = thinned(curve.x, *band, least=least, most=most, columns=columns)
                xs, lows = stepped(x, low, curve.until)
                bands.append(Band(xs, lows, stepped(x, high, curve.until)[1], fill))
            x, y = thinned(curve.x, curve.y, least=least, most=most, columns=columns)
            wide = 3.0 if curve.key == key else 1.9
            at = len(lines) if curve.key == key else 0  # the marked one above the others
            lines.insert(at, Stroke(*stepped(x, y, curve.until), seen.pen(wide)))
        return [*bands, *lines]

    def paint_marks(self, p: QPainter, frame: Frame, marked: Spot | None) -> None:
        self._guide(p, frame)
        for curve, seen in zip(self.drawn, self.looks(), strict=True):
            if len(self.drawn) > 1:
                for x in self.signed(frame):
                    if (at := step_at(curve, x)) >= 0:
                        seen.sign(p, frame.at(x, curve.y[at]))
        if self.over is not None:
            self.paint_ring(p, self.over.at, strong=False)
        if marked is not None:
            self.paint_ring(p, marked.at, strong=True)
        self._risk(p, frame)

    def signed(self, frame: Frame) -> list[float]:
        """Where the curves carry their signs."""
        last = frame.value_x(frame.room.right() - px(14))  # a sign at the edge would double that of the name
        inner = [x for x in self.panel.marks if frame.x.least < x <= last]
        if inner:
            return inner
        return [frame.x.least + (frame.x.most - frame.x.least) * k / 5 for k in range(1, 5)]

    def _guide(self, p: QPainter, frame: Frame) -> None:
        guide = self.panel.guide
        if guide is None or not frame.x.least <= guide <= frame.x.most:
            return
        x = frame.at_x(guide)
        vline(p, x - 0.75, frame.room.top(), frame.room.bottom(), "text", 1.5)
        wide, line = measure.width(self.guide_name), measure.line()
        left = x + px(6) if x + px(6) + wide <= frame.room.right() else x - px(6) - wide
        at = QRectF(left, frame.room.bottom() - line - px(5), wide, line)
        if self.guide_name:
            halo_words(p, at, self.guide_name, "text", fill="base")

    def _risk(self, p: QPainter, frame: Frame) -> None:
        rows = self.risk_rows()
        if not rows:
            return
        line = measure.line() + px(2)
        y = frame.room.bottom() + level_height(frame.x) + px(4)
        name = QRectF(px(9), y, self.width() - 2 * px(9), measure.line())
        words(p, name, self.risk_name, font=measure.body(), of="soft", align=LEFT)
        left = frame.at_x(self.panel.marks[0]) - self._before_first(rows)
        for row, i in enumerate(rows):
            top = y + (row + 1) * line
            if len(self.drawn) > 1:
                paint_sample(p, QPointF(left, top + measure.line() / 2), self.looks()[i])
            taken = float("-inf")
            for x, count in zip(self.panel.marks, self.drawn[i].at_risk, strict=True):
                text = number(count, grouped=True)
                wide, at = measure.width(text), frame.at_x(x)
                if frame.x.least <= x <= frame.x.most and at - wide / 2 >= taken:
                    room = QRectF(at - wide / 2, top, wide, measure.line())
                    words(p, room, text, font=measure.body(), align=CENTRE, elide=False)
                    taken = at + wide / 2 + px(6)
