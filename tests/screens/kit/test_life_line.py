"""The life of a transport along time."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QColor, QHelpEvent
from PySide6.QtWidgets import QToolTip
from pytestqt.qtbot import QtBot

from app.screens.kit.life import (
    LifeBand,
    LifeChange,
    LifeFacts,
    LifeJob,
    LifeLimit,
    LifeReading,
)
from app.screens.kit.life_bands import lanes_of
from app.screens.kit.life_line import LifeLine
from app.screens.kit.measure import px
from app.screens.kit.palette import LIGHT

FACTS = LifeFacts(
    date(2019, 1, 1), date(2030, 12, 31), date(2026, 11, 25),
    (LifeBand("Quellmar Larch 2", "0403 019", date(2019, 3, 4), date(2022, 5, 17)),
     LifeBand("", "", date(2022, 5, 17), date(2022, 10, 3)),
     LifeBand("Quellmar Larch 2", "0417 733", date(2022, 10, 3))),
    (LifeJob("0871", date(2019, 3, 4), 871), LifeJob("1431", date(2022, 5, 17), 1431),
     LifeJob("1432", date(2022, 5, 18), 1432)),
    (),
    "mA",
    (LifeReading(date(2019, 3, 4), 47.6, 0.6, "47.6", 0), LifeReading(date(2022, 5, 17), 50.6, 0.6, "50.6", 0),
     LifeReading(date(2022, 10, 3), 50.5, 0.6, "50.5", 1), LifeReading(date(2026, 11, 20), 56.0, 0.6, "56.0", 1)),
    (LifeLimit(57.6, ("limit 57.6", "label + 20 %")),), (48.0, "label 48.0"),
    ((date(2019, 3, 4), 45.9, 47.2, 48.5), (date(2030, 12, 31), 58.5, 60.2, 61.8)),
    (date(2027, 7, 5), date(2030, 1, 10), "reaches limit"),
    "56.0 mA, rising 1.10 mA a year.",
)  # fmt: skip


@pytest.fixture
def line(qtbot: QtBot) -> LifeLine:
    made = LifeLine(FACTS)
    qtbot.addWidget(made)
    made.resize(1186, 450)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    made.grab()
    return made


def test_jobs_are_opened_by_keys(qtbot: QtBot, line: LifeLine) -> None:
    opened: list[Any] = []
    line.opened.connect(opened.append)
    line.setFocus()
    assert line.at == 2
    qtbot.keyClick(line, Qt.Key.Key_Left)
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert line.accessibleDescription() == "Job 1431"
    line.grab()
    qtbot.keyClick(line, Qt.Key.Key_Right)
    qtbot.keyClick(line, Qt.Key.Key_Right)
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert opened == [1431, 1432]


def test_jobs_are_opened_by_a_click_on_their_number(qtbot: QtBot, line: LifeLine) -> None:
    opened: list[Any] = []
    line.opened.connect(opened.append)
    at = line._spots[0][0].center().toPoint()
    qtbot.mouseMove(line, at)
    qtbot.mouseClick(line, Qt.MouseButton.LeftButton, pos=at)
    qtbot.mouseClick(line, Qt.MouseButton.LeftButton, pos=QPoint(600, 300))
    assert opened == [871]


def test_small_pages_keep_the_bands_and_leave_the_plot_to_the_table(qtbot: QtBot, line: LifeLine) -> None:
    assert line.has_plot
    line.resize(600, 450)
    assert not line.has_plot
    line.grab()
    line.resize(1186, 200)
    assert not line.has_plot
    assert line.minimumSizeHint().height() < px(140)


def test_the_unit_it_is_in_now_is_marked(line: LifeLine) -> None:
    axes = line._axes()
    image = line.grab().toImage()
    y = px(20) + px(8) + px(40)
    assert image.pixelColor(round(axes.x(date(2025, 6, 1))), y) == QColor(LIGHT.tint)
    assert image.pixelColor(round(axes.x(date(2020, 6, 1))), y) == QColor(LIGHT.alternate)


def test_it_is_heard_and_can_be_shown_anew(qtbot: QtBot, line: LifeLine) -> None:
    assert line.accessibleDescription() == "56.0 mA, rising 1.10 mA a year."
    line.set_facts(replace(FACTS, readings=(), limits=(), trend=(), reaches=None, reference=None))
    assert line.sizeHint().height() < px(140)
    line.refit()
    line.grab()


def test_a_life_without_anything_paints(qtbot: QtBot) -> None:
    empty = LifeLine()
    qtbot.addWidget(empty)
    empty.grab()
    assert not empty.has_plot
    qtbot.keyClick(empty, Qt.Key.Key_Left)


def test_a_lower_limit_and_a_short_life_paint_too(qtbot: QtBot) -> None:
    facts = replace(
        FACTS, start=date(2026, 1, 1), end=date(2026, 11, 25), limits=(LifeLimit(40.0, ("at least 40",), upper=False),),
        reaches=None,
    )  # fmt: skip
    line = LifeLine(facts)
    qtbot.addWidget(line)
    line.resize(1186, 450)
    line.grab()


CHANGES = (
    LifeChange("R314", date(2020, 1, 1), date(2021, 1, 1), target=871, told="R314: 5.6 ohm, put back"),
    LifeChange("laser supply", date(2020, 6, 1), target=1102),
    LifeChange("pick-up", date(2022, 5, 17), part=True, target=1431),
)


def test_changes_inside_at_one_time_stand_below_each_other() -> None:
    assert lanes_of(CHANGES) == [0, 1, 0]
    assert lanes_of([replace(CHANGES[1], day=date(2020 + i, 1, 1)) for i in range(5)]) == [0, 1, 2, 2, 2]


def test_changes_are_walked_in_the_order_of_time_and_open_their_job(qtbot: QtBot, line: LifeLine) -> None:
    opened: list[Any] = []
    told: list[str] = []
    line.set_facts(replace(FACTS, changes=CHANGES))
    line.opened.connect(opened.append)
    line.marked.connect(told.append)
    line.setFocus()
    qtbot.keyClick(line, Qt.Key.Key_Home)
    qtbot.keyClick(line, Qt.Key.Key_Right)
    qtbot.keyClick(line, Qt.Key.Key_Return)
    qtbot.keyClick(line, Qt.Key.Key_Right)
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert told[-3:] == ["Job 0871", "R314: 5.6 ohm, put back", "laser supply"]
    line.grab()
    qtbot.mouseClick(line, Qt.MouseButton.LeftButton, pos=line._spots[-1][0].center().toPoint())
    qtbot.keyClick(line, Qt.Key.Key_End)
    assert line.accessibleDescription() == "Job 1432"
    assert opened[:2] == [871, 1102]
    assert len(opened) == 3


def test_the_mouse_is_told_what_it_points_at(line: LifeLine) -> None:
    told = replace(FACTS.readings[0], told="47.6 mA, 4 Mar 2019")
    line.set_facts(replace(FACTS, readings=(told, *FACTS.readings[1:])))
    line.grab()
    axes = line._axes()
    at = QPointF(axes.x(told.day), axes.y(told.value))
    assert line.told_at(at) == "47.6 mA, 4 Mar 2019"
    assert line.told_at(at + QPointF(px(40), px(40))) == ""
    assert line.told_at(line._spots[0][0].center()) == "Job 0871"
    assert LifeLine.told_at(LifeLine(), at) == ""
    QCoreApplication.sendEvent(
        line, QHelpEvent(QEvent.Type.ToolTip, at.toPoint(), line.mapToGlobal(at.toPoint()))
    )
    assert QToolTip.text() == "47.6 mA, 4 Mar 2019"
    QToolTip.hideText()


def test_room_for_the_plot_follows_the_width(line: LifeLine) -> None:
    assert line.hasHeightForWidth()
    assert line.heightForWidth(px(700)) > px(380)
    assert line.heightForWidth(px(600)) == line.minimumSizeHint().height()
    line.set_facts(replace(FACTS, changes=CHANGES))
    assert line.heightForWidth(px(600)) == line.minimumSizeHint().height()
    assert line.minimumSizeHint().height() > px(120)
