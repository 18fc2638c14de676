"""Where everything is wired together: with a screen, without one, refused, and closed again."""

from __future__ import annotations

import gc
import logging
import sys
from collections.abc import Callable, Iterator
from datetime import datetime
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtWidgets import QApplication

from app import start
from app.screens.kit import measure, palette
from app.screens.log_file import log_folder
from app.screens.window import MainWindow
from app.work.people.staff import add_staff
from app.work.shop_book import open_shop
from app.work.upkeep.copies import copies_of
from app.work.upkeep.places import default_book

SCREENS = ("QT_QPA_PLATFORM", "DISPLAY", "WAYLAND_DISPLAY")


@pytest.fixture(autouse=True)
def own_place(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Folders of each test's own where the system keeps a program's things."""
    for name in ("XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_STATE_HOME"):
        monkeypatch.setenv(name, str(tmp_path / name))


@pytest.fixture
def blind(monkeypatch: pytest.MonkeyPatch) -> None:
    """A computer without a screen."""
    for name in SCREENS:
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(sys, "platform", "linux")


@pytest.fixture
def demo(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> list[Any]:
    """The demo shop and the tour, told apart from what they do: the calls are kept."""
    calls: list[Any] = []
    fresh, build = ModuleType("demo_db.fresh"), ModuleType("demo_db.build")
    fresh.tour_folder = lambda: tmp_path / "tour"  # type: ignore[attr-defined]
    fresh.fresh_demo = lambda now, tell: calls.append("fresh") or tmp_path / "demo.sqlite"  # type: ignore[attr-defined, func-returns-value]

    def built(folder: Path, *, until: datetime, tell: Callable[[str], None]) -> Path:
        calls.append(("build", folder, until.tzinfo is not None))
        return folder / "book.sqlite"

    def toured(book: Path, now: datetime, folder: Path, tell: Callable[[str], None]) -> int:
        calls.append(("tour", folder))
        return 0

    build.build = built  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "demo_db.fresh", fresh)
    monkeypatch.setitem(sys.modules, "demo_db.build", build)
    monkeypatch.setattr("app.screens.tour.run.run_tour", toured)
    return calls


@pytest.fixture
def lived(qapp: QApplication, monkeypatch: pytest.MonkeyPatch) -> Iterator[list[str]]:
    """A window is closed as soon as it is there; what stood in its title is kept."""
    titles: list[str] = []

    def live() -> int:
        QApplication.processEvents()
        for window in QApplication.topLevelWidgets():
            if isinstance(window, MainWindow) and window.isVisible():
                titles.append(window.windowTitle())
                window.close()
        return 0

    monkeypatch.setattr(QApplication, "exec", staticmethod(live))
    yield titles
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    palette.apply(qapp, "light")
    measure.set_text_size(qapp, 100)


# --- is there a screen? ------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", SCREENS)
def test_a_screen_is_there_when_the_system_says_so(
    blind: None, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    assert not start.has_screen()
    monkeypatch.setenv(name, "something")
    assert start.has_screen()


@pytest.mark.parametrize("system", ["win32", "darwin"])
def test_windows_and_macos_always_have_one(blind: None, monkeypatch: pytest.MonkeyPatch, system: str) -> None:
    monkeypatch.setattr(sys, "platform", system)
    assert start.has_screen()


def test_without_a_screen_the_window_is_refused_in_one_sentence(
    blind: None, capsys: pytest.CaptureFixture[str]
) -> None:
    assert start.main([]) == 1
    assert capsys.readouterr().out == "There is no screen here, so no window can be shown.\n"
    assert not default_book().exists()  # nothing was begun


def test_without_a_screen_the_demo_takes_the_tour_and_says_where(
    blind: None,
    demo: list[Any],
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv("LANG", "en_GB.UTF-8")
    assert start.main(["demo"]) == 0
    assert demo[-1] == ("tour", tmp_path / "tour")
    assert str(tmp_path / "tour") in capsys.readouterr().out


def test_the_tour_needs_no_screen(blind: None, demo: list[Any], tmp_path: Path) -> None:
    assert start.main(["tour", "--to", str(tmp_path)]) == 0
    assert demo == ["fresh", ("tour", tmp_path)]


def test_the_demo_is_only_built_when_that_is_asked(
    demo: list[Any], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert start.main(["demo", "--build", str(tmp_path)]) == 0
    assert demo == [("build", tmp_path, True)]
    assert capsys.readouterr().out == f"{tmp_path / 'book.sqlite'}\n"


# --- with a screen -----------------------------------------------------------------------------------------


def test_the_shops_own_book_is_made_and_opened_on_its_first_page(lived: list[str]) -> None:
    assert start.main([]) == 0
    assert len(lived) == 1
    assert default_book().is_file()
    assert start.main([]) == 0  # and it is there the next time


def test_nothing_is_collected_until_what_the_window_was_made_of_is_gone(
    lived: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    collected: list[bool] = []
    show = start._show

    def shown(*what: Any, **more: Any) -> int:
        code = show(*what, **more)
        collected.append(gc.isenabled())
        return code

    monkeypatch.setattr(start, "_show", shown)
    was = gc.isenabled()
    gc.enable()
    try:
        assert start.main([]) == 0
        assert collected == [False]
        assert gc.isenabled()
    finally:
        (gc.enable if was else gc.disable)()


def test_the_demo_is_shown_on_a_fresh_copy(lived: list[str], demo: list[Any], tmp_path: Path) -> None:
    book = open_shop(tmp_path / "demo.sqlite", make=True)
    add_staff(book, None, "Ine Varloes")
    book.close()
    assert start.main(["demo"]) == 0
    assert demo == ["fresh"]
    assert lived == ["In the shop – Spindlebook"]


def test_a_book_that_was_worked_in_is_copied_on_closing(lived: list[str], tmp_path: Path) -> None:
    path = tmp_path / "book.sqlite"
    book = open_shop(path, make=True)
    add_staff(book, None, "Ine Varloes")
    book.close()
    assert start.main(["--book", str(path)]) == 0
    assert len(copies_of(path)) == 1
    open_shop(path).close()  # nothing holds it any more


def test_everything_is_as_before_when_the_window_is_closed(
    qapp: QApplication, lived: list[str], tmp_path: Path
) -> None:
    hooks, handlers = sys.excepthook, list(logging.getLogger().handlers)
    book = open_shop(tmp_path / "book.sqlite", make=True)
    add_staff(book, None, "Ine Varloes")
    book.close()
    assert start.main(["--book", str(tmp_path / "book.sqlite")]) == 0
    assert sys.excepthook in (hooks, sys.__excepthook__)
    sys.excepthook = hooks
    assert logging.getLogger().handlers == handlers
    log = (log_folder() / "spindlebook.log").read_text(encoding="utf-8")
    assert "Spindlebook 0.1.0, Python 3." in log
    assert str(tmp_path) not in log


# --- refused -----------------------------------------------------------------------------------------------


def test_a_refused_book_is_said_on_the_command_line_with_the_next_step(
    lived: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    strange = tmp_path / "letters.sqlite"
    strange.write_text("Dear customer")
    assert start.main(["--book", str(strange)]) == 1
    said = capsys.readouterr().err.splitlines()
    assert said[0] == f"{strange} is not a Spindlebook book."
    assert said[1] == "Choose another book, or restore a copy."
    assert [line.partition(": ")[2] for line in said[2:]] == [
        "spindlebook --book PATH",
        "spindlebook restore --list; one of them: spindlebook restore FILE",
    ]
    assert lived == []
    assert strange.read_text() == "Dear customer"


def test_a_book_that_is_named_is_not_made_by_itself(lived: list[str], tmp_path: Path) -> None:
    missing = tmp_path / "book.sqlite"
    assert start.main(["--book", str(missing)]) == 1
    assert not missing.exists()
    assert start.main(["--new", "--book", str(missing)]) == 0
    assert missing.exists()


def test_wrong_words_are_a_wrong_use(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as stopped:
        start.main(["sing"])
    assert stopped.value.code == 2
    assert "sing" in capsys.readouterr().err
