"""Which repairs come back: a bar for each group with its interval, and a diamond for all the others."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.boxes import Flow
from app.screens.kit.cell_paint import Fonts, draw
from app.screens.kit.cells import Two
from app.screens.kit.measure import fx, px
from app.screens.kit.palette import ink
from app.screens.kit.shapes import marker
from app.screens.kit.strokes import box, hline, vline, words
from app.screens.kit.tips import plain_tip
from app.screens.language import percent, say

ROW, HEAD, AXIS = 54, 28, 36
NAME, FIGURE, VERDICT = 172, 86, 128


@dataclass(frozen=True)
class ComebackFacts:
    """One group: shares of one; counts worded (``9 of 33``); ``verdict`` more, less, unclear or few, with its
    words. ``detail`` is what stands soft under the verdict; ``tip`` says it in trade words."""

    name: str
    second: str
    share: float
    low: float
    high: float
    counted: str
    rest: float | None  # None: there is no other group
    rest_counted: str
    verdict: str
    verdict_word: str
    detail: str = ""
    tip: str = ""
    key: Any = None

    @property
    def plain(self) -> str:
        """The row in words."""
        rest = "" if self.rest is None else f"{say('the rest')} {percent(self.rest)} ({self.rest_counted}); "
        return (
            f"{self.name}: {percent(self.share)} ({self.counted}), {percent(self.low)} – {percent(self.high)}; "
            f"{rest}{self.verdict_word} {self.detail}"
        )


class ComebackBars(QWidget):
    """The picture with its figures; Up and Down mark a group, Enter opens it."""

    marked = Signal(object)
    opened = Signal(object)

    def __init__(self, head: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._head = head
        self.rows: tuple[ComebackFacts, ...] = ()
        self.at = -1
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(say("Which repairs come back"))

    def set_rows(self, rows: Sequence[ComebackFacts], head: str | None = None) -> None:
        """Show these groups; the first is marked."""
        self.rows = tuple(rows)
        if head is not None:
            self._head = head
        self.updateGeometry()
        self.mark(0 if self.rows else -1)

    def mark(self, at: int) -> None:
        """Mark a group by its place."""
        self.at = at
        self.setAccessibleDescription(self.rows[at].plain if at >= 0 else "")
        self.update()
        if at >= 0:
            self.marked.emit(self.rows[at].key)

    def refit(self) -> None:
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        return QSize(px(820), px(HEAD) + len(self.rows) * px(ROW) + px(AXIS))

    def minimumSizeHint(self) -> QSize:
        return QSize(px(620), self.sizeHint().height())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = event.key()
        if key in (Qt.Key.Key_Down, Qt.Key.Key_Up) and self.rows:
            self.mark(max(0, min(self.at + (1 if key == Qt.Key.Key_Down else -1), len(self.rows) - 1)))
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.at >= 0:
            self.opened.emit(self.rows[self.at].key)
        else:
            super().keyPressEvent(event)

    def _row_of(self, event: QMouseEvent) -> int:
        at = int(event.position().y() - px(HEAD)) // px(ROW)
        return at if event.position().y() >= px(HEAD) and at < len(self.rows) else -1

    def mousePressEvent(self, event: QMouseEvent) -> None:
        at = self._row_of(event)
        if at >= 0:
            self.mark(at)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        at = self._row_of(event)
        if at >= 0:
            self.opened.emit(self.rows[at].key)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        at = self._row_of(event)
        self.setToolTip(plain_tip(self.rows[at].tip if at >= 0 else ""))

    # drawing

    def _plot(self) -> tuple[float, float]:
        left = px(NAME)
        return left, max(self.width() - 2 * px(FIGURE) - px(VERDICT) - px(46) - left, px(120))

    def _top_of_scale(self) -> float:
        highest = max((max(r.high, r.rest or 0) for r in self.rows), default=0.1)
        return min(max((int(highest * 10 + 0.999)) / 10, 0.1), 1.0)

    def _x(self, share: float) -> float:
        left, wide = self._plot()
        return left + share / self._top_of_scale() * wide

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        fonts = Fonts.now()
        left, wide = self._plot()
        figures = left + wide + px(46)
        head, tall = px(HEAD), px(ROW)
        bottom = head + len(self.rows) * tall
        for x, text in (
            (px(9), self._head),
            (figures, say("Came back")),
            (figures + px(FIGURE), say("The rest")),
            (figures + 2 * px(FIGURE), say("Against the rest")),
        ):
            words(p, QRectF(x, 0, px(150), head - px(2)), text, font=fonts.body, of="soft")
        hline(p, 0, self.width(), head - 1, "edge")
        if 0 <= self.at < len(self.rows):
            top = head + self.at * tall
            p.fillRect(QRectF(0, top, self.width(), tall), ink("tint"))
            p.fillRect(QRectF(0, top, px(3), tall), ink("accent"))
        steps = round(self._top_of_scale() * 10)
        every = 1 if steps <= 6 else 2
        for step in range(0, steps + 1, every):
            x = self._x(step / 10)
            vline(p, x, head, bottom, "line")
            mark = QRectF(x - px(30), bottom + px(6), px(60), px(20))
            words(p, mark, percent(step / 10), font=fonts.body, of="soft", align=Qt.AlignmentFlag.AlignCenter)
        for i, row in enumerate(self.rows):
            self._row(p, row, QRectF(0, head + i * tall, self.width(), tall), figures, fonts)

    def _row(self, p: QPainter, row: ComebackFacts, rect: QRectF, figures: float, fonts: Fonts) -> None:
        hline(p, rect.left(), rect.right(), rect.bottom() - 1, "line")
        draw(
            p,
            QRectF(px(9), rect.top(), px(NAME) - px(18), rect.height()),
            Two(row.name, row.second, strong=True),
            fonts,
        )
        self._bar(p, row, rect.center().y())
        wide = px(FIGURE) - px(6)
        cells = (
            Two(percent(row.share), row.counted, strong=True),
            Two(percent(row.rest), row.rest_counted) if row.rest is not None else None,
            Two(
                row.verdict_word,
                row.detail,
                strong=row.verdict in ("more", "less"),
                soft=row.verdict not in ("more", "less"),
            ),
        )
        for i, cell in enumerate(cells):
            room = QRectF(figures + i * px(FIGURE), rect.top(), wide if i < 2 else px(VERDICT), rect.height())
            draw(p, room, cell, fonts)

    def _bar(self, p: QPainter, row: ComebackFacts, y: float) -> None:
        p.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        zero, tall = self._x(0), fx(16)
        bar = QRectF(zero, y - tall / 2, max(self._x(row.share) - zero, 1), tall)
        if row.verdict == "more":
            box(p, bar, fill=ink("accent", 0.41), border="accent", radius=0)
        elif row.verdict == "few":
            box(p, bar, fill="base", border="edge", radius=0)
        else:
            box(p, bar, fill=ink("edge", 0.27), border="edge", radius=0)
        low, high = self._x(row.low), self._x(min(row.high, self._top_of_scale()))
        hline(p, low, high, y - 0.85, "text", 1.7)
        for x in (low, high):
            vline(p, x - 0.85, y - fx(6), y + fx(6), "text", 1.7)
        if row.rest is not None:
            marker(p, QPointF(self._x(row.rest), y + tall / 2 + fx(8)), "diamond", "text", fx(10))


class ComebackKey(QWidget):
    """What bar, line and diamond mean."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        flow = Flow(self, gap=20)
        for kind, text in (
            ("share", say("share that came back")),
            ("interval", say("95 % interval")),
            ("rest", say("the rest of the shop")),
            ("few", say("under 10 jobs")),
        ):
            flow.add(_KeyEntry(kind, text))
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)


class _KeyEntry(QWidget):
    def __init__(self, kind: str, text: str) -> None:
        super().__init__()
        self._kind, self._text = kind, text
        self.setAccessibleName(text)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def refit(self) -> None:
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        return QSize(px(30) + measure.width(self._text) + px(2), px(24))

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        y = self.height() / 2
        block = QRectF(0, y - fx(6), fx(23), fx(12))
        if self._kind == "share":
            box(p, block, fill=ink("edge", 0.27), border="edge", radius=0)
        elif self._kind == "few":
            box(p, block, fill="base", border="edge", radius=0)
        elif self._kind == "rest":
            marker(p, QPointF(fx(12), y), "diamond", "text", fx(10))
        else:
            hline(p, 0, fx(23), y - 0.85, "text", 1.7)
            for x in (0.0, fx(23) - 1.7):
                vline(p, x, y - fx(5), y + fx(5), "text", 1.7)
        room = QRectF(px(30), 0, self.width() - px(30), self.height())
        words(p, room, self._text, font=measure.body(), of="soft", elide=False)
