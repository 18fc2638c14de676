"""A process that is asked to end closes its window in order."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Iterator

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.screens.stop_signals import ASKED, StopSignals

STOPPED: list[str] = []


@pytest.fixture
def signals(qapp: QApplication) -> Iterator[StopSignals]:
    STOPPED.clear()
    made = StopSignals(lambda: STOPPED.append("stop"))
    yield made
    made.remove()


@pytest.mark.skipif(sys.platform == "win32", reason="no process is sent a signal there")
@pytest.mark.parametrize("number", ASKED)
def test_it_hears_the_signal_while_qt_waits(
    qtbot: QtBot, signals: StopSignals, number: signal.Signals
) -> None:
    os.kill(os.getpid(), number)
    qtbot.waitUntil(lambda: STOPPED == ["stop"])


def test_any_other_waking_stops_nothing(qtbot: QtBot, signals: StopSignals) -> None:
    signals._write.send(b"x")
    qtbot.wait(20)
    signals._wake()
    assert STOPPED == []


def test_afterwards_signals_go_where_they_went_before(qapp: QApplication) -> None:
    before = [signal.getsignal(number) for number in ASKED]
    StopSignals(lambda: None).remove()
    assert [signal.getsignal(number) for number in ASKED] == before
