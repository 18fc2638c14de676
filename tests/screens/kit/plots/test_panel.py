"""What all panels do: keys, pointer, focus, and words for the ear."""

from __future__ import annotations

from typing import Any

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QAccessible, QHelpEvent
from PySide6.QtWidgets import QToolTip
from pytestqt.qtbot import QtBot

from app.screens.kit.plots.panel import PanelView
from app.screens.kit.scrolling import Scroller
from app.trade.sentence import Sentence
from app.trade.statistics.picture import Bars
from tests.screens.kit.plots.conftest import BARS, SHARE, Shown, bar

K = Qt.Key


@pytest.fixture
def bars(shown: Shown) -> PanelView:
    return shown(BARS)


def heard(view: PanelView) -> list[Any]:
    found: list[Any] = []
    view.marked.connect(found.append)
    view.opened.connect(found.append)
    return found


def test_keys_mark_and_enter_opens_the_jobs_behind(qtbot: QtBot, bars: PanelView) -> None:
    bars.mark(-1)
    found = heard(bars)
    for key in (K.Key_Down, K.Key_Down, K.Key_Up, K.Key_Return):
        qtbot.keyClick(bars, key)
    assert [mark.name for mark in found] == ["Ponnik S5", "Velk A1", "Ponnik S5", "Ponnik S5"]
    assert found[-1].jobs == (7, 8)
    assert found[-1].key == "Ponnik S5"


def test_what_has_no_jobs_does_not_open(qtbot: QtBot, bars: PanelView) -> None:
    bars.mark(4)
    opened: list[Any] = []
    bars.opened.connect(opened.append)
    qtbot.keyClick(bars, K.Key_Return)
    qtbot.mouseDClick(bars, Qt.MouseButton.LeftButton, pos=bars.spots()[4].rect.center().toPoint())
    assert opened == []


def test_the_marked_one_is_heard(bars: PanelView) -> None:
    assert bars.accessibleName() == "Came back within 180 days"
    bars.mark(1)
    assert bars.accessibleDescription() == "Velk A1 is told."
    bars.mark(-1)
    assert bars.accessibleDescription() == ""


def test_a_screen_reader_is_told_at_once_where_the_keys_lead(
    qtbot: QtBot, bars: PanelView, monkeypatch: pytest.MonkeyPatch
) -> None:
    said: list[str] = []
    monkeypatch.setattr(QAccessible, "isActive", lambda: True)
    monkeypatch.setattr(QAccessible, "updateAccessibility", lambda event: said.append(event.message()))
    bars.setFocus()
    qtbot.waitUntil(bars.hasFocus)
    said.clear()
    qtbot.keyClick(bars, K.Key_Down)
    assert said == ["Velk A1 is told."]


def test_a_click_marks_and_a_double_click_opens(qtbot: QtBot, bars: PanelView) -> None:
    found = heard(bars)
    at = bars.spots()[2].rect.center().toPoint()
    qtbot.mouseClick(bars, Qt.MouseButton.LeftButton, pos=at)
    assert bars.at == 2
    qtbot.mouseDClick(bars, Qt.MouseButton.LeftButton, pos=at)
    assert found[-1].name == "Murn A7"
    qtbot.mouseClick(bars, Qt.MouseButton.LeftButton, pos=QPoint(30, 2))  # the title
    assert bars.at == 2


def test_the_pointer_is_told_what_it_is_on_at_once(
    qtbot: QtBot, bars: PanelView, monkeypatch: pytest.MonkeyPatch
) -> None:
    told: list[str] = []
    monkeypatch.setattr(QToolTip, "showText", lambda at, text, widget: told.append(text))
    spot = bars.spots()[3]
    qtbot.mouseMove(bars, spot.rect.center().toPoint())
    assert told == ["Grellin S3 is told."]
    assert bars.cursor().shape() is Qt.CursorShape.PointingHandCursor
    bars.leaveEvent(QEvent(QEvent.Type.Leave))
    assert bars.over is None
    assert bars.cursor().shape() is Qt.CursorShape.ArrowCursor
    where = spot.rect.center().toPoint()
    bars.event(QHelpEvent(QEvent.Type.ToolTip, where, where))
    assert told[-1] == "Grellin S3 is told."


def test_words_of_people_are_no_markup_in_a_tooltip(
    qtbot: QtBot, shown: Shown, monkeypatch: pytest.MonkeyPatch
) -> None:
    view = shown(Bars(title=Sentence("t"), axis=SHARE, bars=(bar("<img src=x>", 0.2),)))
    told: list[str] = []
    monkeypatch.setattr(QToolTip, "showText", lambda at, text, widget: told.append(text))
    qtbot.mouseMove(view, view.spots()[0].rect.center().toPoint())
    assert told == ["<qt>&lt;img src=x&gt; is told.</qt>"]


def test_focus_by_the_keyboard_marks_the_first(bars: PanelView, qtbot: QtBot) -> None:
    bars.mark(-1)
    bars.clearFocus()
    bars.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.waitUntil(bars.hasFocus)
    assert bars.at == 0


def test_focus_on_a_panel_without_marks_can_be_seen(qtbot: QtBot, shown: Shown) -> None:
    view = shown(Bars(title=Sentence("t"), axis=SHARE, bars=()))
    bare = view.grab().toImage()
    view.setFocus()
    qtbot.waitUntil(view.hasFocus)
    assert view.grab().toImage() != bare
    qtbot.keyClick(view, K.Key_Down)
    assert view.at == -1


def test_a_mark_out_of_sight_is_brought_into_sight(qtbot: QtBot) -> None:
    from app.screens.kit.plots.kinds import view_of

    many = Bars(title=Sentence("t"), axis=SHARE, bars=tuple(bar(f"type {i}", 0.1) for i in range(40)))
    view = view_of(many, 0)
    scroller = Scroller(view)
    qtbot.addWidget(scroller)
    scroller.resize(838, 300)
    scroller.show()
    view.setFocus()
    qtbot.waitUntil(view.hasFocus)
    qtbot.keyClick(view, K.Key_End)
    seen = view.mapTo(scroller.viewport(), view.spots()[-1].at.toPoint())
    assert 0 <= seen.y() <= scroller.viewport().height()


def test_a_long_title_is_whole_in_a_narrow_page(shown: Shown) -> None:
    title = Sentence(
        "Came back within 180 days, by transport type, of players handed back since January 2023"
    )
    wide, narrow = (shown(Bars(title=title, axis=SHARE, bars=(bar("a", 0.2),)), w) for w in (1000, 340))
    assert narrow.top() > wide.top()


def test_nothing_stands_where_nothing_is(bars: PanelView) -> None:
    assert bars.spot_near(QPointF(20, 2)) is None
    assert bars.tip_at(QPointF(20, 2)) == ""
