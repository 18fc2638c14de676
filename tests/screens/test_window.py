"""The one window: places, keys, find, help, its shape, and closing."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from app.screens.desk import Desk, PlaceCount, StaffNow
from app.screens.kit import measure, palette
from app.screens.kit.fields import Field
from app.screens.page import Page
from app.screens.window import MainWindow, appearance
from tests.screens.conftest import PEOPLE


class Place(Page):
    """A page with one field."""

    def __init__(self, desk: Desk, key: Any) -> None:
        super().__init__(desk)
        self.key = key
        self.field = Field("A field")
        self.sheet.add(self.field)
        self.done: list[str] = []
        self.set_title(f"page {key}" if key is not None else "In the shop")
        self.may_leave = True

    def arrive(self) -> None:
        self.field.setFocus()

    def leave(self) -> bool:
        return self.may_leave

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {"print": lambda: self.done.append("print"), "save": lambda: self.done.append("save")}


@pytest.fixture
def settings(tmp_path: Path) -> Path:
    return tmp_path / "window.ini"


@pytest.fixture
def window(qtbot: QtBot, desk: Desk, settings: Path) -> Iterator[MainWindow]:
    made = MainWindow(desk, settings=settings, staff=lambda: PEOPLE)
    qtbot.addWidget(made)
    for place in ("counter", "bench", "office"):
        made.register(place, place, Place, root=True)
    made.register("sheet", "bench", Place)
    made.register("customer", "counter", Place)
    made.go_to("counter")
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    yield made
    made.closing.clear()


def press(qtbot: QtBot, key: Qt.Key, mods: Qt.KeyboardModifier = Qt.KeyboardModifier.ControlModifier) -> None:
    widget = QApplication.focusWidget()
    assert widget is not None
    qtbot.keyClick(widget, key, mods)


def test_places_are_reached_by_their_keys(qtbot: QtBot, window: MainWindow) -> None:
    seen = []
    for key in (Qt.Key.Key_2, Qt.Key.Key_3, Qt.Key.Key_1):
        press(qtbot, key)
        seen.append(window.trail.place)
    assert seen == ["bench", "office", "counter"]
    assert window.dividers.dividers["counter"].open_now


def test_alt_left_goes_back(qtbot: QtBot, window: MainWindow, desk: Desk) -> None:
    desk.open("sheet", 2131)
    assert window.trail.place == "bench"
    press(qtbot, Qt.Key.Key_Left, Qt.KeyboardModifier.AltModifier)
    assert window.trail.place == "counter"


def test_the_page_serves_its_keys(qtbot: QtBot, window: MainWindow) -> None:
    page = window.page
    assert isinstance(page, Place)
    press(qtbot, Qt.Key.Key_P)
    press(qtbot, Qt.Key.Key_Return)
    assert page.done == ["print", "save"]
    assert not window.menus.actions["take_in"].isEnabled()
    window.serve("take_in", lambda: page.done.append("take in"))
    press(qtbot, Qt.Key.Key_N)
    assert page.done[-1] == "take in"


def test_ctrl_f_finds_and_enter_opens(qtbot: QtBot, window: MainWindow) -> None:
    press(qtbot, Qt.Key.Key_F)
    box = window.strip.find_box
    assert box.hasFocus()
    qtbot.keyClicks(box, "213")
    qtbot.waitUntil(lambda: box.results.isVisible())
    qtbot.keyClick(box, Qt.Key.Key_Return)
    page = window.page
    assert isinstance(page, Place)
    assert page.key == 2131
    assert window.windowTitle().startswith("page 2131 – Lanternfield Workshop")
    assert page.field.edit.hasFocus()


def test_esc_in_the_find_box_goes_back_to_the_page(qtbot: QtBot, window: MainWindow) -> None:
    press(qtbot, Qt.Key.Key_F)
    qtbot.keyClick(window.strip.find_box, Qt.Key.Key_Escape)
    page = window.page
    assert isinstance(page, Place)
    assert page.field.edit.hasFocus()


def test_f1_shows_help_with_this_page_and_closes_it(qtbot: QtBot, window: MainWindow) -> None:
    press(qtbot, Qt.Key.Key_F1, Qt.KeyboardModifier.NoModifier)
    assert window.help.isVisible()
    assert "How the book is laid out" in window.help.words()
    window.open("sheet", 7)
    assert window.help.isVisible()
    press(qtbot, Qt.Key.Key_F1, Qt.KeyboardModifier.NoModifier)
    assert not window.help.isVisible()


def test_help_takes_the_place_of_a_page_that_it_would_squeeze(qtbot: QtBot, window: MainWindow) -> None:
    window.setMinimumSize(0, 0)  # the screen of the tests is small
    window.resize(1400, 768)
    window.turn_help()
    QApplication.processEvents()
    assert window.help.width() == 384
    assert not window.trail.isHidden()
    window.resize(1024, 700)
    QApplication.processEvents()
    assert window.trail.isHidden()
    assert window.help.width() > 800
    window.help.close_help()
    assert not window.trail.isHidden()
    assert isinstance(window.page, Place)
    assert window.page.field.edit.hasFocus()


def test_who_works_is_changed_in_two_keys(qtbot: QtBot, window: MainWindow, desk: Desk) -> None:
    press(qtbot, Qt.Key.Key_U)
    menu = QApplication.activePopupWidget()
    assert menu is not None
    qtbot.keyClick(menu, Qt.Key.Key_2)
    assert desk.staff == StaffNow(2, "Tobbe Ruskamp")


def test_counts_and_book_are_shown(window: MainWindow) -> None:
    window.set_counts(PlaceCount("14 in the shop", "8 to work on", "1 to invoice"))
    window.set_book("Lanternfield Workshop", "copied 07:02")
    assert window.dividers.dividers["office"].count == "1 to invoice"
    window.grab()


def test_its_shape_and_looks_are_remembered(
    qtbot: QtBot, window: MainWindow, desk: Desk, settings: Path
) -> None:
    window.resize(1024, 760)  # as large as the screen of the tests takes
    window.set_scheme("dark")
    window.set_text_size(150)
    window.close()
    assert appearance(settings) == ("dark", 150)
    again = MainWindow(desk, settings=settings)
    qtbot.addWidget(again)
    assert (again.width(), again.height()) == (1024, 760)
    assert again.menus.actions["scheme_dark"].isChecked()
    assert again.menus.actions["text_150"].isChecked()


@pytest.mark.parametrize(("scheme", "text"), [("purple", "12"), ("", ""), ("dark", "x")])
def test_broken_settings_do_no_harm(tmp_path: Path, scheme: str, text: str) -> None:
    kept = QSettings(str(tmp_path / "w.ini"), QSettings.Format.IniFormat)
    kept.setValue("appearance/scheme", scheme)
    kept.setValue("appearance/text", text)
    kept.sync()
    found = appearance(tmp_path / "w.ini")
    assert found[0] in set(palette.Scheme)
    assert found[1] in measure.TEXT_SIZES


def test_it_never_gets_smaller_than_its_pages_can_bear(window: MainWindow) -> None:
    window.resize(300, 200)
    assert window.width() >= 1024
    assert window.height() >= 700


def test_closing_asks_the_page_and_everyone_else(qtbot: QtBot, window: MainWindow) -> None:
    page = window.page
    assert isinstance(page, Place)
    page.may_leave = False
    assert not window.close()
    page.may_leave = True
    window.closing.append(lambda: False)
    assert not window.close()
    window.closing.clear()
    assert window.close()


def test_everything_that_can_be_typed_into_or_pressed_has_a_name(window: MainWindow) -> None:
    nameless = [
        widget
        for widget in window.findChildren(QWidget)
        if widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and widget.isVisible()
        and not widget.accessibleName()
    ]
    assert nameless == []


def test_tab_goes_from_the_find_box_to_the_page_in_reading_order(qtbot: QtBot, window: MainWindow) -> None:
    window.go_find()
    seen = []
    for _ in range(8):
        widget = QApplication.focusWidget()
        assert widget is not None
        seen.append(widget.accessibleName())
        qtbot.keyClick(widget, Qt.Key.Key_Tab)
    assert seen[:6] == [
        window.strip.find_box.accessibleName(),
        "Change",
        "Counter",
        "Bench",
        "Office",
        "A field",
    ]


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("percent", measure.TEXT_SIZES)
def test_it_paints_in_both_schemes_at_every_text_size(window: MainWindow, scheme: str, percent: int) -> None:
    window.set_scheme(scheme)
    window.set_text_size(percent)
    QApplication.processEvents()
    image = window.grab().toImage()
    dark = image.pixelColor(image.width() // 2, image.height() - 20).lightness() < 128
    assert dark == (scheme == "dark")
    assert window.findChild(QLineEdit) is not None
