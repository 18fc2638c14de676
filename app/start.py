"""The one place where everything is wired together: command line, book, window, demo shop and tour."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Callable, Sequence
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from app.trade.refusal import BookRefused

if TYPE_CHECKING:
    from PySide6.QtWidgets import QApplication

    from app.trade.wording import Wording
    from app.work.shop_book import Book


def main(words: Sequence[str]) -> int:
    """Do what the command line says; gives the exit code."""
    from app.commands.main import main as obey

    return obey(words, StartDoors())


class StartDoors:
    """What commands cannot do by themselves, since they never touch Qt."""

    def open_window(self, book: Path, *, make: bool) -> int:
        """The window on a book; ``make`` makes an empty one when it is not there."""
        if not has_screen():
            _tell(_wording()("There is no screen here, so no window can be shown."))
            return 1
        return _run(book, make=make)

    def show_demo(self) -> int:
        """A fresh copy of the demo shop in a window, or the tour where there is no screen."""
        from app.book.door import system_clock
        from demo_db.fresh import fresh_demo, tour_folder

        if not has_screen():
            folder = tour_folder()
            _tell(
                _wording()(
                    "There is no screen here: the tour through the demo shop is saved in {folder}.",
                    folder=str(folder),
                )
            )
            return self.run_tour(folder)
        return _run(fresh_demo(system_clock(), _tell), make=False)

    def build_demo(self, folder: Path) -> int:
        """Write the demo shop into a folder."""
        from app.book.door import system_clock
        from demo_db.build import build

        path = build(folder, until=system_clock(), tell=_tell)
        _tell(str(path))
        return 0

    def run_tour(self, folder: Path) -> int:
        """Drive the window through one player's whole way and save its pictures and papers."""
        from app.book.door import system_clock
        from app.screens.tour.run import run_tour
        from demo_db.fresh import fresh_demo

        if not has_screen():
            os.environ["QT_QPA_PLATFORM"] = "offscreen"
        now = system_clock()
        return run_tour(fresh_demo(now, _tell), now, folder, _tell)


def _tell(line: str) -> None:
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def has_screen() -> bool:
    """Whether a window can be shown: Qt itself would only abort and blame a plugin."""
    if os.environ.get("QT_QPA_PLATFORM"):
        return True
    if sys.platform in ("win32", "darwin"):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def _wording() -> Wording:
    from datetime import UTC

    from app.commands.main import language_of
    from app.work.language import wording_for

    return wording_for(language_of(os.environ), UTC)


def _own_files() -> Path:
    from platformdirs import user_config_path

    folder = user_config_path("Spindlebook", appauthor=False)
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def _run(path: Path, *, make: bool) -> int:
    was_on = gc.isenabled()
    gc.disable()  # what a start makes stays; from then on `Tidy` collects
    try:
        return _run_uncollected(path, make=make)
    finally:
        if was_on:
            gc.enable()


def _run_uncollected(path: Path, *, make: bool) -> int:
    from app.book.door import system_clock
    from app.commands.command import complain
    from app.work.shop_book import open_shop

    opened: Book | BookRefused
    try:
        opened = open_shop(path, clock=system_clock, make=make)
    except BookRefused as refused:
        complain(_wording(), refused)  # at once, for whoever typed the command
        opened = refused
    # Qt comes behind the book: once it is there, it reads the text of every module that is imported.
    from app.screens.log_file import LogFile, log_folder

    log = LogFile(log_folder())
    try:
        return _show(opened, path, make=make, clock=system_clock)
    finally:
        log.close()


def _show(opened: Book | BookRefused, path: Path, *, make: bool, clock: Callable[[], datetime]) -> int:
    """The window on the open book, or the small one on why it was refused; 1 when no book came of that."""
    import logging

    from PySide6.QtWidgets import QApplication

    from app.commands.command import FAILED
    from app.screens.kit import measure, palette
    from app.screens.last_resort import LastResort
    from app.screens.program import Program
    from app.screens.stop_signals import StopSignals
    from app.screens.tidy import Tidy
    from app.screens.versions import versions
    from app.screens.wheel import WheelGuard
    from app.screens.window import appearance

    app = QApplication.instance() or QApplication([sys.argv[0]])
    assert isinstance(app, QApplication)
    app.setApplicationName("Spindlebook")
    app.setDesktopFileName("spindlebook")
    own = _own_files()
    scheme, percent = appearance(own / "window.ini")
    palette.apply(app, scheme)
    measure.set_text_size(app, percent)
    guard = WheelGuard(app)
    tidy = Tidy()
    last = LastResort()
    last.install()
    log = logging.getLogger(__name__)
    log.info("%s", versions())
    program = Program(app, own, clock=clock, watch=lambda shop: last.watch(shop.window, shop.doors))
    signals = StopSignals(app.quit)
    try:
        if isinstance(opened, BookRefused):
            log.warning("the book was refused: %s", opened.sentence.key)  # only the template: no path
            _speak_without_book(app)
            program.show_refused(opened, path, make=make)
        else:
            program.show(opened)
        code = app.exec()
        return code if program.had_book else FAILED
    finally:
        program.close()
        signals.remove()
        last.remove()
        app.removeEventFilter(guard)
        tidy.stop()


def _speak_without_book(app: QApplication) -> None:
    """The system's language and time zone, while no book says which are the shop's."""
    from datetime import UTC
    from zoneinfo import ZoneInfo

    from app.commands.main import language_of
    from app.screens import language, qt_words
    from app.screens.own_zone import own_zone
    from app.work.language import wording_for

    name = own_zone()
    wording = wording_for(language_of(os.environ), ZoneInfo(name) if name else UTC)
    language.use(wording)
    qt_words.speak(app, wording.locale)


def _import_uncollected() -> None:
    """Import what every command needs without going through it again and again: it stays until the end."""
    gc.disable()
    import app.commands.main  # noqa: F401  # its modules are what matters

    gc.freeze()
    gc.enable()


if __name__ == "__main__":
    _import_uncollected()
    sys.exit(main(sys.argv[1:]))
