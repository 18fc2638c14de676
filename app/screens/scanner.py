"""A scanner is a keyboard: its burst goes to the book, not to the field and never to a button."""

from __future__ import annotations

import time
from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QWidget
from shiboken6 import isValid

from app.screens.burst import THRESHOLD_MS, Burst, Step

_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
_MODIFIERS = (Qt.Key.Key_Shift, Qt.Key.Key_Control, Qt.Key.Key_Alt, Qt.Key.Key_Meta, Qt.Key.Key_AltGr,
              Qt.Key.Key_CapsLock, Qt.Key.Key_NumLock)  # fmt: skip


class Scanner(QObject):
    """An event filter where keys go first. J, digits and Enter typed with at most ``threshold`` ms from key
    to key are withheld and `scanned` tells the number; anything else is let go unchanged and in order.

    It filters the widget with the focus; only while keys are withheld does it see every event of the program, as
    that costs a page of a thousand widgets a fifth of the time it takes to open.

    ``clock`` gives ms for events that carry no time of their own.
    """

    scanned = Signal(int)

    def __init__(
        self,
        app: QApplication,
        *,
        threshold: int = THRESHOLD_MS,
        clock: Callable[[], int] | None = None,
    ) -> None:
        super().__init__(app)
        self._app = app
        self._filtered: QObject | None = None
        self._stopped = False
        self._clock = clock
        self._burst = Burst(threshold)
        self._held: list[tuple[QWidget, QKeyEvent]] = []
        self._owed: set[int] = set()  # keys of a scan whose release is still to come and is dropped
        self._letting_go = False
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        # A little longer than the threshold: the next key may be waiting in the queue already.
        self._timer.setInterval(threshold + 10)
        self._timer.timeout.connect(self.let_go)
        app.focusChanged.connect(self._moved)
        app.focusWindowChanged.connect(self._moved)
        self._follow_focus()

    def stop(self) -> None:
        """Let go what is held, and filter nothing any more."""
        self.let_go()
        if self._stopped:
            return
        self._stopped = True
        self._app.focusChanged.disconnect(self._moved)
        self._app.focusWindowChanged.disconnect(self._moved)
        self._filter(None)

    def _moved(self, *_: object) -> None:
        self._follow_focus()

    def _follow_focus(self) -> None:
        """Filter the program while something is held, else where the next key goes first."""
        if not self._stopped:
            self._filter(
                self._app if self._held else QApplication.focusWidget() or QApplication.activeWindow()
            )

    def _filter(self, target: QObject | None) -> None:
        if target is self._filtered:
            return
        if self._filtered is not None and isValid(self._filtered):
            self._filtered.removeEventFilter(self)
        self._filtered = target
        if target is not None:
            target.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        kind = event.type()
        if self._letting_go:
            return False
        if kind == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            return self._receives(watched) and self._press(watched, event)  # type: ignore[arg-type]
        if kind == QEvent.Type.KeyRelease and isinstance(event, QKeyEvent):
            return self._receives(watched) and self._release(watched, event)  # type: ignore[arg-type]
        if self._held and kind in (QEvent.Type.MouseButtonPress, QEvent.Type.WindowDeactivate):
            self.let_go()
        return False

    @staticmethod
    def _receives(watched: QObject) -> bool:
        """Whether ``watched`` is where a key goes first; its parents see the key again when it is ignored."""
        if not isinstance(watched, QWidget):
            return False
        focus = QApplication.focusWidget()
        return watched is focus or (focus is None and watched.isWindow())

    def _press(self, watched: QWidget, event: QKeyEvent) -> bool:
        if event.key() in _MODIFIERS:
            return False  # a scanner presses Shift for its capital letter
        fed = self._burst.feed(_character(event), self._instant(event))
        if fed.step is Step.SCAN:
            self._timer.stop()
            self._owed |= {held.key() for _, held in self._held if held.type() == QEvent.Type.KeyPress}
            self._owed.add(event.key())
            self._held.clear()
            self._follow_focus()
            self.scanned.emit(fed.number)
            return True
        if fed.release:
            self._let_go_held()
        if fed.step is Step.HOLD:
            self._held.append((watched, event.clone()))
            self._follow_focus()
            self._timer.start()
            return True
        return False

    def _release(self, watched: QWidget, event: QKeyEvent) -> bool:
        if self._held and event.key() not in _MODIFIERS:
            self._held.append((watched, event.clone()))
            return True
        if event.key() in self._owed and not event.isAutoRepeat():
            self._owed.discard(event.key())
            return True
        return False

    def let_go(self) -> None:
        """What is held is no scan: hand it on."""
        self._burst.lapse()
        self._let_go_held()

    def _let_go_held(self) -> None:
        self._timer.stop()
        held, self._held = self._held, []
        self._letting_go = True
        try:
            for widget, event in held:
                if isValid(widget):  # where it was typed, even when the focus has moved on since
                    QCoreApplication.sendEvent(widget, event)
        finally:
            self._letting_go = False
            self._follow_focus()

    def _instant(self, event: QKeyEvent) -> int:
        if self._clock is not None:
            return self._clock()
        # The time at which the key was pressed, not at which a busy window came to see it.
        return event.timestamp() or time.monotonic_ns() // 1_000_000


def _character(event: QKeyEvent) -> str:
    if event.isAutoRepeat():
        return ""
    if event.modifiers() & (
        Qt.KeyboardModifier.ControlModifier
        | Qt.KeyboardModifier.AltModifier
        | Qt.KeyboardModifier.MetaModifier
    ):
        return ""
    return "\n" if event.key() in _ENTER else event.text()
