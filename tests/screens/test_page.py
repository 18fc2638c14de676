"""Pages: margin and its folded lines, narrow and wide, focus in sight."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from app.screens.desk import Desk
from app.screens.kit.fields import Field
from app.screens.kit.flags import FlagBar, FlagFacts
from app.screens.kit.margin import MarginPage
from app.screens.kit.measure import px
from app.screens.page import NARROW_BELOW, Page


class Sheet(Page):
    """A long page with a margin."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self.turns: list[bool] = []
        self.flags = FlagBar(folds=True)
        self.flags.set_flags([FlagFacts("note", "Guarantee", "runs")])
        self.heading.add(self.flags)
        self.set_margin(MarginPage("What the book knows"), self.flags)
        self.fields = [Field(f"field {i}") for i in range(40)]
        self.sheet.add(*self.fields)

    def narrowed(self, narrow: bool) -> None:
        self.turns.append(narrow)


@pytest.fixture
def sheet(qtbot: QtBot, desk: Desk) -> Sheet:
    made = Sheet(desk)
    qtbot.addWidget(made)
    made.resize(1240, 600)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def test_below_1180_px_the_margin_gives_way_to_folded_flag_lines(sheet: Sheet) -> None:
    assert sheet.margin is not None
    assert sheet.margin.isVisible()
    assert not sheet.flags.isVisible()
    sheet.resize(px(NARROW_BELOW) - 1, 600)
    assert not sheet.margin.isVisible()
    assert sheet.flags.isVisible()
    sheet.resize(1240, 600)
    assert sheet.margin.isVisible()
    assert sheet.turns[-2:] == [True, False]


def test_what_has_the_focus_is_in_sight(qtbot: QtBot, sheet: Sheet) -> None:
    assert sheet.scroller is not None
    sheet.fields[-1].setFocus()
    last = sheet.fields[-1].edit
    qtbot.waitUntil(lambda: sheet.rect().contains(last.mapTo(sheet, last.rect().center())))
    assert sheet.scroller.verticalScrollBar().value() > 0


def test_a_bare_page_answers_everything(qtbot: QtBot, desk: Desk) -> None:
    page = Page(desk)
    qtbot.addWidget(page)
    page.reload()
    page.arrive()
    page.put_away()
    page.narrowed(True)
    assert page.leave()
    commands: Mapping[str, Callable[[], Any]] = page.commands()
    assert commands == {}


def test_a_margin_without_a_stand_in_stays(qtbot: QtBot, desk: Desk) -> None:
    page = Page(desk)
    qtbot.addWidget(page)
    page.set_margin(MarginPage("Why this number", width=384))
    page.resize(800, 500)
    page.show()
    assert page.margin is not None
    assert page.margin.isVisible()


def test_a_page_that_is_one_table_does_not_scroll(qtbot: QtBot, desk: Desk) -> None:
    class List(Page):
        scrolls = False

    page = List(desk)
    qtbot.addWidget(page)
    assert page.scroller is None
    page.show()
