"""What pages are given."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from PySide6.QtCore import QObject
from pytestqt.qtbot import QtBot

from app.screens.desk import Desk, Paper, StaffNow


@dataclass(frozen=True)
class Saved:
    """A result with its changes, as functions of app.work give it."""

    changes: str


def test_who_and_when(qtbot: QtBot, desk: Desk) -> None:
    heard: list[Any] = []
    desk.staff_changed.connect(heard.append)
    person = StaffNow(2, "Tobbe Ruskamp", frozenset({"owner"}))
    desk.set_staff(person)
    assert desk.staff == person
    assert heard == [person]
    assert desk.today() == date(2026, 3, 12)
    assert desk.now().tzinfo is not None


def test_opening_goes_to_the_window(desk: Desk) -> None:
    opened: list[Any] = []
    desk.open("job", 1)  # nobody serves yet
    desk.back()
    desk.serve(lambda kind, key: opened.append((kind, key)), lambda: opened.append("back"))
    paper = Paper("Intake ticket", b"%PDF")
    desk.open_job(1)
    desk.open_unit(2)
    desk.open_transport(3)
    desk.open_customer(4)
    desk.show_paper(paper)
    desk.back()
    assert opened == [("job", 1), ("unit", 2), ("transport", 3), ("customer", 4), ("paper", paper), "back"]


def test_a_change_is_announced_before_the_one_who_asked_goes_on(qtbot: QtBot, desk: Desk) -> None:
    heard: list[Any] = []
    desk.changed.connect(lambda changes: heard.append(("changed", changes)))
    receiver = QObject()
    desk.change(receiver, lambda: Saved("of a job"), lambda result: heard.append(("done", result.changes)))
    qtbot.waitUntil(lambda: len(heard) == 2)
    assert heard == [("changed", "of a job"), ("done", "of a job")]
    done: list[Any] = []
    desk.change(receiver, lambda: ("no", "changes"), done.append)
    qtbot.waitUntil(lambda: done == [("no", "changes")])
    assert len(heard) == 2
