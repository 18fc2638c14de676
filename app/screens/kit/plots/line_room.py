"""Lines and bands of a plot, drawn by pyqtgraph into an image that the panel keeps.

The view is never shown: it takes no events, schedules nothing, and draws only when the panel asks for an image.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QRect, QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPen
from PySide6.QtWidgets import QGraphicsPathItem, QWidget


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line through points, in the numbers of the axes; its pen is in px."""

    xs: Sequence[float]
    ys: Sequence[float]
    pen: QPen


@dataclass(frozen=True, slots=True)
class Band:
    """What lies between two lines over the same places."""

    xs: Sequence[float]
    low: Sequence[float]
    high: Sequence[float]
    fill: QColor


class LineRoom:
    """One bare view with its box of data; made with the first image."""

    def __init__(self, owner: QWidget) -> None:
        self._owner = owner
        self.view: Any = None
        self.box: Any = None

    def image(
        self, room: QRectF, scale: float, x: tuple[float, float], y: tuple[float, float],
        things: Sequence[Stroke | Band],
    ) -> QImage:  # fmt: skip
        """``things`` in their order within ``room`` px, ``scale`` device px to each, see-through elsewhere."""
        if self.view is None:
            self._make()
        wide, tall = max(round(room.width()), 1), max(round(room.height()), 1)
        self.view.resize(wide, tall)
        self.view.resizeEvent(None)  # a hidden view hears of its size only when it is shown
        self.box.clear()
        self.box.setRange(xRange=x, yRange=y, padding=0, disableAutoRange=True)
        for z, thing in enumerate(things):
            self._add(thing, z, scale)
        image = QImage(round(wide * scale), round(tall * scale), QImage.Format.Format_ARGB32_Premultiplied)
        image.setDevicePixelRatio(scale)
        image.fill(Qt.GlobalColor.transparent)
        p = QPainter(image)
        p.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.view.render(p, QRectF(0, 0, wide, tall), QRect(0, 0, wide, tall))
        p.end()
        return image

    def _make(self) -> None:
        import pyqtgraph as pg

        self.view = pg.GraphicsView(self._owner, background=None)
        self.view.hide()
        self.view.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.box = pg.ViewBox(enableMenu=False, enableMouse=False, defaultPadding=0)
        self.view.setCentralItem(self.box)

    def _add(self, thing: Stroke | Band, z: int, scale: float) -> None:
        import numpy as np
        import pyqtgraph as pg

        item: Any
        if isinstance(thing, Band):
            # One outline there and back; pyqtgraph's own filling makes a polygon of every step.
            xs, ys = np.r_[thing.xs, thing.xs[::-1]], np.r_[thing.low, thing.high[::-1]]
            item = QGraphicsPathItem(pg.arrayToQPath(xs, ys))
            item.setPen(QPen(Qt.PenStyle.NoPen))
            item.setBrush(thing.fill)
        else:
            pen = QPen(thing.pen)
            pen.setCosmetic(True)  # px however the axes stretch, and device px at that
            pen.setWidthF(pen.widthF() * scale)
            item = pg.PlotCurveItem(thing.xs, thing.ys, pen=pen, antialias=True)
        item.setZValue(z)
        self.box.addItem(item)
