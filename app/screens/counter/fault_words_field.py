"""Fault words picked from the fixed list, each with how often: one field, arrow keys within it."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QPoint, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.boxes import Flow
from app.screens.kit.measure import px
from app.screens.kit.shapes import tick
from app.screens.kit.strokes import box, words
from app.screens.language import say
from app.trade.bench.kinds import HowOften
from app.trade.counter.fault_words import FaultWord, ReportedFault

# Space goes through these in turn.
TURNS = (None, HowOften.ALWAYS, HowOften.SOMETIMES, HowOften.WHEN_WARM)
_BACK = (Qt.Key.Key_Left, Qt.Key.Key_Up)
_ON = (Qt.Key.Key_Right, Qt.Key.Key_Down)


class _Word(QAbstractButton):
    """One word with its box; soft behind it how often, where that is not always."""

    turned = Signal()
    stepped = Signal(object, int)

    def __init__(self, word: FaultWord, parent: QWidget) -> None:
        super().__init__(parent)
        self.word = word
        self.how: HowOften | None = None
        self.setText(say(word.value))
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.clicked.connect(self._turn)
        self._name()

    def set_how(self, how: HowOften | None) -> None:
        """How often it happens; None: it was not named."""
        self.how = how
        self._name()
        self.updateGeometry()
        self.update()

    def _name(self) -> None:
        how = say(self.how.value) if self.how is not None else say("not named")
        self.setAccessibleName(f"{self.text()}: {how}")

    def _turn(self) -> None:
        self.set_how(TURNS[(TURNS.index(self.how) + 1) % len(TURNS)])
        self.turned.emit()

    def _second(self) -> str:
        return say(self.how.value) if self.how is not None else ""

    def refit(self) -> None:
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        font = measure.strong()
        behind = measure.width(self._second()) + px(6) if self._second() else 0
        return QSize(px(22) + measure.width(self.text(), font) + behind + px(4), px(29))

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def hitButton(self, pos: QPoint) -> bool:
        return self.rect().contains(pos)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (*_BACK, *_ON):
            self.stepped.emit(self, 1 if event.key() in _ON else -1)
            return
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            event.ignore()  # the form moves on; Space picks and turns
            return
        super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        side = px(15)
        focused = self.hasFocus()
        rect = QRectF(px(1), (self.height() - side) // 2, side, side)
        box(p, rect, fill="base", border="accent" if focused else "edge", width=2 if focused else 1, radius=1)
        if self.how is not None:
            tick(p, rect.adjusted(1, 1, -1, -1))
        font = measure.strong() if self.how is not None else measure.body()
        room = self.rect().adjusted(px(21), 0, 0, 0)
        taken = words(p, room, self.text(), font=font, elide=False)
        if self._second():
            words(
                p,
                room.adjusted(round(taken) + px(6), 0, 0, 0),
                self._second(),
                font=measure.body(),
                of="soft",
                elide=False,
            )
        if focused:
            box(p, QRectF(px(18), 1, taken + px(6), self.height() - 2), border="accent", width=1)


class FaultWordsField(QWidget):
    """Tab comes to it once; arrow keys go from word to word, Space picks one and turns how often it happens."""

    changed = Signal()

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        flow = Flow(self, gap=14, line_gap=1)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self._words = [_Word(word, self) for word in FaultWord]
        for button in self._words:
            flow.add(button)
            button.turned.connect(self.changed)
            button.stepped.connect(self._step)
        self._take(self._words[0])

    def value(self) -> tuple[ReportedFault, ...]:
        """The words that were picked, in the order of the list."""
        return tuple(ReportedFault(b.word, b.how) for b in self._words if b.how is not None)

    def set_value(self, faults: Iterable[ReportedFault]) -> None:
        """Pick exactly these."""
        how = {fault.word: fault.how for fault in faults}
        for button in self._words:
            button.set_how(how.get(button.word))
        self.changed.emit()

    def set_name(self, name: str) -> None:
        """What a screen reader calls it."""
        self.setAccessibleName(name)

    def word(self, word: FaultWord) -> QAbstractButton:
        """The button of one word."""
        return next(button for button in self._words if button.word is word)

    def _step(self, at: _Word, step: int) -> None:
        place = self._words.index(at) + step
        if 0 <= place < len(self._words):
            self._take(self._words[place])
            self._words[place].setFocus(Qt.FocusReason.TabFocusReason)

    def _take(self, wanted: _Word) -> None:
        """Only one of the words is a stop of Tab: the one the arrows came to last."""
        for button in self._words:
            stop = button is wanted
            button.setFocusPolicy(Qt.FocusPolicy.StrongFocus if stop else Qt.FocusPolicy.ClickFocus)
        self.setFocusProxy(wanted)
