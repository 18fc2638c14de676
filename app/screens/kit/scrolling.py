"""Scroll bars and scrolling sheets in our own plain drawing."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QScrollBar, QStyle, QStyleOptionSlider, QWidget

from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.strokes import box


class ScrollBar(QScrollBar):
    """A groove in the ink around it (``ground``) and a handle with an edge; no arrows."""

    def __init__(
        self, orientation: Qt.Orientation, parent: QWidget | None = None, *, ground: str = "base"
    ) -> None:
        super().__init__(orientation, parent)
        self._ground = ground
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def refit(self) -> None:
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        thick = px(12)
        return QSize(thick, px(60)) if self.orientation() == Qt.Orientation.Vertical else QSize(px(60), thick)

    def handle(self) -> QRect:
        """Where the handle is; it covers what the groove allows."""
        option = QStyleOptionSlider()
        self.initStyleOption(option)
        return self.style().subControlRect(
            QStyle.ComplexControl.CC_ScrollBar, option, QStyle.SubControl.SC_ScrollBarSlider, self
        )

    def event(self, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.HoverEnter, QEvent.Type.HoverLeave):
            self.update()
        return super().event(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        p.fillRect(self.rect(), ink(self._ground))
        if self.minimum() == self.maximum():
            return
        rect = QRectF(self.handle())
        upright = self.orientation() == Qt.Orientation.Vertical
        rect = rect.adjusted(3, 0, -3, 0) if upright else rect.adjusted(0, 3, 0, -3)
        active = self.underMouse() or self.isSliderDown()
        box(p, rect, fill=ink("edge", 0.75 if active else 0.4), border=None)


class Scroller(QScrollArea):
    """A scrolling sheet; what it holds keeps the width there is, and what takes focus comes into sight."""

    def __init__(self, inside: QWidget | None = None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setVerticalScrollBar(ScrollBar(Qt.Orientation.Vertical, self))
        self.setHorizontalScrollBar(ScrollBar(Qt.Orientation.Horizontal, self))
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.viewport().setAutoFillBackground(False)
        if inside is not None:
            self.setWidget(inside)
            inside.setAutoFillBackground(False)

    def resizeEvent(self, event: QResizeEvent) -> None:
        self._fit_least()
        super().resizeEvent(event)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.LayoutRequest and watched is self.widget():
            self._fit_least()
        return super().eventFilter(watched, event)

    def _fit_least(self) -> None:
        """Words that wrap ask for the height of their narrowest shape; what counts is the height at this width,
        which Qt asks for by itself once nothing larger is set."""
        inside = self.widget()
        layout = inside.layout() if inside is not None else None
        if inside is not None and layout is not None:
            least = 1 if layout.hasHeightForWidth() else 0
            if inside.minimumHeight() != least:
                inside.setMinimumHeight(least)

    def show_focus(self, widget: QWidget) -> None:
        """Scroll so that ``widget`` is in sight with some room around it."""
        inside = self.widget()
        if inside is not None and inside.isAncestorOf(widget):
            self.ensureWidgetVisible(widget, px(18), px(36))
