"""All keys on one page, searched while typing."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.screens.actions import ACTS
from app.screens.desk import Desk
from app.screens.keys_page import KeysPage, all_keys, matching


@pytest.fixture
def page(qtbot: QtBot, desk: Desk) -> KeysPage:
    made = KeysPage(desk)
    qtbot.addWidget(made)
    made.resize(1100, 600)
    made.show()
    return made


def actions(wanted: str) -> list[str]:
    return [line.action for line in matching(all_keys(), wanted)]


def test_every_action_of_the_menus_is_there_in_plain_words() -> None:
    lines = all_keys()
    assert len(lines) > len(ACTS)
    taking = next(line for line in lines if line.action == "Take in a player")
    assert (taking.under, taking.keys) == ("Job", "Ctrl+N")
    assert not any("&" in line.action or line.action.endswith("…") for line in lines)
    assert next(line for line in lines if line.action == "Save").keys == "Ctrl+Enter"


@pytest.mark.parametrize(
    ("wanted", "found"),
    [
        ("take in", "Take in a player"),
        ("PLAYER take", "Take in a player"),
        ("ctrl+n", "Take in a player"),
        ("f1", "Help with this page"),
        ("sort", "Sort by another column"),
    ],
)
def test_words_and_keys_are_found(wanted: str, found: str) -> None:
    assert found in actions(wanted)


def test_a_plus_means_the_key_itself() -> None:
    assert actions("ctrl+m") == ["Modification"]
    assert all("Shift" in line.keys for line in matching(all_keys(), "ctrl+shift"))


def test_nothing_typed_shows_everything() -> None:
    assert len(matching(all_keys(), " ")) == len(all_keys())


def test_typing_narrows_the_table(qtbot: QtBot, page: KeysPage) -> None:
    whole = page.model.rowCount()
    page.arrive()
    qtbot.keyClicks(page.wanted.edit, "reading")
    assert 1 < page.model.rowCount() < whole
    page.wanted.set_text("zzz")
    assert page.model.rowCount() == 0
    assert page.head._below.text() == "No action is called so, and no key is."
    page.grab()


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Down])
def test_the_list_is_reached_from_the_field(qtbot: QtBot, page: KeysPage, key: Qt.Key) -> None:
    page.activateWindow()
    qtbot.waitUntil(page.isActiveWindow)
    page.arrive()
    qtbot.keyClick(page.wanted.edit, key)
    assert page.table.hasFocus()


def test_esc_leads_back(page: KeysPage, desk: Desk) -> None:
    went: list[str] = []
    desk.serve(lambda kind, key: None, lambda: went.append("back"))
    page.commands()["leave"]()
    assert went == ["back"]
