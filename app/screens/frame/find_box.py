"""The find box: one field for everything; its results stand under it, grouped by kind."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, QPoint, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.desk import FindHit
from app.screens.kit import measure
from app.screens.kit.buttons import key_words
from app.screens.kit.fields import Entry
from app.screens.kit.icons import icon_pixmap
from app.screens.kit.matches import parts
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.strokes import RIGHT, box, words
from app.screens.language import say

ROW, HEAD = 28, 28
WIDEST, LEAST = 560, 320


class Results(QWidget):
    """The results, laid over the page under the find box while it has the focus."""

    taken = Signal(object)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setMouseTracking(True)
        self.hits: tuple[FindHit, ...] = ()
        self.typed = ""
        self.marked = -1
        self.hide()

    def show_hits(self, hits: Sequence[FindHit], typed: str) -> None:
        """Show results in the order given; hits of one kind stand together under its word."""
        kinds = list(dict.fromkeys(hit.kind for hit in hits))
        self.hits = tuple(sorted(hits, key=lambda hit: kinds.index(hit.kind)))
        self.typed = typed
        self.mark(0 if self.hits else -1)
        self.update()

    def mark(self, at: int) -> None:
        """Mark a result; it is what Enter opens."""
        self.marked = at
        if at >= 0:
            hit = self.hits[at]
            self.setAccessibleName(f"{hit.kind}: {hit.title} {hit.second}".strip())
        else:
            self.setAccessibleName(say("Results"))
        self.update()

    def _tops(self) -> list[tuple[float, int]]:
        """The top of each line with the index of its hit; heads carry -1."""
        tops: list[tuple[float, int]] = []
        y, kind = float(px(5)), None
        for i, hit in enumerate(self.hits):
            if hit.kind != kind:
                tops.append((y, -1))
                y, kind = y + px(HEAD), hit.kind
            tops.append((y, i))
            y += px(ROW)
        return tops

    def wanted_height(self) -> int:
        """Px that all lines take."""
        kinds = len({hit.kind for hit in self.hits})
        lines = kinds * px(HEAD) + len(self.hits) * px(ROW)
        return (lines if self.hits else px(ROW)) + px(10)

    def _at(self, event: QMouseEvent) -> int:
        y = event.position().y()
        return next((i for top, i in self._tops() if i >= 0 and top <= y < top + px(ROW)), -1)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        at = self._at(event)
        if at >= 0:
            self.mark(at)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        at = self._at(event)
        if at >= 0 and event.button() == Qt.MouseButton.LeftButton:
            self.taken.emit(self.hits[at])

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        box(p, self.rect(), fill="base", border="edge")
        left, right = px(33), self.width() - px(11)
        if not self.hits:
            words(
                p, QRectF(left, px(5), right - left, px(ROW)), say("Nothing in the book matches."), of="soft"
            )
            return
        for top, i in self._tops():
            if i < 0:
                head = next(hit.kind for t, j in self._tops() if j >= 0 and t > top for hit in [self.hits[j]])
                words(p, QRectF(left, top, right - left, px(HEAD)), head, font=measure.body(), of="soft")
                continue
            if i == self.marked:
                p.fillRect(QRectF(1, top, self.width() - 2, px(ROW)), ink("tint"))
                p.fillRect(QRectF(1, top, px(3), px(ROW)), ink("accent"))
            self._line(p, self.hits[i], left, right, top)

    def _line(self, p: QPainter, hit: FindHit, left: float, right: float, top: float) -> None:
        second = min(measure.width(hit.second), (right - left) * 0.55) if hit.second else 0
        tall = px(ROW)
        words(
            p,
            QRectF(right - second, top, second, tall),
            hit.second,
            font=measure.body(),
            of="soft",
            align=RIGHT,
        )
        x, edge = left, right - second - px(10)
        typed = max(self.typed.split(), key=len, default="")
        for part, strong in parts(hit.title, typed):
            font = measure.strong() if strong else measure.body()
            x += words(p, QRectF(x, top, edge - x, tall), part, font=font)


class FindBox(Entry):
    """Typing asks ``look_up(text, deliver)``; Down and Up mark, Enter opens, Esc leaves to the page."""

    opened = Signal(object)  # the target of the hit
    given_up = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(say("Find a job, customer, player or serial number"), parent)
        self.setPlaceholderText(self.accessibleName())
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        measure.fix(self, min_width=100, max_width=WIDEST)
        self.look_up: Callable[[str, Callable[[Sequence[FindHit]], None]], object] = lambda text, deliver: (
            None
        )
        self._results: Results | None = None
        self._asked = 0
        self.textEdited.connect(self._ask)

    def refit(self) -> None:
        self.setTextMargins(px(30), 0, px(60), 0)
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        return QSize(px(WIDEST), px(30))

    @property
    def results(self) -> Results:
        """The list under the box, laid over the window."""
        if self._results is None:
            self._results = Results(self.window())
            self._results.taken.connect(self._open)
        return self._results

    def _ask(self, text: str) -> None:
        self._asked += 1
        turn = self._asked
        if not text.strip():
            self.close_results()
            return

        def deliver(hits: Sequence[FindHit]) -> None:
            if turn == self._asked and self.hasFocus():
                self._show(hits, text)

        self.look_up(text.strip(), deliver)

    def _show(self, hits: Sequence[FindHit], text: str) -> None:
        results = self.results
        results.show_hits(hits, text)
        at = self.mapTo(self.window(), QPoint(0, self.height() - 1))
        room = self.window().height() - at.y() - px(9)
        results.setGeometry(at.x(), at.y(), self.width(), min(results.wanted_height(), room))
        results.raise_()
        results.show()

    def close_results(self) -> None:
        """Take the list away."""
        self._asked += 1
        if self._results is not None:
            self._results.hide()

    def _open(self, hit: FindHit) -> None:
        self.close_results()
        self.clear()
        self.opened.emit(hit.target)

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            if event.key() == Qt.Key.Key_Escape:
                event.accept()  # Esc belongs to the box while it has the focus
                return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        shown = self._results is not None and self._results.isVisible()
        key = event.key()
        if key == Qt.Key.Key_Escape:
            if not shown and not self.text():
                self.given_up.emit()
            self.close_results()
            self.clear()
            return
        if shown and self._results is not None and self._results.hits:
            at, last = self._results.marked, len(self._results.hits) - 1
            if key in (Qt.Key.Key_Down, Qt.Key.Key_Up):
                self._results.mark(max(0, min(at + (1 if key == Qt.Key.Key_Down else -1), last)))
                return
            if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and at >= 0:
                self._open(self._results.hits[at])
                return
        super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.selectAll()
        if self.text().strip():
            self._ask(self.text())

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.close_results()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        p = QPainter(self)
        side = px(18)
        pixmap = icon_pixmap("find", side, "soft", self.devicePixelRatioF())
        p.drawPixmap(px(7), (self.height() - side) // 2, pixmap)
        if not self.hasFocus():
            words(p, self.rect().adjusted(0, 0, -px(9), 0), key_words("Ctrl+F"), of="soft", align=RIGHT)
