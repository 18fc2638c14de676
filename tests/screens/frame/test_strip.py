"""The strip: who works now, changed in two keys."""

from __future__ import annotations

from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.screens.desk import StaffNow
from app.screens.frame.strip import Strip
from app.screens.kit import measure

PEOPLE = (StaffNow(1, "Mirr Quistan"), StaffNow(2, "Tobbe & Ruskamp"))


@pytest.fixture
def strip(qtbot: QtBot) -> Strip:
    made = Strip(lambda: PEOPLE)
    qtbot.addWidget(made)
    made.resize(1366, made.height())
    made.show()
    return made


def test_who_works_now_is_shown_and_heard(strip: Strip) -> None:
    assert strip._name.text() == "nobody yet"
    strip.set_staff(PEOPLE[0])
    assert strip._name.text() == "Mirr Quistan"
    assert strip._name.accessibleName() == "Working now: Mirr Quistan"


def test_a_figure_chooses_a_person(qtbot: QtBot, strip: Strip) -> None:
    chosen: list[Any] = []
    strip.chosen.connect(chosen.append)
    strip.choose()
    menu = QApplication.activePopupWidget()
    assert menu is not None
    qtbot.keyClick(menu, Qt.Key.Key_2)
    assert chosen == [PEOPLE[1]]
    assert QApplication.activePopupWidget() is None


def test_more_people_than_figures_can_be_chosen_with_the_arrows(qtbot: QtBot) -> None:
    strip = Strip(lambda: tuple(StaffNow(i, f"Person {i}") for i in range(1, 12)))
    qtbot.addWidget(strip)
    menu = strip.menu()
    assert [action.text() for action in menu.actions()][8:10] == ["&9  Person 9", "Person 10"]


def test_nobody_to_choose_from(qtbot: QtBot) -> None:
    strip = Strip(tuple)
    qtbot.addWidget(strip)
    strip.choose()
    popup = QApplication.activePopupWidget()
    if popup is not None:
        popup.close()


@pytest.mark.parametrize("width", [1024, 1366])
@pytest.mark.parametrize("percent", measure.TEXT_SIZES)
def test_nothing_overlaps_at_any_text_size(
    qapp: QApplication, qtbot: QtBot, percent: int, width: int
) -> None:
    measure.set_text_size(qapp, percent)
    strip = Strip(lambda: PEOPLE)
    qtbot.addWidget(strip)
    strip.set_staff(PEOPLE[0])
    strip.resize(width, strip.height())
    strip.show()
    qapp.processEvents()
    shown = [w for w in (strip.find_box, strip._now, strip._name, strip.change) if w.isVisible()]
    for a, b in zip(shown, shown[1:], strict=False):  # noqa: RUF007
        assert a.geometry().right() < b.geometry().left()
    assert shown[-1].geometry().right() <= width
