"""What curves and courses share: a frame, lines kept as an image, words at the right edge or a key above."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import QPointF, QRect, QRectF
from PySide6.QtGui import QImage, QPainter, QPen
from PySide6.QtWidgets import QWidget

from app.screens.kit import measure
from app.screens.kit.measure import fx, px
from app.screens.kit.palette import ink, inks
from app.screens.kit.plots.edge_words import (
    EdgeWord,
    edge_rooms,
    gutter,
    paint_edge_words,
    paint_sample,
)
from app.screens.kit.plots.frame import Frame, level_height, paint_ground, paint_words, upright_gutter
from app.screens.kit.plots.key_line import KeyEntry, key_rooms, paint_key
from app.screens.kit.plots.line_room import Band, LineRoom, Stroke
from app.screens.kit.plots.looks import Look
from app.screens.kit.plots.marks import Spot, worded
from app.screens.kit.plots.panel import PanelView
from app.screens.kit.plots.scales import Ruler
from app.trade.statistics.picture import Course, Curves

LEAST, MOST = 200, 300  # px, the height of a plot
DIRECT = 640  # px of panel, below which the names stand in a key above the plot
TICK, DATE_TICK = 84, 44  # px that a mark of the level axis should have


class PlotPanel(PanelView):
    """The frame is laid for the present width; the lines are drawn again only when size, inks or mark changed."""

    def __init__(self, panel: Curves | Course, place: int, parent: QWidget | None = None) -> None:
        super().__init__(worded(panel.title), place, parent)
        self.x_name, self.y_name = worded(panel.x.name), worded(panel.y.name)
        self.lines = LineRoom(self)
        self._image: QImage | None = None
        self._image_for: Any = None

    # what the kinds do

    @abstractmethod
    def rulers(self, plot_width: float) -> tuple[Ruler, Ruler]:
        """The level and the upright axis for a plot of so many px."""

    @abstractmethod
    def named(self) -> list[tuple[str, Look]]:
        """The curves or series that need a name, each with its look."""

    def needed(self, names: list[str], looks: list[Look]) -> list[tuple[str, Look]]:
        """The names with their looks; a lone one only where neither the title nor the axis has said it."""
        if len(names) == 1 and any(
            names[0].casefold() in said.casefold() for said in (self.title, self.y_name)
        ):
            return []
        return list(zip(names, looks, strict=True))

    @abstractmethod
    def edge_words(self, frame: Frame | None, direct: bool) -> list[EdgeWord]:
        """The words at the right edge: names where ``direct``, and those of level lines. Without a frame their
        heights do not matter."""

    @abstractmethod
    def strokes(self, frame: Frame, marked: Spot | None) -> Sequence[Stroke | Band]:
        """What pyqtgraph draws, the undermost first."""

    @abstractmethod
    def paint_marks(self, p: QPainter, frame: Frame, marked: Spot | None) -> None:
        """Signs and words over the lines."""

    def below(self) -> float:
        """Px under the level axis for what belongs to it."""
        return 0.0

    def least_gutter(self) -> float:
        """Px left of the plot that what stands ``below`` needs."""
        return 0.0

    # room

    def direct_for(self, width: float) -> bool:
        """Whether the names have room beside the plot of a panel of ``width`` px, as wide as the text size asks."""
        names = [text for text, _ in self.named()]
        too_long = any(measure.width(text) > width * 0.22 for text in names)
        crowded = len(names) * measure.line() > self.plot_height(width)
        return width >= px(DIRECT) and not too_long and not crowded

    def plot_height(self, width: float) -> float:
        return min(max(width * 0.4, px(LEAST)), px(MOST))

    def _key(self) -> list[KeyEntry]:
        made = []
        for text, seen in self.named():

            def paint(p: QPainter, room: QRectF, seen: Look = seen) -> None:
                paint_sample(p, QPointF(room.left(), room.center().y()), seen)

            made.append(KeyEntry(text, paint))
        return made

    def _key_height(self, width: float) -> float:
        if self.direct_for(width) or not self.named():
            return 0.0
        return key_rooms(self._key(), px(9), width - 2 * px(9))[1] + px(4)

    def _key_names(self) -> list[tuple[QRectF, str]]:
        """The names of the key where they stand; none where the names stand beside the plot."""
        if self.direct_for(self.width()):
            return []
        entries = self._key()
        rooms, _ = key_rooms(entries, px(9), self.width() - 2 * px(9))
        return [
            (room.translated(0, self.top()), entry.text) for room, entry in zip(rooms, entries, strict=True)
        ]

    def tip_at(self, point: QPointF) -> str:
        """A mark in words, else a name that may have been cut: of the key, or of an axis."""
        told = super().tip_at(point)
        if told:
            return told
        room = self.frame().room
        for rect, name in self._key_names():
            if rect.contains(point):
                return name
        if room.top() - 2 * measure.line() <= point.y() < room.top():
            return self.y_name
        return (
            self.x_name if room.bottom() < point.y() <= room.bottom() + level_height(self.frame().x) else ""
        )

    def _above(self, width: float) -> float:
        return self._key_height(width) + 1.5 * measure.line() + px(6)

    def body_height(self, width: int) -> float:
        x, _ = self.rulers(max(width - px(100), px(120)))
        return self._above(width) + self.plot_height(width) + level_height(x) + self.below() + px(4)

    def frame(self) -> Frame:
        """The frame at the present width."""
        width = float(self.width())
        right = gutter(self.edge_words(None, self.direct_for(width)), width)
        _, y = self.rulers(width - right - px(60))
        left = max(upright_gutter(y), self.least_gutter())
        wide = max(width - left - right, px(120))
        x, y = self.rulers(wide)
        top = self.top() + self._above(width)
        room = QRect(
            round(left), round(top), round(wide), round(self.plot_height(width))
        )  # whole px keep it crisp
        return Frame(QRectF(room), x, y)

    # drawing

    def paint(self, p: QPainter, marked: Spot | None) -> None:
        frame = self.frame()
        direct = self.direct_for(self.width())
        if self.named() and not direct:
            paint_key(p, self._key(), px(9), self.top(), self.width() - 2 * px(9))
        paint_ground(p, frame)
        scale = p.device().devicePixelRatio()
        p.drawImage(frame.room.topLeft(), self._lines(frame, marked, scale))
        self.paint_marks(p, frame, marked)
        entries = self.edge_words(frame, direct)
        rooms = edge_rooms(entries, frame.room, self.width())
        paint_edge_words(p, entries, rooms, frame.room.right())
        paint_words(p, frame, self.x_name, self.y_name)

    def _lines(self, frame: Frame, marked: Spot | None, scale: float) -> QImage:
        key = marked.mark.key if marked is not None else None
        wanted = (frame.room, frame.x, frame.y, scale, id(inks()), measure.line(), key)
        if self._image is None or self._image_for != wanted:
            spans = (frame.x.least, frame.x.most), (frame.y.least, frame.y.most)
            self._image = self.lines.image(frame.room, scale, *spans, self.strokes(frame, marked))
            self._image_for = wanted
        return self._image

    def paint_ring(self, p: QPainter, at: QPointF, *, strong: bool) -> None:
        """A ring round a mark: the marked one in the accent, the one under the pointer thin."""
        p.save()
        p.setRenderHint(QPainter.RenderHint.Antialiasing)
        p.setPen(QPen(ink("accent") if strong else ink("soft"), 2 if strong and self.hasFocus() else 1.2))
        p.drawEllipse(at, fx(8), fx(8))
        p.restore()
