"""The life of a transport: units as bands along time, jobs as ticks, readings as a curve through them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.life_plot import Axes, draw_plot, halo_words
from app.screens.kit.measure import fx, px
from app.screens.kit.palette import ink
from app.screens.kit.strokes import CENTRE, LEFT, box, dotted, underline, vline, words
from app.screens.language import say

BAND, TICK, NUMBERS = 46, 8, 20
LEAST_WIDTH, LEAST_HEIGHT = 640, 380


@dataclass(frozen=True)
class LifeBand:
    """A fitting: the unit it was in from ``start`` to ``end`` (None: still). No ``name`` is the shelf."""

    name: str
    second: str
    start: date
    end: date | None = None

    @property
    def present(self) -> bool:
        """Whether it is inside now."""
        return self.end is None and bool(self.name)


@dataclass(frozen=True)
class LifeJob:
    """A job as a tick with its number as a link."""

    number: str
    day: date
    target: Any = None


@dataclass(frozen=True)
class LifeReading:
    """One reading with its expanded uncertainty; ``label`` is printed where it is not empty. Readings of one
    ``fitting`` are joined, never across."""

    day: date
    value: float
    spread: float = 0.0
    label: str = ""
    fitting: int = 0


@dataclass(frozen=True)
class LifeLimit:
    """A limit with its source in words; ``upper`` forbids what lies above it."""

    value: float
    words: tuple[str, ...]
    upper: bool = True


@dataclass(frozen=True)
class LifeFacts:
    """Everything on the page. ``trend`` are days with low, middle and high; ``reaches`` the two days between
    which the band crosses the limit, with their word."""

    start: date
    end: date
    today: date
    bands: tuple[LifeBand, ...] = ()
    jobs: tuple[LifeJob, ...] = ()
    unit: str = ""
    readings: tuple[LifeReading, ...] = ()
    limit: LifeLimit | None = None
    reference: tuple[float, str] | None = None  # e.g. the label current with its words
    trend: tuple[tuple[date, float, float, float], ...] = ()
    reaches: tuple[date, date, str] | None = None
    sentence: str = ""


class LifeLine(QWidget):
    """Left and Right mark a job, Enter opens it. Too small for a plot, it shows the bands alone."""

    opened = Signal(object)

    def __init__(self, facts: LifeFacts | None = None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.facts = facts
        self.at = -1
        self._links: list[QRectF] = []
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName(say("Life of the transport"))
        if facts is not None:
            self.set_facts(facts)

    def set_facts(self, facts: LifeFacts) -> None:
        """Show another life."""
        self.facts = facts
        self.at = -1
        self.setAccessibleDescription(facts.sentence)
        self.updateGeometry()
        self.update()

    def refit(self) -> None:
        self.updateGeometry()

    @property
    def has_plot(self) -> bool:
        """Whether there is room and something to plot; else the page shows its table."""
        enough = self.width() >= px(LEAST_WIDTH) and self.height() >= px(LEAST_HEIGHT)
        return bool(self.facts and self.facts.readings) and enough

    def _bands_height(self) -> int:
        return px(NUMBERS) + px(TICK) + px(BAND) + px(TICK) + px(4)

    def sizeHint(self) -> QSize:
        plots = bool(self.facts and self.facts.readings)
        return QSize(px(900), px(450) if plots else self._bands_height())

    def minimumSizeHint(self) -> QSize:
        return QSize(px(400), self._bands_height())

    # keys and mouse

    def keyPressEvent(self, event: QKeyEvent) -> None:
        jobs = self.facts.jobs if self.facts is not None else ()
        key = event.key()
        if key in (Qt.Key.Key_Left, Qt.Key.Key_Right) and jobs:
            self.at = max(0, min(self.at + (1 if key == Qt.Key.Key_Right else -1), len(jobs) - 1))
            self.setAccessibleDescription(say("Job {number}", number=jobs[self.at].number))
            self.update()
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and 0 <= self.at < len(jobs):
            self.opened.emit(jobs[self.at].target)
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if self.at < 0 and self.facts is not None and self.facts.jobs:
            self.at = len(self.facts.jobs) - 1
        self.update()

    def _job_under(self, event: QMouseEvent) -> int:
        return next((i for i, rect in enumerate(self._links) if rect.contains(event.position())), -1)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        over = self._job_under(event) >= 0
        self.setCursor(Qt.CursorShape.PointingHandCursor if over else Qt.CursorShape.ArrowCursor)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        at = self._job_under(event)
        if at >= 0 and self.facts is not None:
            self.opened.emit(self.facts.jobs[at].target)

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
        found = list(self.facts.limit.words) if self.facts.limit is not None else []
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
            for band in self.facts.bands:
                for day in (band.start, band.end):
                    if day is not None and self.facts.start < day:
                        dotted(
                            p,
                            QPointF(axes.x(day), top + px(BAND)),
                            QPointF(axes.x(day), axes.bottom),
                            "edge",
                            1,
                        )
            draw_plot(p, self.facts, axes)
            vline(p, today, top, axes.bottom, "text", 1.5)
        self._bands(p, axes, top)
        self._jobs(p, axes, top)
        if self.facts.end > self.facts.today:
            room = QRectF(today + px(6), top, px(90), measure.line() + px(12))
            words(p, room, say("today"), font=measure.strong(), elide=False)
        if self.hasFocus() and self.at < 0:
            box(p, self.rect(), border="accent", width=2)

    def _bands(self, p: QPainter, axes: Axes, top: float) -> None:
        assert self.facts is not None
        line = measure.line()
        for band in self.facts.bands:
            x1 = axes.x(max(band.start, self.facts.start))
            x2 = axes.x(min(band.end or self.facts.today, self.facts.today))
            if not band.name:
                middle = top + px(BAND) / 2
                dotted(p, QPointF(x1, middle), QPointF(x2, middle), "soft", 1.3)
                room = QRectF(x1, middle - line - px(1), x2 - x1, line)
                words(p, room, band.second or say("shelf"), font=measure.body(), of="soft", align=CENTRE)
                continue
            rect = QRectF(x1, top, x2 - x1, px(BAND))
            present = band.present
            box(p, rect, fill="tint" if present else "alternate", border="accent" if present else "edge",
                width=2 if present else 1, radius=0)  # fmt: skip
            pad = px(9) if rect.width() > px(60) else px(4)
            upper = QRectF(x1 + pad, top + px(BAND) / 2 - line, rect.width() - 2 * pad, line)
            words(p, upper, band.name, font=measure.strong(), align=LEFT)
            words(p, upper.translated(0, line), band.second, font=measure.body(), of="soft", align=LEFT)

    def _jobs(self, p: QPainter, axes: Axes, top: float) -> None:
        assert self.facts is not None
        self._links = []
        taken_to = -1e9
        for i, job in enumerate(self.facts.jobs):
            x = axes.x(job.day)
            for y in (top - px(TICK), top + px(BAND)):
                vline(p, x - 0.75, y, y + px(TICK), "text", 1.5)
            wide = measure.width(job.number)
            rect = QRectF(x - wide / 2, 0, wide, px(NUMBERS) - px(2))
            rect.moveLeft(min(max(rect.left(), 2.0), self.width() - wide - 2.0))
            self._links.append(rect)
            if rect.left() < taken_to + px(4) and i != self.at:
                continue  # crowded: the tick stays and can still be opened by keys
            halo_words(p, rect, job.number, "accent", fill="base")
            underline(p, rect.left(), wide, rect.bottom() - fx(3))
            taken_to = rect.right()
            if i == self.at and self.hasFocus():
                box(p, rect.adjusted(-3, 0, 3, 1), border="accent", width=2)
