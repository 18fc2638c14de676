"""What every panel of a picture has: a title, marks that the pointer and the keys find, and words for the ear."""

from __future__ import annotations

from abc import abstractmethod

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QFocusEvent,
    QFontMetricsF,
    QHelpEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
)
from PySide6.QtWidgets import QAbstractScrollArea, QScrollArea, QSizePolicy, QToolTip, QWidget

from app.screens.kit import measure
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.plots.marks import Mark, Spot
from app.screens.kit.plots.walking import WALKED, next_spot
from app.screens.kit.strokes import box
from app.screens.kit.tips import plain_tip

LEAST_WIDTH = 320  # px; narrower, words are elided and stay in the tooltip
_WRAP = Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop


class PanelView(QWidget):
    """One panel, painted by its kind. The arrows mark, Enter or a double click opens the jobs behind a mark."""

    marked = Signal(object)  # a Mark
    opened = Signal(object)

    def __init__(self, title: str, place: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.title = title
        self.place = place
        self.at = -1
        self.over: Spot | None = None
        self._heights: dict[tuple[int, int], int] = {}
        self._top, self._top_for = 0.0, (-1, -1)
        self._spots: list[Spot] | None = None
        self._spots_for: tuple[int, int, int] | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.setAccessibleName(title)

    # what the kinds do

    @abstractmethod
    def body_height(self, width: int) -> float:
        """Px that the panel takes below its title."""

    @abstractmethod
    def find_spots(self) -> list[Spot]:
        """The marks at the present width, in the order of the keys."""

    @abstractmethod
    def paint(self, p: QPainter, marked: Spot | None) -> None:
        """Everything below the title, ``marked`` set off, in the inks in use."""

    def spot_near(self, point: QPointF) -> Spot | None:
        """What the pointer is on."""
        return next((spot for spot in reversed(self.spots()) if spot.rect.contains(point)), None)

    def tip_at(self, point: QPointF) -> str:
        """Words for the tooltip: what the pointer is on, or a name that was cut."""
        spot = self.spot_near(point)
        return spot.mark.told if spot is not None else ""

    # room

    def top(self) -> float:
        """Where the title ends, in px."""
        wanted = (self.width(), measure.line())
        if self._top_for != wanted:
            self._top, self._top_for = self.title_height(self.width()), wanted
        return self._top

    def title_height(self, width: int) -> float:
        room = QRectF(0, 0, max(width - 2 * px(9), px(60)), 10_000)
        metrics = QFontMetricsF(measure.strong())
        return metrics.boundingRect(room, int(_WRAP), self.title).height() + px(9) if self.title else 0.0

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        wanted = (width, measure.line())
        if wanted not in self._heights:  # each level of layouts asks several times
            self._heights[wanted] = round(self.title_height(width) + self.body_height(width))
        return self._heights[wanted]

    def sizeHint(self) -> QSize:
        return QSize(px(820), self.heightForWidth(px(820)))

    def minimumSizeHint(self) -> QSize:
        return QSize(px(LEAST_WIDTH), self.heightForWidth(max(self.width(), px(820))))

    def refit(self) -> None:
        self._spots = None
        self.updateGeometry()
        self.update()

    def spots(self) -> list[Spot]:
        """The marks where they stand now."""
        wanted = (self.width(), self.height(), measure.line())
        if self._spots is None or self._spots_for != wanted:
            self._spots, self._spots_for = self.find_spots(), wanted
        return self._spots

    def marks(self) -> list[Mark]:
        """The marks in the order of the keys."""
        return [spot.mark for spot in self.spots()]

    def marked_spot(self) -> Spot | None:
        spots = self.spots()
        return spots[self.at] if 0 <= self.at < len(spots) else None

    # marking

    def mark(self, at: int, *, aloud: bool = True) -> None:
        """Mark by place; ``aloud`` also tells a screen reader now. -1 marks nothing."""
        self.at = at
        self.update()
        spot = self.marked_spot()
        told = spot.mark.told if spot is not None else ""
        self.setAccessibleDescription(told)
        if spot is None:
            return
        if aloud and self.hasFocus() and QAccessible.isActive():
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, told))
        self._bring_into_sight(spot)
        self.marked.emit(spot.mark)

    def _bring_into_sight(self, spot: Spot) -> None:
        inside: QWidget | None = self
        while inside is not None and not isinstance(inside, QAbstractScrollArea):
            inside = inside.parentWidget()
        if isinstance(inside, QScrollArea) and self.hasFocus():
            sheet = inside.widget()
            if sheet is not None:
                point = self.mapTo(sheet, spot.at.toPoint())
                inside.ensureVisible(point.x(), point.y(), 0, px(54))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = event.key()
        spot = self.marked_spot()
        if key in WALKED and self.spots():
            to = next_spot(self.spots(), self.at, key)
            if to != self.at:
                self.mark(to)
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and spot is not None and spot.mark.jobs:
            self.opened.emit(spot.mark)
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if self.at < 0 and self.spots() and event.reason() != Qt.FocusReason.MouseFocusReason:
            self.mark(0)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()

    # pointer

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self._point(self.spot_near(event.position()))
        if self.over is not None:  # at once: these numbers are what the pointer came for
            QToolTip.showText(
                event.globalPosition().toPoint(), plain_tip(self.tip_at(event.position())), self
            )

    def leaveEvent(self, event: QEvent) -> None:
        super().leaveEvent(event)
        self._point(None)
        QToolTip.hideText()

    def _point(self, spot: Spot | None) -> None:
        if spot == self.over:
            return
        self.over = spot
        opens = spot is not None and bool(spot.mark.jobs)
        self.setCursor(Qt.CursorShape.PointingHandCursor if opens else Qt.CursorShape.ArrowCursor)
        self.update()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        spot = self.spot_near(event.position())
        at = self._place_of(spot)
        if at >= 0:
            self.mark(at)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        spot = self.spot_near(event.position())
        if spot is not None and spot.mark.jobs:
            self.opened.emit(spot.mark)

    def _place_of(self, spot: Spot | None) -> int:
        """The place of a spot among those of the keys: itself, or the nearest of the same key."""
        if spot is None:
            return -1
        those = [i for i, other in enumerate(self.spots()) if other.mark.key == spot.mark.key]
        return min(those, key=lambda i: abs(self.spots()[i].along - spot.along), default=-1)

    def event(self, event: QEvent) -> bool:
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip:
            QToolTip.showText(event.globalPos(), plain_tip(self.tip_at(QPointF(event.pos()))), self)
            return True
        return super().event(event)

    # drawing

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        self.paint_title(p)
        self.paint(p, self.marked_spot())
        if self.hasFocus() and self.marked_spot() is None:
            box(p, self.rect(), border="accent", width=2)

    def paint_plain(self, p: QPainter) -> None:
        """The panel as a picture to take away: nothing marked, nothing pointed at."""
        over, self.over = self.over, None
        self.paint_title(p)
        self.paint(p, None)
        self.over = over

    def paint_title(self, p: QPainter) -> None:
        p.setFont(measure.strong())
        p.setPen(ink("text"))
        p.drawText(
            QRectF(px(9), 0, max(self.width() - 2 * px(9), px(60)), self.top()), int(_WRAP), self.title
        )
