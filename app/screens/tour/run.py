"""Runs the tour in an event loop of its own: one step after the other, each waiting for what it expects."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path

from PySide6.QtCore import QEventLoop, QObject, QTimer
from PySide6.QtWidgets import QApplication

from app.screens.kit import measure, palette
from app.screens.language import say
from app.screens.shop_window import ShopWindow
from app.screens.tour.hands import Hands, Steps, Until
from app.screens.tour.story import story
from app.screens.wheel import WheelGuard
from app.work.shop_book import open_shop

LOOK_EVERY_MS = 15
PATIENCE_MS = 20_000  # for one step; the machine may be slow, a step that fails is told at once


class StoryClock:
    """The clock of the tour: it stands until the story moves it on."""

    def __init__(self, instant: datetime) -> None:
        self.instant = instant

    def __call__(self) -> datetime:
        """The present instant, aware, UTC."""
        return self.instant

    def on(self, **by: float) -> None:
        """Let time go by."""
        self.instant += timedelta(**by)


class Runner(QObject):
    """Takes the steps one by one. ``failed`` says why it stopped early; empty when all was done."""

    def __init__(self, steps: Steps, over: Callable[[], None], patience: int = PATIENCE_MS) -> None:
        super().__init__()
        self._steps = steps
        self._over = over
        self._until: Until = lambda: True
        self._waited = 0
        self._patience = patience
        self.failed = ""
        self._timer = QTimer(self)
        self._timer.setInterval(LOOK_EVERY_MS)
        self._timer.timeout.connect(self._look)

    def start(self) -> None:
        """Begin."""
        self._timer.start()

    def _look(self) -> None:
        try:
            if not self._until():
                self._waited += LOOK_EVERY_MS
                if self._waited > self._patience:
                    self._end(
                        say("a step waited for something that did not come: {what}", what=_named(self._until))
                    )
                return
            self._waited = 0
            self._until = next(self._steps)
        except StopIteration:
            self._end("")
        except Exception as error:  # noqa: BLE001  # whatever stops a step is told, and the tour has failed
            self._end(f"{type(error).__name__}: {error}")

    def _end(self, failed: str) -> None:
        self._timer.stop()
        self.failed = failed
        self._over()


def _named(until: Until) -> str:
    return str(getattr(until, "__doc__", None) or getattr(until, "__qualname__", until))


def run_tour(book_path: Path, now: datetime, folder: Path, tell: Callable[[str], None]) -> int:
    """Drive the window on a copy of the demo shop; gives 0 when every step was done, else 1."""
    folder.mkdir(parents=True, exist_ok=True)
    app = QApplication.instance() or QApplication(["spindlebook"])
    assert isinstance(app, QApplication)
    palette.apply(app, "light")
    measure.set_text_size(app, 100)
    guard = WheelGuard(app)
    clock = StoryClock(now)
    shop = ShopWindow(app, open_shop(book_path, clock=clock), folder / "own", speaks="en")
    shop.window.resize(1366, 768)
    shop.show()
    hands = Hands(shop.window, folder)
    # A loop of its own, and no quitting with the last window: whoever called goes on with the program.
    quits = app.quitOnLastWindowClosed()
    app.setQuitOnLastWindowClosed(False)
    loop = QEventLoop()
    runner = Runner(story(hands, shop, clock), loop.quit)
    runner.start()
    with hands.naming_files():
        loop.exec()
    shop.window.close()
    shop.close()
    app.setQuitOnLastWindowClosed(quits)
    app.removeEventFilter(guard)
    guard.deleteLater()
    for path in hands.made:
        tell(str(path))
    if runner.failed:
        tell(say("The tour stopped early: {why}", why=runner.failed))
        return 1
    tell(say("The tour made {n} pictures and papers.", n=len(hands.made)))
    return 0
