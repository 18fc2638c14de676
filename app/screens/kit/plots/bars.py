"""Lying bars with their intervals, a diamond for all the others, and the cumulated line of a Pareto beside them."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPolygonF
from PySide6.QtWidgets import QWidget

from app.screens.kit import measure
from app.screens.kit.measure import fx, px
from app.screens.kit.palette import ink
from app.screens.kit.plots.bar_paint import key_of, paint_block, paint_interval, told_apart
from app.screens.kit.plots.key_line import key_rooms, paint_key
from app.screens.kit.plots.marks import Mark, Spot, worded
from app.screens.kit.plots.panel import PanelView
from app.screens.kit.plots.scales import Ruler, ruler
from app.screens.kit.plots.wrapped import wrapped
from app.screens.kit.shapes import marker, pen
from app.screens.kit.strokes import CENTRE, RIGHT, hline, vline, words
from app.screens.language import say
from app.trade.statistics.picture import Axis, Bars, Scale

ROW, ROW_OTHER, HEAD, AXIS = 34, 46, 28, 28  # px; with a diamond under the bar the row is higher
BAR, DIAMOND = 16, 10
SHARE_OF_WIDTH = 0.3  # that names, and the words beside the bars, may take each
MANY = 14  # rows, from which the axis is written above them too


@dataclass(frozen=True, slots=True)
class _Rooms:
    """Where the columns stand, in px: names, bars, words beside them, cumulated line."""

    name: float
    left: float
    right: float
    beside: float
    beside_end: float
    line: float  # 0: no cumulated line
    line_end: float


class BarsView(PanelView):
    """The arrows go from bar to bar; the whole row of a bar answers to the pointer."""

    def __init__(self, panel: Bars, place: int, parent: QWidget | None = None) -> None:
        super().__init__(worded(panel.title), place, parent)
        self.panel = panel
        self.names = [worded(bar.name) for bar in panel.bars]
        self.besides = [worded(bar.beside) if bar.beside is not None else "" for bar in panel.bars]
        self.axis_name = worded(panel.axis.name)
        self._key = key_of(panel)
        self._widest_at, self._widest_for = (0, 0), 0
        self._marks = [
            Mark(panel=place, key=bar.key, name=name, told=worded(bar.told), jobs=bar.jobs)
            for bar, name in zip(panel.bars, self.names, strict=True)
        ]

    # room

    @property
    def row(self) -> int:
        """Px from one bar to the next at the present width."""
        return self.row_at(float(self.width()))

    def row_at(self, width: float) -> int:
        """Px from one bar to the next: higher with a diamond, and where words need two lines."""
        nominal = ROW_OTHER if any(bar.other is not None for bar in self.panel.bars) else ROW
        names, besides = self._widest()
        long = names > width * SHARE_OF_WIDTH or besides > width * SHARE_OF_WIDTH
        return max(px(nominal), (2 * measure.line() + px(6)) if long else measure.line())

    def _widest(self) -> tuple[int, int]:
        """Px of the widest name and of the widest words beside a bar."""
        line = measure.line()
        if self._widest_for != line:
            fonts = [measure.strong() if told_apart(bar) else measure.body() for bar in self.panel.bars]
            names, besides = (
                max((measure.width(text, font) for text, font in zip(texts, fonts, strict=True)), default=0)
                for texts in (self.names, self.besides)
            )
            self._widest_at, self._widest_for = (names, besides), line
        return self._widest_at

    @property
    def axis_above(self) -> bool:
        """Whether the marks of the axis stand above the bars too, as their foot may be out of sight."""
        return len(self.panel.bars) > MANY or self.has_line

    @property
    def has_line(self) -> bool:
        return any(bar.reached is not None for bar in self.panel.bars)

    def _head(self) -> float:
        return px(HEAD) if self.axis_above else px(4)

    def _key_height(self, width: float) -> float:
        tall = key_rooms(self._key, px(9), width - 2 * px(9))[1]
        return tall + px(7) if tall else 0.0

    def body_height(self, width: int) -> float:
        rows = self._head() + len(self.panel.bars) * self.row_at(width)
        return rows + px(AXIS) + measure.line() + self._key_height(width) + px(4)

    def _rooms(self) -> _Rooms:
        width = float(self.width())
        pad = px(9)
        widest, widest_beside = self._widest()
        name = min(widest, width * SHARE_OF_WIDTH)
        left = pad + max(name, px(60)) + px(18)
        beside = min(widest_beside, width * SHARE_OF_WIDTH)
        line = max(width * 0.22, px(130)) if self.has_line else 0.0
        right = width - pad - (line + px(36) if line else 0) - (beside + px(27) if beside else px(24))
        right = max(right, left + px(80))
        at = right + px(27)
        end = at + beside
        start = end + px(36) if beside else right + px(36)
        return _Rooms(pad, left, right, at, end, start if line else 0.0, width - pad - px(18))

    @property
    def _first(self) -> float:
        """Px of the top of the first row."""
        return self.top() + self._head()

    def ruler(self) -> Ruler:
        """The axis of the bars."""
        rooms = self._rooms()
        values: list[float | None] = [0.0]
        for bar in self.panel.bars:
            values += [bar.value, bar.low, bar.high, bar.other]
        return ruler(self.panel.axis, values, pieces=min(max((rooms.right - rooms.left) / px(60), 2), 6))

    def _row_rect(self, i: int) -> QRectF:
        return QRectF(0, self._first + i * self.row, self.width(), self.row)

    def find_spots(self) -> list[Spot]:
        rooms, scale = self._rooms(), self.ruler()
        made = []
        for i, bar in enumerate(self.panel.bars):
            rect = self._row_rect(i)
            reach = rooms.left + scale.share(bar.value or 0.0) * (rooms.right - rooms.left)
            made.append(
                Spot(mark=self._marks[i], line=i, along=0, at=QPointF(reach, rect.center().y()), rect=rect)
            )
        return made

    def tip_at(self, point: QPointF) -> str:
        """What a bar tells, its whole name first where it says it in other words."""
        spot = self.spot_near(point)
        if spot is None:
            return ""
        told, name = spot.mark.told, spot.mark.name
        return told if name in told else f"{name}\n{told}"

    # drawing

    def paint(self, p: QPainter, marked: Spot | None) -> None:
        rooms, scale = self._rooms(), self.ruler()
        top, bottom = self._first, self._first + len(self.panel.bars) * self.row
        if marked is not None:
            self._marked_row(p, marked.rect)
        if self.over is not None and (marked is None or self.over.mark != marked.mark):
            p.fillRect(self.over.rect, ink("tint", 0.45))
        self._ground(p, scale, rooms.left, rooms.right, top, bottom)
        for i in range(len(self.panel.bars)):
            self._row(p, i, rooms, scale)
        hline(p, 0, self.width(), top - 1, "edge")
        if rooms.line:
            self._cumulated(p, rooms, top, bottom)
        name = QRectF(px(9), bottom + px(AXIS) - px(2), rooms.right + px(24) - px(9), measure.line())
        words(p, name, self.axis_name, font=measure.body(), of="soft", align=RIGHT)
        paint_key(p, self._key, px(9), name.bottom() + px(7), self.width() - 2 * px(9))

    def _marked_row(self, p: QPainter, rect: QRectF) -> None:
        p.fillRect(rect, ink("tint"))
        if self.hasFocus():
            p.fillRect(QRectF(0, rect.top(), px(3), rect.height()), ink("accent"))

    def _ground(
        self, p: QPainter, scale: Ruler, left: float, right: float, top: float, bottom: float
    ) -> None:
        font, taken = measure.body(), float("-inf")
        for value, text in scale.ticks:
            x = left + scale.share(value) * (right - left)
            vline(p, x, top, bottom, "line")
            half = measure.width(text) / 2
            if x - half < taken:
                continue  # it would run into its neighbour
            taken = x + half + px(6)
            room = QRectF(x - px(40), bottom + px(5), px(80), measure.line())
            words(p, room, text, font=font, of="soft", align=CENTRE, elide=False)
            if self.axis_above:
                room.moveTop(top - px(6) - measure.line())
                words(p, room, text, font=font, of="soft", align=CENTRE, elide=False)

    def _row(self, p: QPainter, i: int, rooms: _Rooms, scale: Ruler) -> None:
        bar, rect = self.panel.bars[i], self._row_rect(i)
        hline(p, 0, self.width(), rect.bottom() - 1, "line")
        y = rect.center().y() - (px(6) if bar.other is not None else 0)
        of = "soft" if bar.value is None else "text"
        self._words(p, i, self.names[i], rooms.name, rooms.left - px(18), y, of)
        self._words(p, i, self.besides[i], rooms.beside, rooms.beside_end + 1, y, of)
        if bar.value is None:
            return

        def at(value: float) -> float:
            return rooms.left + scale.share(value) * (rooms.right - rooms.left)

        block = QRectF(rooms.left, y - fx(BAR) / 2, max(at(bar.value) - rooms.left, 1), fx(BAR))
        paint_block(p, block, bar.ink)
        if bar.low is not None and bar.high is not None:
            paint_interval(p, at(bar.low), at(bar.high), y)
        if bar.other is not None:
            marker(p, QPointF(at(bar.other), y + fx(BAR) / 2 + fx(8)), "diamond", "text", fx(DIAMOND))

    def _words(self, p: QPainter, i: int, text: str, left: float, right: float, y: float, of: str) -> None:
        """Words of a row level with its bar, in two lines where they are long and the row is high enough."""
        font = measure.strong() if told_apart(self.panel.bars[i]) else measure.body()
        line, row = measure.line(), self._row_rect(i)
        lines = wrapped(text, font, right - left, 2 if self.row >= 2 * line + px(4) else 1)
        top = max(y - line * len(lines) / 2, row.top() + px(2))
        for k, part in enumerate(lines):
            words(p, QRectF(left, top + k * line, right - left, line), part, font=font, of=of, elide=False)

    def _cumulated(self, p: QPainter, rooms: _Rooms, top: float, bottom: float) -> None:
        """The cumulated share runs down its own column, so that no bar is read on two axes."""
        axis = Axis(name=self.panel.axis.name, scale=Scale.SHARE, least=0, most=1)
        wide = rooms.line_end - rooms.line
        scale = ruler(axis, (), pieces=max(wide / px(70), 1))
        self._ground(p, scale, rooms.line, rooms.line_end, top, bottom)
        name = QRectF(rooms.line - px(24), bottom + px(AXIS) - px(2), wide + px(42), measure.line())
        words(p, name, say("cumulated share"), font=measure.body(), of="soft", align=RIGHT)
        points = []
        for i, bar in enumerate(self.panel.bars):
            if bar.reached is not None:
                y = self._row_rect(i).center().y()
                points.append(QPointF(rooms.line + scale.share(bar.reached) * wide, y))
        p.save()
        p.setRenderHint(QPainter.RenderHint.Antialiasing)
        p.setPen(pen("text", fx(1.7), round_ends=True))
        p.setBrush(Qt.BrushStyle.NoBrush)
        p.drawPolyline(QPolygonF(points))
        p.restore()
        for point in points:
            marker(p, point, "dot", "text", fx(7))
