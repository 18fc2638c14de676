"""The two background doors: order, results in the window's thread, dropped results, an orderly end."""

from __future__ import annotations

import threading
from collections.abc import Iterator

import pytest
from PySide6.QtCore import QObject
from pytestqt.qtbot import QtBot
from shiboken6 import delete

from app.screens.threads import Cancelled, Doors, Ticket


@pytest.fixture
def doors(qapp: object) -> Iterator[Doors]:
    made = Doors()
    yield made
    made.close()


def settled(doors: Doors) -> bool:
    return doors.waiting == 0


def test_a_result_comes_back_in_the_windows_thread(qtbot: QtBot, doors: Doors) -> None:
    seen: list[tuple[int, bool, bool]] = []
    here = threading.get_ident()
    receiver = QObject()

    def done(where: int) -> None:
        seen.append((7, where != here, threading.get_ident() == here))

    doors.look_up(receiver, threading.get_ident, done)
    qtbot.waitUntil(lambda: bool(seen))
    assert seen == [(7, True, True)]


def test_changes_run_one_after_the_other_in_the_order_they_were_asked_for(qtbot: QtBot, doors: Doors) -> None:
    order: list[int] = []
    receiver = QObject()
    for number in range(20):
        doors.change(receiver, lambda number=number: order.append(number))  # type: ignore[misc]
    qtbot.waitUntil(lambda: settled(doors))
    assert order == list(range(20))


def test_look_ups_do_not_wait_for_a_change(qtbot: QtBot, doors: Doors) -> None:
    gate = threading.Event()
    got: list[str] = []
    receiver = QObject()
    doors.change(receiver, gate.wait)
    doors.look_up(receiver, lambda: "found", got.append)
    qtbot.waitUntil(lambda: got == ["found"])
    gate.set()
    qtbot.waitUntil(lambda: settled(doors))


def test_an_error_goes_to_the_one_who_asked(qtbot: QtBot, doors: Doors) -> None:
    told: list[Exception] = []
    receiver = QObject()

    def breaks() -> None:
        raise ValueError("no such job")

    doors.change(receiver, breaks, failed=told.append)
    qtbot.waitUntil(lambda: bool(told))
    assert isinstance(told[0], ValueError)


def test_an_error_nobody_asked_for_is_not_lost(qtbot: QtBot, doors: Doors) -> None:
    receiver = QObject()

    def breaks() -> None:
        raise ValueError("no such job")

    with qtbot.waitSignal(doors.unhandled) as signal:
        doors.change(receiver, breaks)
    assert isinstance(signal.args[0], ValueError)


def test_a_cancelled_look_up_delivers_nothing(qtbot: QtBot, doors: Doors) -> None:
    gate = threading.Event()
    got: list[bool] = []
    receiver = QObject()
    ticket = doors.look_up(receiver, gate.wait, got.append)
    ticket.cancel()
    gate.set()
    qtbot.waitUntil(lambda: settled(doors))
    assert got == []
    assert ticket.cancelled


def test_a_result_for_a_page_that_is_gone_is_dropped(qtbot: QtBot, doors: Doors) -> None:
    gate = threading.Event()
    got: list[bool] = []
    receiver = QObject()
    doors.look_up(receiver, gate.wait, got.append)
    delete(receiver)
    gate.set()
    qtbot.waitUntil(lambda: settled(doors))
    assert got == []


def test_long_work_tells_how_far_it_is_and_can_be_stopped(qtbot: QtBot, doors: Doors) -> None:
    steps: list[tuple[int, int]] = []
    got: list[str] = []
    stopped = threading.Event()
    at_three = threading.Event()
    go_on = threading.Event()
    receiver = QObject()

    def work(ticket: Ticket) -> str:
        try:
            for i in range(1, 100):
                ticket.step(i, 100)
                if i == 3:
                    at_three.set()
                    go_on.wait()
        except Cancelled:
            stopped.set()
            raise
        return "finished"

    ticket = doors.long_look_up(
        receiver, work, got.append, progress=lambda done, of: steps.append((done, of))
    )
    qtbot.waitUntil(lambda: len(steps) == 3)
    ticket.cancel()
    go_on.set()
    qtbot.waitUntil(lambda: settled(doors))
    assert steps == [(1, 100), (2, 100), (3, 100)]
    assert stopped.is_set()
    assert got == []


def test_long_changes_report_too(qtbot: QtBot, doors: Doors) -> None:
    steps: list[int] = []
    got: list[str] = []
    receiver = QObject()

    def work(ticket: Ticket) -> str:
        ticket.step(1, 1)
        return "saved"

    doors.long_change(receiver, work, got.append, progress=lambda done, of: steps.append(done))
    qtbot.waitUntil(lambda: got == ["saved"])
    assert steps == [1]


def test_closing_finishes_the_changes_and_drops_the_look_ups(qtbot: QtBot) -> None:
    doors = Doors()
    receiver = QObject()
    saved: list[int] = []
    for number in range(5):
        doors.change(receiver, lambda number=number: saved.append(number))  # type: ignore[misc]
    assert not doors.closed
    doors.close()
    assert doors.closed
    assert saved == [0, 1, 2, 3, 4]
    with pytest.raises(RuntimeError):
        doors.change(receiver, lambda: None)


def test_busy_tells_when_work_begins_and_ends(qtbot: QtBot, doors: Doors) -> None:
    told: list[bool] = []
    doors.busy.connect(told.append)
    receiver = QObject()
    doors.change(receiver, lambda: None)
    qtbot.waitUntil(lambda: told == [True, False])
