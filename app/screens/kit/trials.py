"""The trial strip: one tile for each change that was tried, oldest first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.scrolling import Scroller
from app.screens.kit.shapes import outcome_arrow
from app.screens.kit.strokes import LEFT, RIGHT, dotted, hline, path_of, snap_width, words
from app.screens.kit.tips import plain_tip
from app.screens.language import say

LEAST, TALL, GAP, CUT, FOOT = 230, 180, 12, 14, 64
READINGS = 3
_INKS = {"cured": "accent", "better": "accent", "none": "text", "": "soft"}


@dataclass(frozen=True)
class TrialReading:
    """One reading before and after: ``seek time 4.7 to 1.3 s``."""

    name: str
    before: str
    after: str
    unit: str = ""


@dataclass(frozen=True)
class TrialFacts:
    """One trial, worded. ``outcome`` is cured, better, none, worse, or empty; ``fate`` what became of the change;
    ``stays`` when it stays inside as a modification; ``put_back`` when it was undone again; ``struck`` holds who
    struck it out and why. ``book``: what the book worked out, as outcome and in words."""

    title: str
    time: str
    change: str
    outcome: str
    outcome_word: str
    readings: tuple[TrialReading, ...] = ()
    fate: str = ""
    stays: bool = False
    struck: str = ""
    key: Any = None
    put_back: bool = False
    book: str = ""
    book_words: str = ""

    @property
    def plain(self) -> str:
        """The tile in words."""
        to = say("then")
        read = "; ".join(f"{r.name} {r.before} {to} {r.after} {r.unit}".strip() for r in self.readings)
        said = (self.outcome_word, self.book_words, self.fate, self.struck)
        parts = (f"{self.title}, {self.time}", self.change, read, *said)
        return ". ".join(part for part in parts if part)


class TrialTile(QWidget):
    """One tile; Enter or a click opens it."""

    opened = Signal(object)

    def __init__(self, facts: TrialFacts, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.facts = facts
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(facts.plain)
        whole = (facts.change, facts.book_words, facts.fate, facts.struck)  # what may be cut short
        self.setToolTip(plain_tip("\n".join(part for part in whole if part)))

    def refit(self) -> None:
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        return QSize(px(LEAST), px(TALL))

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.opened.emit(self.facts.key)
        elif event.key() in (Qt.Key.Key_Right, Qt.Key.Key_Left):
            self.focusNextPrevChild(event.key() == Qt.Key.Key_Right)
        else:
            super().keyPressEvent(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton and self.rect().contains(event.position().toPoint()):
            self.opened.emit(self.facts.key)

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        f = self.facts
        self._outline(p)
        struck = bool(f.struck)
        role, soft = ("soft" if struck else "text"), "soft"
        left, right = px(13), self.width() - px(13)
        line = measure.line()
        y = float(px(7))
        time_wide = measure.width(f.time)
        cut = px(CUT) - px(4)
        words(
            p, QRectF(left, y, right - left - time_wide - cut, line), f.title, font=measure.strong(), of=role
        )
        words(
            p, QRectF(right - time_wide - cut, y, time_wide + 2, line), f.time, font=measure.body(), of=soft
        )
        y += line + px(2)
        taken = words(p, QRectF(left, y, right - left, line), f.change, font=measure.body(), of=role)
        if struck:
            hline(p, left - px(2), left + taken + px(2), y + line / 2, soft, 1.3)
        y += line + px(6)
        for reading in f.readings[:READINGS]:
            _reading(p, QRectF(left, y, right - left, line), reading, struck)
            y += line + px(2)
        tear = self.height() - px(FOOT)
        dotted(p, QPointF(1, tear), QPointF(self.width() - 1, tear), "edge", 1)
        self._foot(p, tear, left, right)

    def _outline(self, p: QPainter) -> None:
        f = self.facts
        w, h, cut = float(self.width()), float(self.height()), px(CUT)
        focused = self.hasFocus()
        stroke = snap_width(p, 2 if f.stays or focused else 1)
        s = stroke / 2
        shape = path_of((s, s), (w - cut, s), (w - s, cut), (w - s, h - s), (s, h - s))
        p.save()
        p.setRenderHint(QPainter.RenderHint.Antialiasing)
        tinted = f.stays or f.outcome == "cured"
        p.fillPath(shape, ink("tint" if tinted and not f.struck else "alternate"))
        pen = QPen(ink("accent" if (f.stays and not f.struck) or focused else "line"), stroke)
        pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
        if f.put_back and not focused:  # as what was taken out is drawn in a circuit
            pen.setColor(ink("edge"))
            pen.setDashPattern([4, 3])
        p.setPen(pen)
        p.drawPath(shape)
        p.restore()

    def _foot(self, p: QPainter, tear: float, left: float, right: float) -> None:
        f, line = self.facts, measure.line()
        side = px(20)
        if f.struck:
            _two_lines(p, QRectF(left, tear + px(6), right - left, 2 * line), f.struck)
            return
        role = _INKS.get(f.outcome, "caution")
        arrow = "soft" if f.outcome == "none" else role
        if f.outcome:
            outcome_arrow(p, QRectF(left, tear + px(6), side, side), f.outcome, arrow)
        at = left + (px(30) if f.outcome else 0)
        taken = at + measure.width(f.outcome_word, measure.strong()) + px(8)
        words(p, QRectF(at, tear + px(6), right - at, line), f.outcome_word, font=measure.strong(), of=role)
        if f.book:
            self._book(p, QRectF(taken, tear + px(6), right - taken, line))
        _two_lines(p, QRectF(at, tear + px(6) + line - px(1), right - at, 2 * line), f.fate)

    def _book(self, p: QPainter, room: QRectF) -> None:
        """What the book worked out, at the right end: its word and the sign of the outcome, smaller and soft."""
        side, word = px(13), say("book")
        wide = measure.width(word)
        if wide + side + px(5) > room.width():
            return
        words(
            p,
            QRectF(room.right() - side - px(5) - wide, room.top(), wide + 2, room.height()),
            word,
            font=measure.body(),
            of="soft",
            elide=False,
        )
        top = room.top() + (room.height() - side) / 2
        outcome_arrow(p, QRectF(room.right() - side, top, side, side), self.facts.book, "soft")


def _reading(p: QPainter, rect: QRectF, reading: TrialReading, struck: bool) -> None:
    """Name soft at the left; ``before to after unit`` at the right, the later value heavier."""
    unit = f" {reading.unit}" if reading.unit else ""
    wide_unit = measure.width(unit)
    strong = measure.strong() if not struck else measure.body()
    wide_after = measure.width(reading.after, strong)
    between = f"{reading.before}  {say('then')}  "
    wide_before = measure.width(between)
    x = rect.right() - wide_unit
    words(
        p,
        QRectF(x, rect.top(), wide_unit + 2, rect.height()),
        unit,
        font=measure.body(),
        of="soft",
        align=RIGHT,
        elide=False,
    )
    x -= wide_after
    words(
        p,
        QRectF(x, rect.top(), wide_after + 2, rect.height()),
        reading.after,
        font=strong,
        of="soft" if struck else "text",
        elide=False,
    )
    x -= wide_before
    words(
        p,
        QRectF(x, rect.top(), wide_before + 2, rect.height()),
        between,
        font=measure.body(),
        of="soft",
        elide=False,
    )
    words(
        p,
        QRectF(rect.left(), rect.top(), x - rect.left() - px(6), rect.height()),
        reading.name,
        font=measure.body(),
        of="soft",
        align=LEFT,
    )


def _two_lines(p: QPainter, rect: QRectF, text: str) -> None:
    """Soft words in at most two lines, the second one elided."""
    font = measure.body()
    metrics = QFontMetricsF(font)
    first = text
    if metrics.horizontalAdvance(text) > rect.width():
        taken = text.split(" ")
        while len(taken) > 1 and metrics.horizontalAdvance(" ".join(taken)) > rect.width():
            taken.pop()
        first = " ".join(taken)
    rest = text[len(first) :].strip()
    half = rect.height() / 2
    words(p, QRectF(rect.left(), rect.top(), rect.width(), half), first, font=font, of="soft")
    if rest:
        words(p, QRectF(rect.left(), rect.top() + half, rect.width(), half), rest, font=font, of="soft")


class TrialStrip(QWidget):
    """Tiles of equal width; more than fit scroll sideways with the newest in sight. ``set_narrow`` puts two
    in a row instead."""

    opened = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._tiles: list[TrialTile] = []
        self._narrow = False
        self._inside = QWidget()
        self._scroller = Scroller(self._inside)
        self._scroller.setParent(self)
        self._scroller.setWidgetResizable(False)
        self._scroller.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scroller.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
        bar = self._scroller.horizontalScrollBar()
        bar.rangeChanged.connect(lambda _, most: bar.setValue(most))  # the newest in sight
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(say("Trials"))

    def set_trials(self, trials: Sequence[TrialFacts]) -> None:
        """Show these, oldest first."""
        for tile in self._tiles:
            tile.hide()
            tile.deleteLater()
        self._tiles = []
        for facts in trials:
            tile = TrialTile(facts, self._inside)
            tile.opened.connect(self.opened)
            tile.show()
            self._tiles.append(tile)
        self.updateGeometry()
        self._place()

    def set_narrow(self, narrow: bool) -> None:
        """Two tiles in a row, all of them in sight."""
        self._narrow = narrow
        self.updateGeometry()
        self._place()

    def refit(self) -> None:
        self.updateGeometry()
        self._place()

    def _overflows(self, width: int) -> bool:
        count = len(self._tiles)
        return not self._narrow and count * px(LEAST) + (count - 1) * px(GAP) > width

    def sizeHint(self) -> QSize:
        rows = (len(self._tiles) + 1) // 2 if self._narrow else 1
        bar = px(14) if self._overflows(self.width()) else 0
        return QSize(px(600), rows * px(TALL) + (rows - 1) * px(GAP) + bar if self._tiles else 0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place()
        self.updateGeometry()

    def _place(self) -> None:
        self._scroller.setGeometry(self.rect())
        count, gap, width = len(self._tiles), px(GAP), self.width()
        if not count:
            return
        if self._narrow:
            each = (width - gap) // 2
            for i, tile in enumerate(self._tiles):
                tile.setGeometry((i % 2) * (each + gap), (i // 2) * (px(TALL) + gap), each, px(TALL))
            self._inside.resize(width, ((count + 1) // 2) * (px(TALL) + gap) - gap)
            return
        slots = max(count, 4)  # a single trial does not fill the whole width
        each = max((width - (slots - 1) * gap) // slots, px(LEAST))
        for i, tile in enumerate(self._tiles):
            tile.setGeometry(i * (each + gap), 0, each, px(TALL))
        self._inside.resize(count * (each + gap) - gap, px(TALL))
