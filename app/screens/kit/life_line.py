"""The life of a transport: units as bands along time, jobs as ticks, changes below, readings plotted under them."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFocusEvent, QHelpEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from app.screens.kit import measure
from app.screens.kit.life import LifeChange, LifeFacts, LifeJob
from app.screens.kit.life_axes import Axes, spans
from app.screens.kit.life_bands import (
    BAND,
    LANE,
    NUMBERS,
    TICK,
    halo_words,
    lanes_of,
    paint_bands,
    paint_change,
)
from app.screens.kit.life_plot import LifePlot
from app.screens.kit.measure import fx, px
from app.screens.kit.palette import ink
from app.screens.kit.strokes import CENTRE, LEFT, RIGHT, box, dotted, hline, underline, vline, words
from app.screens.kit.tips import plain_tip
from app.screens.language import say

LEAST_WIDTH, LEAST_HEIGHT, PLOT = 640, 380, 440  # px; smaller, the page shows its table
NEAR = 9  # px around a reading in which the mouse finds it


class LifeLine(QWidget):
    """Left and Right mark a job or a change, Enter or a click opens it. Too small for a plot, it shows the bands
    alone. ``marked`` tells the marked one in words."""

    opened = Signal(object)
    marked = Signal(str)

    def __init__(self, facts: LifeFacts | None = None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.facts = facts
        self.at = -1
        self.plot = LifePlot(self)
        self._spots: list[tuple[QRectF, int]] = []  # what a click opens, as painted last
        self._stale = True
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.setAccessibleName(say("Life of the transport"))
        if facts is not None:
            self.set_facts(facts)

    def set_facts(self, facts: LifeFacts) -> None:
        """Show another life."""
        self.facts = facts
        self.at = len(facts.marks) - 1 if self.hasFocus() else -1
        self.setAccessibleDescription(facts.sentence)
        self.marked.emit(words_of(facts.marks[self.at]) if self.at >= 0 else "")
        self._redraw()

    def refit(self) -> None:
        self._redraw()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._redraw()

    def _redraw(self) -> None:
        self._stale = True
        self.updateGeometry()
        self.update()
        self._plot()

    # room

    @property
    def has_plot(self) -> bool:
        """Whether there is room and something to plot; else the page shows its table."""
        enough = self.width() >= px(LEAST_WIDTH) and self.height() >= px(LEAST_HEIGHT)
        return bool(self.facts and self.facts.readings) and enough

    def _lanes(self) -> list[int]:
        return lanes_of(self.facts.changes) if self.facts is not None else []

    def _bands_height(self) -> int:
        lanes = max(self._lanes(), default=-1) + 1
        return px(NUMBERS) + px(TICK) + px(BAND) + px(TICK) + px(4) + lanes * px(LANE)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        plots = bool(self.facts and self.facts.readings) and width >= px(LEAST_WIDTH)
        bands = self._bands_height()
        return bands + px(PLOT) - px(NUMBERS + 2 * TICK + BAND) if plots else bands

    def sizeHint(self) -> QSize:
        return QSize(px(900), self.heightForWidth(px(900)))

    def minimumSizeHint(self) -> QSize:
        return QSize(px(400), self._bands_height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._stale = True
        self._plot()

    def _plot(self) -> None:
        """Bring the plot up to date while it is in sight; a hidden page draws nothing."""
        shown = self.has_plot
        self.plot.setVisible(shown)
        if shown and self._stale and self.isVisible():
            assert self.facts is not None
            self._stale = False
            self.plot.show_facts(self.facts, self._axes())

    def showEvent(self, event: QEvent) -> None:
        super().showEvent(event)  # type: ignore[arg-type]
        self._plot()

    # keys and mouse

    def keyPressEvent(self, event: QKeyEvent) -> None:
        marks = self.facts.marks if self.facts is not None else ()
        key = event.key()
        steps = {Qt.Key.Key_Left: self.at - 1, Qt.Key.Key_Right: self.at + 1, Qt.Key.Key_Home: 0}
        steps[Qt.Key.Key_End] = len(marks) - 1
        if key in steps and marks:
            self._mark(max(0, min(steps[Qt.Key(key)], len(marks) - 1)))
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and 0 <= self.at < len(marks):
            self.opened.emit(marks[self.at].target)
        else:
            super().keyPressEvent(event)

    def _mark(self, at: int) -> None:
        assert self.facts is not None
        self.at = at
        told = words_of(self.facts.marks[at])
        self.setAccessibleDescription(told)
        self.marked.emit(told)
        self.update()

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if self.at < 0 and self.facts is not None and self.facts.marks:
            self.at = len(self.facts.marks) - 1
            self.marked.emit(words_of(self.facts.marks[self.at]))
        self.update()

    def _under(self, point: QPointF) -> int:
        return next((i for rect, i in reversed(self._spots) if rect.contains(point)), -1)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        over = self._under(event.position()) >= 0
        self.setCursor(Qt.CursorShape.PointingHandCursor if over else Qt.CursorShape.ArrowCursor)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        at = self._under(event.position())
        if at >= 0 and self.facts is not None:
            self.opened.emit(self.facts.marks[at].target)

    def event(self, event: QEvent) -> bool:
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip:
            told = self.told_at(QPointF(event.pos()))
            QToolTip.showText(event.globalPos(), plain_tip(told), self)
            return True
        return super().event(event)

    def told_at(self, point: QPointF) -> str:
        """What stands at a point in one line: a job, a change or a reading; empty when nothing does."""
        if self.facts is None:
            return ""
        at = self._under(point)
        if at >= 0:
            return words_of(self.facts.marks[at])
        if self.has_plot:
            axes, near = self._axes(), fx(NEAR)
            for reading in reversed(self.facts.readings):
                away = QPointF(axes.x(reading.day), axes.y(reading.value)) - point
                if max(abs(away.x()), abs(away.y())) <= near:
                    return reading.told
        return ""

    # drawing

    def _axes(self) -> Axes:
        assert self.facts is not None
        plot = self.has_plot
        left = float(px(64)) if plot else float(px(9))
        words_wide = max((measure.width(w) for w in self._edge_words()), default=0)
        right = self.width() - (max(px(20), words_wide + px(14)) if plot else px(20))
        top = self._bands_height() + px(26)
        bottom = self.height() - px(30)
        return Axes.over(self.facts, left, right, top, bottom)

    def _edge_words(self) -> list[str]:
        assert self.facts is not None
        found = [word for limit in self.facts.limits for word in limit.words]
        return [*found, self.facts.reference[1]] if self.facts.reference is not None else found

    def paintEvent(self, event: QPaintEvent) -> None:
        if self.facts is None:
            return
        p = QPainter(self)
        axes = self._axes()
        top = px(NUMBERS) + px(TICK)
        today = axes.x(self.facts.today)
        foot = axes.bottom if self.has_plot else top + px(BAND)
        if self.facts.end > self.facts.today:
            p.fillRect(QRectF(today, top, axes.right - today, foot - top), ink("alternate"))
        if self.has_plot:
            self._ground(p, axes, top)
            vline(p, today, top, axes.bottom, "text", 1.5)
        paint_bands(p, self.facts, axes, top)
        self._spots = []
        self._changes(p, axes, top + px(BAND) + px(TICK) + px(2))
        self._jobs(p, axes, top)
        if self.facts.end > self.facts.today:
            room = QRectF(today + px(6), top, px(90), measure.line() + px(12))
            words(p, room, say("today"), font=measure.strong(), elide=False)
        if self.hasFocus() and self.at < 0:
            box(p, self.rect(), border="accent", width=2)

    def _ground(self, p: QPainter, axes: Axes, top: float) -> None:
        """What stands behind the plot: years, days of a change of unit, and the words at its edges."""
        assert self.facts is not None
        for band in self.facts.bands:
            for day in (band.start, band.end):
                if day is not None and self.facts.start < day:
                    x = axes.x(day)
                    dotted(p, QPointF(x, top + px(BAND)), QPointF(x, axes.bottom), "edge", 1)
        hline(p, axes.left, axes.right, axes.bottom, "edge")
        below = QRectF(0, axes.bottom + px(6), 0, measure.line())
        for begin, end, text in spans(axes.start, axes.end, (axes.right - axes.left) / px(54)):
            x1, x2 = axes.x(max(begin, axes.start)), axes.x(min(end, axes.end))
            if begin > axes.start:
                vline(p, x1, axes.top, axes.bottom, "line")
            if x2 - x1 >= measure.width(text):
                below.setRect(x1, below.top(), x2 - x1, below.height())
                words(p, below, text, font=measure.body(), of="soft", align=CENTRE, elide=False)
        line = measure.line()
        room = QRectF(0, axes.top - line - px(4), axes.left - px(10), line)
        words(p, room, self.facts.unit, font=measure.body(), of="soft", align=RIGHT)
        beside: list[tuple[float, str, str]] = []
        for limit in self.facts.limits:
            y = axes.y(limit.value) - line * len(limit.words) / 2
            beside += [(y + i * line, text, "stop") for i, text in enumerate(limit.words)]
        if self.facts.reference is not None:
            value, text = self.facts.reference
            beside.append((axes.y(value) - line / 2, text, "soft"))
        taken = float("-inf")
        for y, text, role in sorted(beside):
            taken = max(y, taken)
            room = QRectF(axes.right + px(8), taken, self.width() - axes.right - px(8), line)
            words(p, room, text, font=measure.body(), of=role, align=LEFT)
            taken += line

    def _jobs(self, p: QPainter, axes: Axes, top: float) -> None:
        assert self.facts is not None
        taken_to = float("-inf")
        for i, job in enumerate(self.facts.marks):
            if not isinstance(job, LifeJob):
                continue
            x = axes.x(job.day)
            for y in (top - px(TICK), top + px(BAND)):
                vline(p, x - 0.75, y, y + px(TICK), "text", 1.5)
            wide = measure.width(job.number)
            rect = QRectF(x - wide / 2, 0, wide, px(NUMBERS) - px(2))
            rect.moveLeft(min(max(rect.left(), 2.0), self.width() - wide - 2.0))
            if rect.left() < taken_to + px(4) and i != self.at:
                continue  # crowded: the tick stays and can still be opened by keys
            self._spots.append((rect, i))
            halo_words(p, rect, job.number, "accent", fill="base")
            underline(p, rect.left(), wide, rect.bottom() - fx(3))
            taken_to = rect.right()
            if i == self.at and self.hasFocus():
                box(p, rect.adjusted(-3, 0, 3, 1), border="accent", width=2)

    def _changes(self, p: QPainter, axes: Axes, top: float) -> None:
        assert self.facts is not None
        lanes = dict(zip((id(change) for change in self.facts.changes), self._lanes(), strict=True))
        for i, change in enumerate(self.facts.marks):
            if isinstance(change, LifeChange):
                lane = lanes[id(change)]
                after = [
                    axes.x(other.day)
                    for other in self.facts.changes
                    if lanes[id(other)] == lane and other.day > change.day
                ]
                room = QRectF(0, top + lane * px(LANE), min(after, default=axes.right), px(LANE))
                marked = i == self.at and self.hasFocus()
                self._spots.append((paint_change(p, change, axes, room, self.facts.today, marked=marked), i))


def words_of(mark: LifeJob | LifeChange) -> str:
    """A mark in one line, for those who hear it and for its tooltip."""
    if mark.told:
        return mark.told
    return say("Job {number}", number=mark.number) if isinstance(mark, LifeJob) else mark.words
