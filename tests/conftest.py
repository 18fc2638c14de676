"""What every test stands on: a place of its own, a fixed clock, and guards that see what is left behind."""

from __future__ import annotations

import gc
import logging
import os
import shutil
import sqlite3
import sys
import tempfile
import threading
import time
import weakref
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from functools import partial
from pathlib import Path
from typing import Any

import pytest

LONG = os.environ.get("SPINDLEBOOK_LONG") == "1"
PLACE = Path(tempfile.mkdtemp(prefix="spindlebook-tests-"))

# Before Qt, platformdirs or anything else looks: no screen, no file of the person who runs the tests, an
# odd time zone (so that whoever reads the machine's is found out), UTF-8, and nothing that Qt warns about.
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
if os.name == "posix":
    os.environ["LC_ALL"] = "C.UTF-8"
    os.environ["TZ"] = "<+1245>-12:45"
    time.tzset()
for name in (
    "XDG_CONFIG_HOME",
    "XDG_DATA_HOME",
    "XDG_STATE_HOME",
    "XDG_RUNTIME_DIR",
    "APPDATA",
    "LOCALAPPDATA",
):
    folder = PLACE / name.lower()
    folder.mkdir(mode=0o700)
    os.environ[name] = str(folder)


def pytest_configure(config: pytest.Config) -> None:
    """The two sizes of hypothesis: everyday, and long; in CI both draw the same examples every time."""
    from hypothesis import HealthCheck, settings

    same = bool(os.environ.get("CI"))
    calm = [HealthCheck.too_slow]  # the machine is shared; the per-test time limit stands
    settings.register_profile("everyday", deadline=None, derandomize=same, suppress_health_check=calm)
    settings.register_profile(
        "long", deadline=None, derandomize=same, suppress_health_check=calm, max_examples=3000
    )
    settings.load_profile("long" if LONG else "everyday")


def pytest_unconfigure(config: pytest.Config) -> None:
    """Take the place down again."""
    shutil.rmtree(PLACE, ignore_errors=True)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Tests marked long wait for the long check."""
    if not LONG:
        for item in items:
            if item.get_closest_marker("long"):
                item.add_marker(pytest.mark.skip(reason="long: with SPINDLEBOOK_LONG=1 only"))


@pytest.fixture(scope="session")
def often() -> Callable[[int, int], int]:
    """How often to repeat: ``often(20, 100)`` is 20 in the everyday check and 100 in the long one."""
    return lambda everyday, long: long if LONG else everyday


class FixedClock:
    """A clock that stands still until told: called, it gives the instant; fits the book's Clock."""

    def __init__(self, instant: datetime) -> None:
        self.instant = instant

    def __call__(self) -> datetime:
        """The present instant, aware, UTC."""
        return self.instant

    def advance(self, **by: float) -> datetime:
        """Move on, e.g. ``advance(days=30)`` or ``advance(minutes=5)``, and give the new instant."""
        self.instant += timedelta(**by)
        return self.instant


@pytest.fixture
def clock() -> FixedClock:
    """A Thursday morning in spring, 09:30 UTC; a fresh clock for each test."""
    return FixedClock(datetime(2026, 3, 12, 9, 30, tzinfo=UTC))


@pytest.fixture
def now(clock: FixedClock) -> datetime:
    """The instant at which `clock` stands."""
    return clock()


@pytest.fixture(scope="session")
def kept_statements() -> Iterator[None]:
    """SQL that was put together for one book serves the next; each would else put all of it together anew."""
    from app.book import engine as engines

    make = engines.create_engine
    first = make("sqlite://", query_cache_size=4000)
    first.connect().close()  # now its dialect knows this SQLite
    first.dispose()

    def create_engine(*words: Any, **more: Any) -> Any:
        made = make(*words, **more)
        made.dialect, made._compiled_cache = first.dialect, first._compiled_cache
        return made

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(engines, "create_engine", create_engine)
        yield


_TESTS_WITH_QT = 0


@pytest.fixture(autouse=True)
def garbage_in_this_thread() -> Iterator[None]:
    """As in the program (app/screens/tidy.py): widgets in cycles are collected between tests, in this thread."""
    global _TESTS_WITH_QT
    yield
    if "PySide6.QtWidgets" not in sys.modules:
        return
    gc.disable()
    _TESTS_WITH_QT += 1
    if _TESTS_WITH_QT % 50:
        gc.collect(1)
    else:
        gc.collect()
        gc.freeze()  # modules and tables stay anyway, and are most of what is walked over


