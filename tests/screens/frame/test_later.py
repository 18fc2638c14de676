"""Pages come when they are needed: a window that shows one has imported one, and soon the others by itself."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import get_type_hints

import pytest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.screens import rooms
from app.screens.bench import pages as bench
from app.screens.counter import pages as counter
from app.screens.desk import Desk
from app.screens.frame.later import LaterPage, import_when_idle
from app.screens.office import pages as office
from app.screens.page import Page

EVERY = {**counter.PAGES, **bench.PAGES, **office.PAGES, **rooms.OF_NO_ROOM}


@pytest.mark.parametrize("kind", EVERY)
def test_each_kind_names_a_page_that_is_there(kind: str) -> None:
    page = EVERY[kind].load()
    if not isinstance(page, type):  # which class it is goes by the key
        page = get_type_hints(page)["return"]
    assert issubclass(page, Page)


def test_a_window_begins_with_no_page_imported() -> None:
    asked = "import sys, app.screens.shop_window; print(*(name for name in sys.modules if name.endswith('_page')))"
    done = subprocess.run([sys.executable, "-c", asked], check=True, capture_output=True, timeout=120)
    assert done.stdout.split() == []


@pytest.fixture
def page(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> LaterPage:
    """A page in a module that nobody has imported yet."""
    (tmp_path / "page_of_later.py").write_text("class OnePage: ...\n", encoding="utf-8")
    monkeypatch.syspath_prepend(tmp_path)
    monkeypatch.delitem(sys.modules, "page_of_later", raising=False)
    return LaterPage("page_of_later.OnePage")


def test_once_the_first_page_is_loaded_the_others_are_imported_away_from_the_window(
    qtbot: QtBot, desk: Desk, page: LaterPage
) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    window.show()
    import_when_idle(window, desk.doors, [page])
    assert "page_of_later" not in sys.modules
    desk.doors.look_up(window, lambda: None, lambda _: None)
    qtbot.waitUntil(lambda: "page_of_later" in sys.modules)
    qtbot.waitUntil(lambda: not desk.doors.waiting)


def test_nothing_is_imported_for_a_window_that_is_not_shown(
    qtbot: QtBot, desk: Desk, page: LaterPage
) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    import_when_idle(window, desk.doors, [page])
    desk.doors.look_up(window, lambda: None, lambda _: None)
    qtbot.waitUntil(lambda: not desk.doors.waiting)
    assert "page_of_later" not in sys.modules
