"""Counts by two things: a field is the darker the more it counts, and its number stands in it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QWidget

from app.screens.kit import measure
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.plots.marks import Mark, Spot, worded
from app.screens.kit.plots.panel import PanelView
from app.screens.kit.plots.wrapped import fits, wrapped
from app.screens.kit.strokes import CENTRE, LEFT, box, hline, vline, words
from app.screens.language import number
from app.trade.statistics.picture import Cell, Grid

FIELD, WIDEST, UPRIGHT = 30, 132, 72  # px: height of a field, most width, and width below which heads slant
HEAD_LINES = 3
SLANTED = 220  # px, the longest a slanted head may be
LIGHTEST, DARKEST = 0.07, 0.44  # of the accent, so that a number keeps its contrast on every field


@dataclass(frozen=True, slots=True)
class _Room:
    """Px of the fields: left, top, and the size of each."""

    left: float
    top: float
    wide: float
    tall: float


class GridView(PanelView):
    """The arrows go from field to field; empty places are passed over."""

    def __init__(self, panel: Grid, place: int, parent: QWidget | None = None) -> None:
        super().__init__(worded(panel.title), place, parent)
        self.panel = panel
        self.rows = [worded(name) for name in panel.rows]
        self.columns = [worded(name) for name in panel.columns]
        self.rows_are, self.columns_are = worded(panel.rows_are), worded(panel.columns_are)
        self.cells = sorted(panel.cells, key=lambda cell: (cell.row, cell.column))
        self._marks = [self._mark(cell) for cell in self.cells]
        self.most = max((cell.count for cell in panel.cells), default=0)

    def _mark(self, cell: Cell) -> Mark:
        name = f"{_of(self.rows, cell.row)}, {_of(self.columns, cell.column)}"
        key = f"{cell.row}.{cell.column}"
        return Mark(panel=self.place, key=key, name=name, told=worded(cell.told), jobs=cell.jobs)

    # room

    def _field(self) -> float:
        return max(px(FIELD), measure.line() + px(6))

    def _left(self, width: float) -> float:
        names = max((measure.width(name) for name in self.rows), default=0)
        return px(9) + max(min(names, width * 0.3), min(measure.width(self.rows_are), width * 0.3)) + px(12)

    def _wide(self, width: float) -> float:
        """Px of a column; slanted heads keep the room at the right that the last ones rise into."""
        columns, room = max(len(self.columns), 1), width - self._left(width) - px(9)
        wide = min(room / columns, px(WIDEST))
        if self._slants(wide):
            reach = [
                self._rise(head) + px(9) - (len(self.columns) - i - 0.5) * wide
                for i, head in enumerate(self.columns)
            ]
            wide = min((room - max(*reach, 0)) / columns, wide)
        return wide

    def slanted(self, width: float) -> bool:
        """Whether the heads of the columns slant, as they are too long to stand in narrow columns."""
        columns = max(len(self.columns), 1)
        return self._slants(min((width - self._left(width) - px(9)) / columns, px(WIDEST)))

    def _slants(self, wide: float) -> bool:
        font = measure.body()
        narrow = wide < px(UPRIGHT)
        return narrow and not all(fits(head, font, wide - px(8), HEAD_LINES) for head in self.columns)

    def _rise(self, head: str) -> float:
        """Px that a slanted head goes up, and to the right."""
        return min(measure.width(head), px(SLANTED)) * math.sin(math.radians(45))

    def _lines(self, head: str, wide: float) -> list[str]:
        return wrapped(head, measure.body(), wide - px(8), HEAD_LINES)

    def _heads(self, width: float) -> float:
        """Px that the heads of the columns take."""
        if not self.columns:
            return 0.0
        if self.slanted(width):
            return max(self._rise(head) for head in self.columns) + measure.line()
        wide = self._wide(width)
        return max(len(self._lines(head, wide)) for head in self.columns) * measure.line() + px(4)

    def _names_height(self, width: float) -> float:
        """Px of the line that says what the columns are."""
        return measure.line() + px(4)

    def body_height(self, width: int) -> float:
        top = self._names_height(width) + self._heads(width)
        return top + len(self.rows) * self._field() + px(8)

    def _room(self) -> _Room:
        width = float(self.width())
        top = self.top() + self._names_height(width) + self._heads(width)
        return _Room(self._left(width), top, self._wide(width), self._field())

    def _rect(self, room: _Room, row: int, column: int) -> QRectF:
        return QRectF(room.left + column * room.wide, room.top + row * room.tall, room.wide, room.tall)

    def find_spots(self) -> list[Spot]:
        room = self._room()
        made = []
        for cell, mark in zip(self.cells, self._marks, strict=True):
            rect = self._rect(room, cell.row, cell.column)
            made.append(Spot(mark=mark, line=cell.row, along=cell.column, at=rect.center(), rect=rect))
        return made

    def tip_at(self, point: QPointF) -> str:
        """A field in words, else the whole name beside or above it."""
        told = super().tip_at(point)
        room = self._room()
        if not told and point.x() < room.left and point.y() >= room.top:
            return _of(self.rows, int((point.y() - room.top) // room.tall))
        if not told and point.y() < room.top and point.x() >= room.left:
            return _of(self.columns, int((point.x() - room.left) // max(room.wide, 1)))
        return told

    # drawing

    def paint(self, p: QPainter, marked: Spot | None) -> None:
        room = self._room()
        right = room.left + len(self.columns) * room.wide
        bottom = room.top + len(self.rows) * room.tall
        self._names(p, room)
        for cell in self.cells:
            self._paint_field(p, self._rect(room, cell.row, cell.column), cell)
        for row in range(1, len(self.rows) + 1):
            hline(p, 0, right, room.top + row * room.tall - 1, "line")
        for column in range(1, len(self.columns)):
            vline(p, room.left + column * room.wide, room.top, bottom, "line")
        hline(p, 0, right, room.top - 1, "edge")
        for spot, strong in ((self.over, False), (marked, True)):
            if spot is not None:
                focused = strong and self.hasFocus()
                box(p, spot.rect, border="accent" if strong else "edge", width=2 if focused else 1, radius=0)

    def _paint_field(self, p: QPainter, rect: QRectF, cell: Cell) -> None:
        if cell.count > 0:
            share = math.sqrt(cell.count / self.most)
            p.fillRect(rect, ink("accent", LIGHTEST + (DARKEST - LIGHTEST) * share))
        role = "text" if cell.count > 0 else "soft"
        text = number(cell.count, grouped=True)
        words(p, rect, text, font=measure.body(), of=role, align=CENTRE, elide=False)

    def _names(self, p: QPainter, room: _Room) -> None:
        font, line, top = measure.body(), measure.line(), self.top()
        across = QRectF(room.left + px(4), top, self.width() - room.left - px(9), line)
        if measure.width(self.columns_are) > across.width():
            across.setLeft(px(9))
        words(p, across, self.columns_are, font=font, of="soft", align=LEFT)
        down = QRectF(px(9), room.top - line - px(4), room.left - px(18), line)
        words(p, down, self.rows_are, font=font, of="soft", align=LEFT)
        for i, name in enumerate(self.rows):
            rect = QRectF(px(9), room.top + i * room.tall, room.left - px(21), room.tall)
            words(p, rect, name, font=font)
        slanted = self.slanted(self.width())
        for i, head in enumerate(self.columns):
            rect = self._rect(room, 0, i)
            if slanted:
                self._slanted(p, QPointF(rect.center().x(), room.top - px(6)), head)
            else:
                lines = self._lines(head, room.wide)
                for k, text in enumerate(lines):
                    at = QRectF(rect.left(), room.top - px(4) - (len(lines) - k) * line, rect.width(), line)
                    words(p, at, text, font=font, align=CENTRE, elide=False)

    def _slanted(self, p: QPainter, foot: QPointF, head: str) -> None:
        """A head that rises to the right from the middle of its column."""
        p.save()
        p.translate(foot)
        p.rotate(-45)
        words(p, QRectF(0, -measure.line() / 2, px(SLANTED), measure.line()), head, font=measure.body())
        p.restore()


def _of(names: list[str], at: int) -> str:
    return names[at] if 0 <= at < len(names) else ""
