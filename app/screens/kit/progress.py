"""What takes over a second: how far it is, in words and as a bar, which part is at hand, and a way to stop it."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QRectF, QSize, QTimer
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Column, Row, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.strokes import box
from app.screens.language import say
from app.trade.sentence import Sentence

AFTER_MS = 1000


class _Bar(QWidget):
    """The part that is done; a middle piece while nobody knows how much there is."""

    def __init__(self) -> None:
        super().__init__()
        self.done, self.of = 0, 0
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def refit(self) -> None:
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        return QSize(px(160), px(12))

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        box(p, self.rect(), fill="base", border="edge", radius=0)
        wide = self.width() - 4
        if self.of:
            p.fillRect(QRectF(2, 2, wide * min(self.done / self.of, 1), self.height() - 4), ink("accent"))
        else:
            p.fillRect(QRectF(2 + wide / 3, 2, wide / 3, self.height() - 4), ink("accent", 0.41))


class ProgressLine(QWidget):
    """Shown only once the work has taken a second. ``begin(words, cancel)``, ``step(done, of, part)``, ``end()``.

    The part that is being looked at stands below the bar, so that the bar keeps its place.
    """

    def __init__(self, parent: QWidget | None = None, *, after_ms: int = AFTER_MS) -> None:
        super().__init__(parent)
        self._cancel: Callable[[], object] | None = None
        self._what = Label("")
        self._count = Label("", "soft")
        self._bar = _Bar()
        self._stop = Button(say("Stop this"), self._stopped, kind="quiet")
        self._part = Label("", "soft", wrap=True)
        row = Row(gap=9)
        row.add(self._what)
        row.add(self._bar, stretch=1)
        row.add(self._count, self._stop)
        column = Column(self, gap=2, margins=(0, 4, 0, 4))
        column.addLayout(row)
        column.add(self._part)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(after_ms)
        self._timer.timeout.connect(self.show)
        self.hide()

    def begin(self, words: str, cancel: Callable[[], object] | None = None) -> None:
        """Work has begun; without ``cancel`` it cannot be stopped."""
        self._cancel = cancel
        self._what.setText(words)
        self.setAccessibleName(words)
        self._stop.setVisible(cancel is not None)
        self.step(0, 0)
        self._timer.start()

    def step(self, done: int, of: int, part: Sentence | None = None) -> None:
        """``done`` ``of`` so many, 0 of 0 while that is not known; ``part`` is what comes next."""
        self._bar.done, self._bar.of = done, of
        self._bar.update()
        words = say("{done} of {of}", done=done, of=of) if of else ""
        self._count.setText(words)
        named = say(part) if part is not None else ""
        self._part.setText(named)
        set_shown(self._part, part is not None)
        self.setAccessibleDescription(" ".join(filter(None, (words, named))))

    def end(self) -> None:
        """The work is over, however it ended."""
        self._timer.stop()
        self._cancel = None
        self.hide()

    def _stopped(self) -> None:
        cancel = self._cancel
        self.end()
        if cancel is not None:
            cancel()
