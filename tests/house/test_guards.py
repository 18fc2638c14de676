"""What a test leaves behind fails it, whatever it asserted: each guard of conftest.py is broken once here."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]

UNTIDY = """
import logging, sqlite3, threading, warnings
import pytest

keep = []

def test_logs_an_error():
    logging.getLogger("app").error("the book is on fire")

@pytest.mark.logs_errors("this one is about the log")
def test_may_log_an_error():
    logging.getLogger("app").error("expected")

def test_leaves_a_thread(request):
    gate = threading.Event()
    threading.Thread(target=gate.wait, args=(20,), name="lost thread", daemon=True).start()

def test_leaves_a_window(qapp):
    from PySide6.QtWidgets import QWidget
    keep.append(QWidget())

def test_closes_its_window(qtbot):
    from PySide6.QtWidgets import QWidget
    window = QWidget()
    qtbot.addWidget(window)
    window.show()

def test_leaves_a_timer(qapp):
    from PySide6.QtCore import QTimer
    timer = QTimer()
    timer.start(60_000)
    keep.append(timer)

def test_makes_qt_complain(qtbot):
    from PySide6.QtCore import qWarning
    qWarning("no such slot")

def test_warns():
    warnings.warn("soon gone", DeprecationWarning)

def test_raises_in_a_slot(qtbot):
    from PySide6.QtCore import QTimer
    QTimer.singleShot(0, lambda: 1 / 0)
    qtbot.wait(20)

def test_is_tidy(clock, now):
    assert clock() == now
    assert clock.advance(days=1).day == now.day + 1
"""

UNCLOSED = """
import sqlite3
keep = []

def test_opens():
    keep.append(sqlite3.connect(":memory:"))
"""


@pytest.fixture(scope="module")
def outcomes(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """How each untidy test ended, by its name; `FAILED` and `ERROR` are both a test that does not pass."""
    folder = tmp_path_factory.mktemp("untidy")
    (folder / "conftest.py").write_text((ROOT / "tests" / "conftest.py").read_text(encoding="utf-8"))
    (folder / "test_untidy.py").write_text(UNTIDY)
    (folder / "test_unclosed.py").write_text(UNCLOSED)
    command = [sys.executable, "-m", "pytest", "-v", "-p", "no:cacheprovider", "-p", "no:randomly"]
    ended = subprocess.run(
        [*command, "-c", str(ROOT / "pyproject.toml"), "--rootdir", str(folder), str(folder)],
        capture_output=True,
        text=True,
        check=False,
        cwd=folder,
    )
    found = dict(re.findall(r"::(test_\w+) (PASSED|FAILED|ERROR)", ended.stdout))
    assert found, ended.stdout + ended.stderr
    return found


@pytest.mark.parametrize(
    "name",
    [
        "test_logs_an_error",
        "test_leaves_a_thread",
        "test_leaves_a_window",
        "test_leaves_a_timer",
        "test_makes_qt_complain",
        "test_warns",
        "test_raises_in_a_slot",
        "test_opens",
    ],
)
def test_an_untidy_test_does_not_pass(outcomes: dict[str, str], name: str) -> None:
    assert outcomes[name] in ("FAILED", "ERROR")


@pytest.mark.parametrize("name", ["test_may_log_an_error", "test_closes_its_window", "test_is_tidy"])
def test_a_tidy_test_passes(outcomes: dict[str, str], name: str) -> None:
    assert outcomes[name] == "PASSED"
