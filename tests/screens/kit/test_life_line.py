"""The life of a transport along time."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor
from pytestqt.qtbot import QtBot

from app.screens.kit.life_line import LifeBand, LifeFacts, LifeJob, LifeLimit, LifeLine, LifeReading
from app.screens.kit.measure import px
from app.screens.kit.palette import LIGHT

FACTS = LifeFacts(
    date(2019, 1, 1), date(2030, 12, 31), date(2026, 11, 25),
    (LifeBand("Quellmar Larch 2", "0403 019", date(2019, 3, 4), date(2022, 5, 17)),
     LifeBand("", "", date(2022, 5, 17), date(2022, 10, 3)),
     LifeBand("Quellmar Larch 2", "0417 733", date(2022, 10, 3))),
    (LifeJob("0871", date(2019, 3, 4), 871), LifeJob("1431", date(2022, 5, 17), 1431),
     LifeJob("1432", date(2022, 5, 18), 1432)),
    "mA",
    (LifeReading(date(2019, 3, 4), 47.6, 0.6, "47.6", 0), LifeReading(date(2022, 5, 17), 50.6, 0.6, "50.6", 0),
     LifeReading(date(2022, 10, 3), 50.5, 0.6, "50.5", 1), LifeReading(date(2026, 11, 20), 56.0, 0.6, "56.0", 1)),
    LifeLimit(57.6, ("limit 57.6", "label + 20 %")), (48.0, "label 48.0"),
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
    at = line._links[0].center().toPoint()
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
    line.set_facts(replace(FACTS, readings=(), limit=None, trend=(), reaches=None, reference=None))
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
        FACTS, start=date(2026, 1, 1), end=date(2026, 11, 25), limit=LifeLimit(40.0, ("at least 40",), upper=False),
        reaches=None,
    )  # fmt: skip
    line = LifeLine(facts)
    qtbot.addWidget(line)
    line.resize(1186, 450)
    line.grab()
