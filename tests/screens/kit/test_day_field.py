"""A field for a day."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.screens.kit.day_field import DayField

TODAY = date(2026, 11, 25)


@pytest.fixture
def field(qtbot: QtBot) -> DayField:
    made = DayField("Ready by", lambda: TODAY)
    qtbot.addWidget(made)
    made.show()
    return made


def test_the_day_read_is_shown_at_once_and_written_in_full_on_enter(qtbot: QtBot, field: DayField) -> None:
    heard: list[Any] = []
    field.day_changed.connect(heard.append)
    qtbot.keyClicks(field.edit, "+8")
    assert field.day() == date(2026, 12, 3)
    assert field.echo() == "Thu 3 Dec 2026, in 8 days"
    qtbot.keyClick(field.edit, Qt.Key.Key_Return)
    assert field.text() == "Thu 3 Dec 2026"
    assert field.echo() == "in 8 days"
    assert heard[-1] == date(2026, 12, 3)


def test_words_that_are_no_day_say_so_on_leaving(qtbot: QtBot, field: DayField) -> None:
    qtbot.keyClicks(field.edit, "soonish")
    assert field.is_wrong
    assert field.error() == ""
    field.left.emit()
    assert "27 Nov" in field.error()
    field.edit.clear()
    qtbot.keyClicks(field.edit, "Fri")
    assert field.error() == ""


@pytest.mark.parametrize(
    ("day", "words"),
    [
        (date(2026, 11, 25), "today"),
        (date(2026, 11, 26), "tomorrow"),
        (date(2026, 11, 24), "yesterday"),
        (date(2026, 11, 20), "5 days ago"),
    ],
)
def test_how_far_it_is(field: DayField, day: date, words: str) -> None:
    field.set_text(day.isoformat())
    assert field.echo().endswith(words)


def test_an_empty_field_has_no_day_and_is_not_wrong(field: DayField) -> None:
    field.set_day(date(2026, 11, 27))
    assert field.day() == date(2026, 11, 27)
    field.set_day(None)
    field.left.emit()
    assert field.day() is None
    assert not field.is_wrong
    assert field.error() == ""


@pytest.mark.parametrize("away", [-5, -1, 0, 1, 12])
def test_what_it_says_about_a_day_can_be_typed_and_means_that_day(field: DayField, away: int) -> None:
    day = TODAY + timedelta(days=away)
    field.set_text(day.isoformat())
    said = field.echo().rpartition(", ")[2]
    field.set_text(said)
    assert field.day() == day
