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
from app.screens.kit.plots.grid_heads import Heads, lay_heads, paint_heads, paint_heads_key
from app.screens.kit.plots.marks import Mark, Spot, worded
from app.screens.kit.plots.panel import PanelView
from app.screens.kit.plots.wrapped import wrapped
from app.screens.kit.strokes import CENTRE, LEFT, box, hline, vline, words
from app.screens.language import number
from app.trade.statistics.picture import Cell, Grid

FIELD = 30  # px, the height of a field
LIGHTEST, DARKEST = 0.07, 0.44  # of the accent, so that a number keeps its contrast on every field


@dataclass(frozen=True, slots=True)
class _Room:
    """Px of the fields: left, top, and the size of each."""

    left: float
    top: float
    wide: float
    tall: float
    heads: Heads


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

    def _names_wide(self, width: float) -> float:
        """Px that the names of the rows take."""
        names = max((measure.width(name) for name in (*self.rows, self.rows_are)), default=0)
        return min(names, width * 0.3)

    def _field(self, width: float) -> float:
        """Px of the height of a field: two lines where a name is long."""
        lines = 2 if any(measure.width(name) > self._names_wide(width) for name in self.rows) else 1
        return max(px(FIELD), lines * measure.line() + px(6))

    def heads(self, width: float) -> Heads:
        """The heads of the columns in a panel of ``width`` px."""
        least = measure.width(number(self.most, grouped=True)) + px(8)
        return lay_heads(self.columns, px(9) + self._names_wide(width) + px(12), width, least)

    def _above(self, heads: Heads) -> float:
        """Px above the fields: what the columns are, and their heads."""
        return measure.line() + px(4) + heads.tall

    def body_height(self, width: int) -> float:
        heads = self.heads(width)
        return self._above(heads) + len(self.rows) * self._field(width) + heads.key + px(8)

    def _room(self) -> _Room:
        width = float(self.width())
        heads = self.heads(width)
        left = px(9) + self._names_wide(width) + px(12)
        return _Room(left, self.top() + self._above(heads), heads.wide, self._field(width), heads)

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
        paint_heads(p, room.heads, room.left, room.top)
        paint_heads_key(p, room.heads, bottom, self.width())
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
            lines = wrapped(name, font, room.left - px(21), 2 if room.tall >= 2 * line else 1)
            first = room.top + (i + 0.5) * room.tall - len(lines) * line / 2
            for k, text in enumerate(lines):
                at = QRectF(px(9), first + k * line, room.left - px(21), line)
                words(p, at, text, font=font, elide=False)


def _of(names: list[str], at: int) -> str:
    return names[at] if 0 <= at < len(names) else ""
