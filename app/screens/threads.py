"""Two background doors: one thread for changes, a few for look-ups; results come back by one queued signal."""

from __future__ import annotations

import logging
import threading
import weakref
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from typing import Any, TypeVar

from PySide6.QtCore import QObject, Qt, Signal
from shiboken6 import isValid

from app.trade.sentence import Sentence

T = TypeVar("T")
_log = logging.getLogger(__name__)

LOOK_UPS = 3


class Cancelled(Exception):
    """Raised inside a cancelled piece of work at its next step."""


class Ticket:
    """One piece of work on its way. Cancelled, its result is dropped and its next step raises `Cancelled`."""

    def __init__(self, told: Callable[[Ticket, int, int, Sentence | None], None]) -> None:
        self._gone = threading.Event()
        self._told = told
        self._future: Future[Any] | None = None

    @property
    def cancelled(self) -> bool:
        """Whether the result is no longer wanted."""
        return self._gone.is_set()

    def cancel(self) -> None:
        """Drop the result; work not begun is not begun, work in steps ends at its next step."""
        self._gone.set()
        if self._future is not None:
            self._future.cancel()

    def step(self, done: int, of: int, part: Sentence | None = None) -> None:
        """Called by the work: tell how far it is and which ``part`` comes next; raises `Cancelled` when nobody
        waits any more."""
        if self.cancelled:
            raise Cancelled
        self._told(self, done, of, part)


@dataclass(frozen=True)
class _Arrival:
    """What a thread hands to the window: a result, an error, or how far it is."""

    ticket: Ticket
    receiver: weakref.ReferenceType[QObject]
    call: Callable[..., object] | None
    values: tuple[Any, ...]


class Doors(QObject):
    """Runs work away from the window and hands results to living receivers, in the window's own thread.

    ``change`` runs one piece after the other, in order; ``look_up`` runs a few at once. ``failed`` gets the
    exception; without it the exception goes to the signal `unhandled`.
    """

    unhandled = Signal(object)
    busy = Signal(bool)
    _arrived = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._changes = ThreadPoolExecutor(1, thread_name_prefix="change")
        self._look_ups = ThreadPoolExecutor(LOOK_UPS, thread_name_prefix="look-up")
        self._open: set[Ticket] = set()
        self._closed = False
        self._arrived.connect(self._deliver, Qt.ConnectionType.QueuedConnection)

    def change(
        self,
        receiver: QObject,
        work: Callable[[], T],
        done: Callable[[T], object] | None = None,
        failed: Callable[[Exception], object] | None = None,
    ) -> Ticket:
        """Change the book: ``work()`` in the one thread for changes, then ``done(result)`` here."""
        return self._start(self._changes, receiver, lambda ticket: work(), done, failed, None)

    def look_up(
        self,
        receiver: QObject,
        work: Callable[[], T],
        done: Callable[[T], object],
        failed: Callable[[Exception], object] | None = None,
    ) -> Ticket:
        """Ask the book: ``work()`` in one of the threads for look-ups, then ``done(result)`` here."""
        return self._start(self._look_ups, receiver, lambda ticket: work(), done, failed, None)

    def long_look_up(
        self,
        receiver: QObject,
        work: Callable[[Ticket], T],
        done: Callable[[T], object],
        failed: Callable[[Exception], object] | None = None,
        progress: Callable[..., object] | None = None,
    ) -> Ticket:
        """As `look_up`, for what may take over a second: ``work`` calls ``ticket.step(done, of)``, and what it
        was called with comes to ``progress``."""
        return self._start(self._look_ups, receiver, work, done, failed, progress)

    def long_change(
        self,
        receiver: QObject,
        work: Callable[[Ticket], T],
        done: Callable[[T], object] | None = None,
        failed: Callable[[Exception], object] | None = None,
        progress: Callable[..., object] | None = None,
    ) -> Ticket:
        """As `change`, for what may take over a second: ``work`` calls ``ticket.step`` as in `long_look_up`."""
        return self._start(self._changes, receiver, work, done, failed, progress)

    @property
    def closed(self) -> bool:
        """Whether nothing can be asked any more, as the window goes."""
        return self._closed

    @property
    def waiting(self) -> int:
        """How many pieces of work have not come back yet."""
        return len(self._open)

    def close(self) -> None:
        """Finish the changes that were asked for, drop the look-ups, and end all threads."""
        self._closed = True
        self._look_ups.shutdown(wait=False, cancel_futures=True)
        self._changes.shutdown(wait=True)
        for ticket in list(self._open):
            ticket.cancel()
        self._look_ups.shutdown(wait=True)
        self._open.clear()

    def _start(
        self,
        pool: ThreadPoolExecutor,
        receiver: QObject,
        work: Callable[[Ticket], T],
        done: Callable[[T], object] | None,
        failed: Callable[[Exception], object] | None,
        progress: Callable[..., object] | None,
    ) -> Ticket:
        if self._closed:
            raise RuntimeError("the doors are closed")
        to = weakref.ref(receiver)

        def told(ticket: Ticket, at: int, of: int, part: Sentence | None) -> None:
            self._send(_Arrival(ticket, to, progress, (at, of) if part is None else (at, of, part)))

        ticket = Ticket(told)

        def run() -> None:
            if ticket.cancelled:
                return
            try:
                result = work(ticket)
            except Cancelled:
                return
            except Exception as error:  # noqa: BLE001  # handed on whole: the receiver words or shows it
                self._send(_Arrival(ticket, to, failed or self.unhandled.emit, (error,)))
            else:
                self._send(_Arrival(ticket, to, done, (result,)))

        if not self._open:
            self.busy.emit(True)
        self._open.add(ticket)
        ticket._future = pool.submit(run)
        ticket._future.add_done_callback(lambda _: self._send(_Arrival(ticket, to, None, ())))
        return ticket

    def _send(self, arrival: _Arrival) -> None:
        if isValid(self):
            self._arrived.emit(arrival)

    def _deliver(self, arrival: _Arrival) -> None:
        if not arrival.values:  # the end of this piece of work, however it ended
            if arrival.ticket in self._open:
                self._open.discard(arrival.ticket)
                if not self._open:
                    self.busy.emit(False)
            return
        receiver = arrival.receiver()
        if arrival.call is None or arrival.ticket.cancelled or self._closed:
            return
        if receiver is None or not isValid(receiver):
            _log.debug("a result came for a page that is gone")
            return
        arrival.call(*arrival.values)
