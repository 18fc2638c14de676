"""The dividers at the left edge: Counter, Bench, Office; the open one runs into the sheet."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPainterPath, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.boxes import Column
from app.screens.kit.label import Label
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.strokes import path_of, snap_width, vline, words
from app.screens.language import say

PLACES = ("counter", "bench", "office")
WIDTH, TALL, GAP, CUT, OUT = 126, 58, 5, 9, 8


class Divider(QAbstractButton):
    """One divider: its word, and under it the count that matters."""

    stepped = Signal(int)

    def __init__(self, place: str, word: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.place = place
        self.open_now = False
        self.count = ""
        self.setText(word)
        self.setAccessibleName(word)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def set_count(self, count: str) -> None:
        """The words under its name."""
        self.count = count
        self.setAccessibleDescription(count)
        self.update()

    def set_open(self, open_now: bool) -> None:
        """Whether its place is the one in sight."""
        self.open_now = open_now
        self.update()

    def refit(self) -> None:
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        # Room for the longer of its two lines where the text is large or the words are long.
        return QSize(px(WIDTH - OUT), max(px(TALL), 2 * measure.line() + px(22)))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        elif event.key() in (Qt.Key.Key_Down, Qt.Key.Key_Up):
            self.stepped.emit(1 if event.key() == Qt.Key.Key_Down else -1)
        else:
            super().keyPressEvent(event)

    def _shape(self, inset: float, *, closed: bool) -> QPainterPath:
        left = (0 if self.open_now else px(OUT)) + inset
        top, bottom, cut = inset, self.height() - inset, px(CUT)
        right = self.width() + (1 if not closed else -inset)
        return path_of(
            (right, top), (left + cut, top), (left, top + cut), (left, bottom - cut), (left + cut, bottom),
            (right, bottom), closed=closed,
        )  # fmt: skip

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        p.setRenderHint(QPainter.RenderHint.Antialiasing)
        fill = "base" if self.open_now or self.underMouse() else "alternate"
        p.fillPath(self._shape(0.5, closed=False), ink(fill))
        p.setPen(QPen(ink("edge"), snap_width(p, 1)))
        p.setBrush(Qt.BrushStyle.NoBrush)
        p.drawPath(self._shape(0.5, closed=False))
        if self.hasFocus():
            p.setPen(QPen(ink("accent"), 2))
            p.drawPath(self._shape(2, closed=True))
        if self.open_now:
            p.fillRect(QRectF(0, px(CUT), px(3), self.height() - 2 * px(CUT)), ink("accent"))
        else:
            vline(p, self.width() - 1, 0, self.height(), "edge")
        left = (0 if self.open_now else px(OUT)) + px(14)
        line = measure.line()
        top = (self.height() - 2 * line) / 2 - px(0.5)
        font = measure.strong() if self.open_now else measure.body()
        room = self.width() - left - px(6)
        words(p, QRectF(left, top, room, line), self.text(), font=font)
        words(p, QRectF(left, top + line + px(1), room, line), self.count, font=measure.body(), of="soft")


class Dividers(QWidget):
    """The column of dividers, with the name of the book at its foot."""

    chosen = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(say("Places"))
        measure.fix(self, width=WIDTH)
        names = {"counter": say("Counter"), "bench": say("Bench"), "office": say("Office")}
        self.dividers = {place: Divider(place, names[place], self) for place in PLACES}
        column = Column(self, gap=GAP, margins=(OUT, 4, 0, 9))
        for i, place in enumerate(PLACES):
            divider = self.dividers[place]
            divider.clicked.connect(lambda _=False, place=place: self.chosen.emit(place))
            divider.stepped.connect(lambda step, i=i: self._step(i + step))
            column.add(divider)
        column.addStretch(1)
        self._book = Label("", "soft", wrap=True)
        self._book.setContentsMargins(px(4), 0, px(4), 0)
        column.add(self._book)

    def _step(self, to: int) -> None:
        self.dividers[PLACES[to % len(PLACES)]].setFocus(Qt.FocusReason.TabFocusReason)

    def set_open(self, place: str) -> None:
        """Show which place is in sight."""
        for name, divider in self.dividers.items():
            divider.set_open(name == place)

    def set_counts(self, **counts: str) -> None:
        """The counts under the names, already worded, by place."""
        for place, count in counts.items():
            self.dividers[place].set_count(count)

    def set_book(self, name: str, copied: str) -> None:
        """The name of the book and when it was last copied, at the foot."""
        self._book.setText(f"{name}\n{copied}")

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        vline(p, self.width() - 1, 0, self.height(), "edge")
