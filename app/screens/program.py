"""The window on one book after another: another book is opened, or what needs the book closed is done between."""

from __future__ import annotations

import logging
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject, QTimer
from PySide6.QtWidgets import QApplication

from app.screens.desk import Came, Errand
from app.screens.language import moment, say
from app.screens.refused_window import RefusedWindow
from app.screens.shop_window import ShopWindow
from app.screens.threads import Doors
from app.trade.refusal import BookRefused
from app.trade.sentence import Sentence
from app.work.shop_book import Book, open_shop
from app.work.upkeep.copies import Copy
from app.work.upkeep.restore import restore_copy

_log = logging.getLogger(__name__)


@dataclass(frozen=True)
class Outcome:
    """How an errand ended, and the book that is open again, or why it is not."""

    errand: Errand
    came: Came
    book: Book | None
    refused: BookRefused | None


class Program(QObject):
    """Give it the folder for its own files, the clock of the books it opens, and who watches each window."""

    def __init__(
        self,
        app: QApplication,
        own_files: Path,
        *,
        clock: Callable[[], datetime],
        watch: Callable[[ShopWindow], object] = lambda shop: None,
    ) -> None:
        super().__init__()
        self._app = app
        self._own_files = own_files
        self._clock = clock
        self._watch = watch
        self.shop: ShopWindow | None = None
        self.between: RefusedWindow | None = None
        self.had_book = False  # whether a window on a book was shown at all
        self._doors: Doors | None = None
        self._may_make: Path | None = None

    def show_refused(self, refused: BookRefused, path: Path, *, make: bool = False) -> None:
        """Say why the book at ``path`` was refused at the start; trying again makes it with ``make``."""
        self._may_make = path if make else None
        self._small_window().refuse(refused, _opening(path))

    def show(self, book: Book) -> ShopWindow:
        """Show the window on an open book."""
        self.had_book = True
        shop = ShopWindow(self._app, book, self._own_files)
        shop.desk.serve_errands(lambda errand: QTimer.singleShot(0, self, lambda: self.run(errand)))
        self._watch(shop)
        shop.show()
        self.shop = shop
        return shop

    def close(self) -> None:
        """Let go of whatever is open."""
        if self._doors is not None:
            self._doors.close()
            self._doors = None
        if self.between is not None:
            self.between.close()
            self.between.deleteLater()
            self.between = None
        if self.shop is not None:
            self.shop.close()
            self.shop = None

    def run(self, errand: Errand) -> None:
        """Close the window and its book, do the errand, open a window again. A page that will not be left stays."""
        if self.shop is None:
            return
        self._app.setQuitOnLastWindowClosed(False)
        if not self.shop.window.close():
            self._app.setQuitOnLastWindowClosed(True)
            return
        self.shop.close()
        self.shop = None
        self._begin(errand)

    def _begin(self, errand: Errand) -> None:
        self._small_window().wait(errand.saying)
        assert self._doors is not None
        work = partial(_do, errand, self._clock, make=errand.path == self._may_make)
        self._doors.change(self, work, self._done)

    def _small_window(self) -> RefusedWindow:
        if self._doors is None:
            self._doors = Doors(self)
        if self.between is None:
            self.between = RefusedWindow(
                self._try_again, self._open_instead, self._app.quit, self._restore, self._doors
            )
        return self.between

    def _done(self, outcome: Outcome) -> None:
        between = self.between
        assert between is not None
        if outcome.book is None:
            assert outcome.refused is not None
            between.refuse(outcome.refused, outcome.errand, outcome.came.error)
            return
        shop = self.show(outcome.book)
        if outcome.errand.then:
            shop.window.open(outcome.errand.then, outcome.came)
        self._app.setQuitOnLastWindowClosed(True)
        between.close()
        between.deleteLater()
        self.between = None
        if self._doors is not None:
            self._doors.close()
            self._doors.deleteLater()
            self._doors = None

    def _try_again(self, errand: Errand) -> None:
        self._begin(Errand(lambda: None, errand.path, errand.saying))

    def _open_instead(self, path: Path, errand: Errand) -> None:
        self._begin(_opening(path))

    def _restore(self, copy: Copy, errand: Errand) -> None:
        work = partial(restore_copy, errand.path, copy.path, clock=self._clock)
        saying = say("Putting the copy of {when} in the book's place.", when=moment(copy.made_at))
        self._begin(Errand(work, errand.path, saying, "upkeep"))


def _opening(path: Path) -> Errand:
    return Errand(lambda: None, path, say("{path} is being opened.", path=str(path)))


def _do(errand: Errand, clock: Callable[[], datetime], *, make: bool = False) -> Outcome:
    """Away from the window: the work, then the book again whatever became of the work."""
    try:
        came = Came(errand.work())
    except Exception as error:  # noqa: BLE001  # handed on whole: the page that is opened then tells it
        _log.warning("an errand between two books failed", exc_info=error)
        came = Came(error=error)
    try:
        return Outcome(errand, came, open_shop(errand.path, clock=clock, make=make), None)
    except BookRefused as refused:
        return Outcome(errand, came, None, refused)
    except Exception as error:  # noqa: BLE001  # told: a window that only waits could not even be closed
        _log.error("a book could not be opened", exc_info=error)
        return Outcome(errand, Came(error=error), None, _cannot_be_opened(errand.path))


def _cannot_be_opened(path: Path) -> BookRefused:
    return BookRefused(
        Sentence("{path} could not be opened.", {"path": str(path)}),
        Sentence("Try again, choose another book, or put a copy in its place."),
    )
