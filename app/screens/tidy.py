"""Garbage is collected in the window's own thread only.

Python may collect cycles in whichever thread happens to allocate. A widget that is part of such a cycle would
then be destroyed outside the thread it lives in, which Qt answers with a crash, now and then and far away.
"""

from __future__ import annotations

import gc

from PySide6.QtCore import QAbstractEventDispatcher, QObject, QTimer

LOOK_EVERY_MS = 250
QUIET_WAKES = 3  # of the event loop between two looks: the look itself and a blinking caret
QUIET_LOOKS = 8  # in a row, until the window counts as idle
OVERDUE = 10  # times the threshold, after which the oldest are collected though the window is busy


class Tidy(QObject):
    """Switches the automatic collection off and does the same work by a timer of the thread it is made in.

    What is young is collected as soon as it is due, which takes no time to speak of. A round through everything
    takes long enough to be felt, so it waits until nothing has happened for two seconds. Until then no round looks
    at what stood before (the modules, which all count as young at a start that collects nothing); that first one
    does, and puts what stays by then (the window as well) where no later one looks.
    """

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._thresholds = gc.get_threshold()
        self._frozen = False
        self._wakes = 0
        self._quiet = 0
        self._was_on = gc.isenabled()
        gc.disable()
        gc.freeze()
        self._loop: QAbstractEventDispatcher | None = QAbstractEventDispatcher.instance()
        if self._loop is not None:
            self._loop.awake.connect(self._woke)
        self._timer = QTimer(self)
        self._timer.setInterval(LOOK_EVERY_MS)
        self._timer.timeout.connect(self._look_in_turn)
        self._timer.start()

    def look(self, *, idle: bool = False) -> int | None:
        """Collect the oldest generation that is due, as the interpreter would; gives it, or None."""
        counts = gc.get_count()
        if idle and not self._frozen:
            gc.unfreeze()
            gc.collect()
            gc.freeze()
            self._frozen = True
            return 2
        if counts[2] > self._thresholds[2] * (1 if idle else OVERDUE) > 0:
            gc.collect()
            return 2
        for generation in (1, 0):
            if counts[generation] > self._thresholds[generation] > 0:
                gc.collect(generation)
                return generation
        return None

    def stop(self) -> None:
        """Hand the collection back as it was found.

        Where it was off, it stays so until what the start made is gone: a round that begins while Qt takes one of
        its objects apart may wait for a lock that Qt holds just then, and never end.
        """
        self._timer.stop()
        if self._loop is not None:
            self._loop.awake.disconnect(self._woke)
            self._loop = None
        gc.unfreeze()
        if self._was_on:
            gc.enable()

    def _woke(self) -> None:
        self._wakes += 1

    def _look_in_turn(self) -> None:
        self._quiet = self._quiet + 1 if self._wakes <= QUIET_WAKES else 0
        self._wakes = 0
        self.look(idle=self._quiet >= QUIET_LOOKS)
