"""Garbage is collected in the window's own thread only.

Python may collect cycles in whichever thread happens to allocate. A widget that is part of such a cycle would
then be destroyed outside the thread it lives in, which Qt answers with a crash, now and then and far away.
"""

from __future__ import annotations

import gc

from PySide6.QtCore import QObject, QTimer

LOOK_EVERY_MS = 1000


class Tidy(QObject):
    """Switches the automatic collection off and does the same work by a timer of the thread it is made in."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._thresholds = gc.get_threshold()
        gc.disable()
        self._timer = QTimer(self)
        self._timer.setInterval(LOOK_EVERY_MS)
        self._timer.timeout.connect(self.look)
        self._timer.start()

    def look(self) -> int | None:
        """Collect the oldest generation that is due, as the interpreter would; gives it, or None."""
        counts = gc.get_count()
        for generation in (2, 1, 0):
            if counts[generation] > self._thresholds[generation] > 0:
                gc.collect(generation)
                return generation
        return None

    def stop(self) -> None:
        """Hand the collection back to the interpreter."""
        self._timer.stop()
        gc.enable()