# --- guards: autouse, so they are set up first and look last -----------------------------------------------


@pytest.fixture(autouse=True)
def no_error_in_the_log(request: pytest.FixtureRequest, caplog: pytest.LogCaptureFixture) -> Iterator[None]:
    """A test that logs an error fails, unless it is marked ``logs_errors(reason)``."""
    yield
    if request.node.get_closest_marker("logs_errors"):
        return
    records = [*caplog.get_records("setup"), *caplog.get_records("call")]
    errors = [record.getMessage() for record in records if record.levelno >= logging.ERROR]
    if errors:
        pytest.fail("errors in the log: " + "; ".join(errors))


@pytest.fixture(autouse=True)
def no_thread_left() -> Iterator[None]:
    """A thread that a test started has ended when the test has."""
    before = set(threading.enumerate())
    yield
    left = [thread for thread in threading.enumerate() if thread not in before]
    patience = time.monotonic() + 1  # one that is just ending may end
    for thread in left:
        thread.join(max(0.0, patience - time.monotonic()))
    left = [thread for thread in left if thread.is_alive()]
    if left:
        pytest.fail("threads left running: " + ", ".join(thread.name for thread in left))


@pytest.fixture(autouse=True)
def no_widget_left() -> Iterator[None]:
    """No window stays and no timer ticks on. Costs nothing before the first QApplication."""
    before = {address(thing) for thing in qt_things()}
    yield
    if not (left := [thing for thing in qt_things() if address(thing) not in before]):
        return
    gc.collect()  # windows and their slots hold each other
    left = [thing for thing in qt_things() if address(thing) not in before]
    if left:
        said = ", ".join(f"{type(thing).__name__} {thing.objectName()!r}" for thing in left)
        for thing in left:
            thing.stop() if hasattr(thing, "isActive") and hasattr(thing, "stop") else thing.deleteLater()
        qt_things()
        pytest.fail("windows or ticking timers left behind: " + said)


# Qt's own, which it keeps for the next use.
QT_KEEPS = {"QTipLabel", "QShapedPixmapWidget", "QDesktopScreenWidget"}


def qt_things() -> list[Any]:
    """Top-level widgets and ticking timers, once what was to be deleted later is deleted."""
    widgets = sys.modules.get("PySide6.QtWidgets")
    if widgets is None or (application := widgets.QApplication.instance()) is None:
        return []
    import shiboken6
    from PySide6.QtCore import QCoreApplication, QEvent, QTimer

    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    windows = [
        window for window in application.topLevelWidgets() if window.metaObject().className() not in QT_KEEPS
    ]
    timers = [
        thing
        for thing in shiboken6.getAllValidWrappers()  # type: ignore[attr-defined]
        if isinstance(thing, QTimer) and thing.isActive()
    ]
    return [*windows, *timers]


def address(thing: Any) -> int:
    """Where Qt keeps it: the wrapper may change, the thing does not."""
    import shiboken6

    return int(shiboken6.getCppPointer(thing)[0])  # type: ignore[attr-defined]


@pytest.fixture(autouse=True, scope="module")
def no_connection_left() -> Iterator[None]:
    """Every SQLite connection opened in a file of tests is closed at its end: fixtures dispose their engines."""
    before = {id(connection) for connection in open_connections()}
    yield
    if [connection for connection in open_connections() if id(connection) not in before]:
        gc.collect()
        left = [connection for connection in open_connections() if id(connection) not in before]
        if left:
            pytest.fail(f"{len(left)} SQLite connection(s) left open")


class Seen(sqlite3.Connection):
    """A connection that can be found again without walking over everything there is."""

    opened: weakref.WeakSet[Seen] = weakref.WeakSet()

    def __init__(self, *words: Any, **more: Any) -> None:
        super().__init__(*words, **more)
        Seen.opened.add(self)


sqlite3.connect = sqlite3.dbapi2.connect = partial(sqlite3.connect, factory=Seen)  # type: ignore[assignment]


def open_connections() -> list[Any]:
    """The SQLite connections that are open and that something still holds."""
    found = []
    for connection in list(Seen.opened):
        try:
            _ = connection.total_changes
        except sqlite3.ProgrammingError:
            continue  # closed
        found.append(connection)
    return found
