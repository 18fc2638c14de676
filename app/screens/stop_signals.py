"""Ctrl+C in the terminal and the system's own "please end" close the window in order, with a copy when one is due."""

from __future__ import annotations

import signal
import socket
from collections.abc import Callable
from types import FrameType

from PySide6.QtCore import QObject, QSocketNotifier

ASKED = (signal.SIGINT, signal.SIGTERM)


class StopSignals(QObject):
    """``stop`` is called in the window's thread when the process is asked to end, until `remove`.

    Python hears a signal only when it runs, and while Qt waits it does not: so the signal writes into a socket,
    and Qt wakes up for that.
    """

    def __init__(self, stop: Callable[[], object], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._stop = stop
        self._read, self._write = socket.socketpair()
        for end in (self._read, self._write):
            end.setblocking(False)
        self._woken = QSocketNotifier(self._read.fileno(), QSocketNotifier.Type.Read, self)
        self._woken.activated.connect(self._wake)
        self._before = {number: signal.signal(number, self._asked) for number in ASKED}
        self._fd_before = signal.set_wakeup_fd(self._write.fileno(), warn_on_full_buffer=False)
        self._heard = False

    def remove(self) -> None:
        """Give the signals back."""
        signal.set_wakeup_fd(self._fd_before)
        for number, handler in self._before.items():
            signal.signal(number, handler)
        self._woken.setEnabled(False)
        self._read.close()
        self._write.close()

    def _asked(self, number: int, frame: FrameType | None) -> None:
        self._heard = True

    def _wake(self) -> None:
        try:
            self._read.recv(64)
        except BlockingIOError:  # somebody else was faster
            return
        if self._heard:
            self._heard = False
            self._stop()
