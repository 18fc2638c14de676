"""The menu bar enables what the page or the window serves."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QMainWindow
from pytestqt.qtbot import QtBot

from app.screens.actions import ACTS
from app.screens.frame.menus import Menus


@pytest.fixture
def window(qtbot: QtBot) -> QMainWindow:
    made = QMainWindow()
    qtbot.addWidget(made)
    made.menus = Menus(made)  # type: ignore[attr-defined]
    return made


def test_every_action_stands_in_its_menu_with_its_key(window: QMainWindow) -> None:
    menus = window.menus  # type: ignore[attr-defined]
    for act in ACTS:
        action = menus.actions[act.id]
        assert action in menus.menus[act.menu].actions()
        assert bool(action.shortcut().toString()) == bool(act.key)


def test_what_nobody_serves_is_disabled(window: QMainWindow) -> None:
    menus = window.menus  # type: ignore[attr-defined]
    done: list[str] = []
    menus.serve("find", lambda: done.append("find"))
    assert menus.actions["find"].isEnabled()
    assert not menus.actions["print"].isEnabled()
    menus.run("print")
    menus.run("find")
    assert done == ["find"]


def test_a_page_goes_before_the_window(window: QMainWindow) -> None:
    menus = window.menus  # type: ignore[attr-defined]
    done: list[str] = []
    menus.serve("print", lambda: done.append("window"))
    menus.of_page(lambda: {"print": lambda: done.append("page")})
    menus.actions["print"].trigger()
    menus.of_page(dict)
    menus.actions["print"].trigger()
    assert done == ["page", "window"]


def test_one_of_a_group_is_on(window: QMainWindow) -> None:
    menus = window.menus  # type: ignore[attr-defined]
    menus.check("scheme_dark")
    menus.check("scheme_light")
    assert menus.actions["scheme_light"].isChecked()
    assert not menus.actions["scheme_dark"].isChecked()
