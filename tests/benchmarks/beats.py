"""How an event loop is run and listened to, and what the process that runs it holds."""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QElapsedTimer, QEventLoop, Qt, QTimer
from PySide6.QtWidgets import QApplication

BEAT = 5  # ms between two beats
LONGEST_S = 900


class Beats:
    """The heart of the event loop. ``longest``: the longest silence in ms, beyond the beat that was asked for."""

    def __init__(self) -> None:
        self._since = QElapsedTimer()
        self._timer = QTimer()
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.setInterval(BEAT)
        self._timer.timeout.connect(self._beat)
        self.longest = 0.0

    def __enter__(self) -> Beats:
        self._since.start()
        self._timer.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._beat()
        self._timer.stop()

    def _beat(self) -> None:
        self.longest = max(self.longest, self._since.nsecsElapsed() / 1e6 - BEAT)
        self._since.restart()


def run_until(done: Callable[[], bool]) -> None:
    """Let the event loop run, asleep while nothing happens, until ``done`` and all of it is painted."""
    waker = QTimer()
    waker.setInterval(1)
    waker.start()
    end = time.monotonic() + LONGEST_S
    while not done():
        QApplication.processEvents(QEventLoop.ProcessEventsFlag.WaitForMoreEvents)
        if time.monotonic() > end:
            raise TimeoutError("the window does not come to rest")
    waker.stop()
    QApplication.processEvents()


def run_for(milliseconds: float) -> None:
    """Let it run so long."""
    end = time.monotonic() + milliseconds / 1000
    run_until(lambda: time.monotonic() >= end)


def memory() -> float:
    """MB that this process holds; 0 where the system does not say."""
    try:
        lines = Path("/proc/self/status").read_text(encoding="ascii").splitlines()
    except OSError:
        return 0.0
    return next(int(line.split()[1]) / 1024 for line in lines if line.startswith("VmRSS:"))
