"""What nobody handled: told in a bar on the page in sight and written to the log, and the program goes on."""

from __future__ import annotations

import logging
import sys
import threading
from collections import Counter
from types import TracebackType

from PySide6.QtCore import QObject, Qt, Signal, qInstallMessageHandler

from app.screens.language import say
from app.screens.log_file import as_text, hear_qt
from app.screens.page import Page
from app.screens.threads import Doors
from app.screens.versions import versions
from app.screens.window import MainWindow
from app.trade.refusal import Refusal

_log = logging.getLogger(__name__)


class LastResort(QObject):
    """``install`` it at the start, ``watch`` the window once there is one, ``remove`` it at the end.

    An error that comes again and again (in a paint, in a timer) is logged the first, the tenth, the hundredth
    time, and told while the bar does not tell of one already.
    """

    _happened = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._window: MainWindow | None = None
        self._seen: Counter[tuple[object, ...]] = Counter()
        self._cannot: Page | None = None  # where telling went wrong itself: that is logged only
        self._told = ""
        # Always later: an error in the middle of a paint must not lay the page out anew there and then.
        self._happened.connect(self._tell, Qt.ConnectionType.QueuedConnection)

    def install(self) -> None:
        """From now on errors in slots, virtual functions and threads, and Qt's messages, come here."""
        sys.excepthook = self._in_slot
        threading.excepthook = self._in_thread
        qInstallMessageHandler(hear_qt)

    def remove(self) -> None:
        """Give everything back to Python and Qt."""
        sys.excepthook = sys.__excepthook__
        threading.excepthook = threading.__excepthook__
        qInstallMessageHandler(None)

    def watch(self, window: MainWindow, doors: Doors) -> None:
        """Tell of errors in this window, also those that its doors bring back."""
        self._window = window
        doors.unhandled.connect(self.take)

    def take(self, error: BaseException) -> None:
        """An error that nobody handled: log it, and tell of it in the window. From any thread."""
        if isinstance(error, Refusal):
            # What it says is meant for the person; to the log only its template.
            _log.warning("nobody told the person: %s", error.sentence.key)
        else:
            place = error.__traceback__
            while place is not None and place.tb_next is not None:
                place = place.tb_next
            where = (place.tb_frame.f_code, place.tb_lineno) if place is not None else ()
            self._seen[type(error), where] += 1
            times = self._seen[type(error), where]
            if str(times).strip("0") == "1":
                _log.error("an error that nobody handled, for the %d. time", times, exc_info=error)
        self._happened.emit(error)

    def _in_slot(self, kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        self.take(error)

    def _in_thread(self, told: threading.ExceptHookArgs) -> None:
        if told.exc_value is not None:
            self.take(told.exc_value)

    def _tell(self, error: BaseException) -> None:
        page = self._window.page if self._window is not None else None
        if page is None or page is self._cannot or (self._told and page.trouble.words == self._told):
            return
        self._cannot = page
        if isinstance(error, Refusal):
            step = say(error.next_step) if error.next_step is not None else ""
            page.trouble.show_trouble(say(error.sentence), step)
        else:
            page.trouble.show_trouble(
                say("Something went wrong that is not your doing."),
                say(
                    "The program goes on, and what was saved stays saved. The details to copy name places in the "
                    "program and nothing that was typed; send them to those who look after it."
                ),
                details=f"{versions()}\n{page.help_topic}\n{as_text(error)}",
            )
        self._cannot, self._told = None, page.trouble.words
