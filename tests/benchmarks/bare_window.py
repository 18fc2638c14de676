"""A process that shows an empty window, says what it holds, and then does barely what our window does.

Words: the path of a book, or none for the start alone. It says one line of JSON when it is painted, and one at
the end.
"""

from __future__ import annotations

import json
import sqlite3
import statistics
import sys
import threading
import time
from collections.abc import Callable
from typing import Any

import sqlalchemy.orm  # noqa: F401  # the floor: what our window cannot be without
from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtWidgets import (
    QApplication,
    QHeaderView,
    QMainWindow,
    QTableView,
    QTableWidget,
    QTableWidgetItem,
)

REPEATS = 7
SECONDS = 5  # in each of which the longest silence is taken; their median is the floor
PAGE = 64
KEYS = "SELECT id FROM jobs ORDER BY promised_on IS NULL, promised_on, promised_time, number"
JOBS = "SELECT number, promised_on, unit_id, customer_id, fault_short, stage, outcome FROM jobs WHERE id = ?"
READINGS = "SELECT quantity, typed, unit, verdict, moment, at, by FROM readings WHERE job_id = ?"


class Jobs(QAbstractTableModel):
    """All keys, and rows by pages as they are seen."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        super().__init__()
        self._connection = connection
        self._keys = [key for (key,) in connection.execute(KEYS)]
        self._pages: dict[int, list[Any]] = {}

    def rowCount(self, parent: QModelIndex | QPersistentModelIndex = QModelIndex()) -> int:
        return len(self._keys)

    def columnCount(self, parent: QModelIndex | QPersistentModelIndex = QModelIndex()) -> int:
        return 7

    def data(self, index: QModelIndex | QPersistentModelIndex, role: int = 0) -> Any:
        if role != Qt.ItemDataRole.DisplayRole:
            return None
        at = index.row() // PAGE
        if at not in self._pages:
            keys = self._keys[at * PAGE : (at + 1) * PAGE]
            self._pages[at] = [self._connection.execute(JOBS, (key,)).fetchone() for key in keys]
        return str(self._pages[at][index.row() % PAGE][index.column()])


def main(words: list[str]) -> None:
    """Show it, and measure."""
    app = QApplication([])
    window = QMainWindow()
    window.resize(1280, 800)
    window.show()
    app.processEvents()
    from tests.benchmarks.beats import Beats, memory, run_for

    _say({"memory": memory()})
    if not words:
        return
    connection = sqlite3.connect(f"file:{words[0]}?mode=ro", uri=True)
    (key,) = connection.execute("SELECT max(id) FROM jobs").fetchone()
    told = {
        "list": _middle(lambda: _list(app, window, connection)),
        "sheet": _middle(lambda: _sheet(app, window, connection, key)),
    }
    window.setCentralWidget(None)  # type: ignore[arg-type]
    enough = threading.Event()
    worker = threading.Thread(target=_count, args=(enough,))
    worker.start()
    silences = []
    for _ in range(SECONDS):
        with Beats() as beats:
            run_for(1000)
        silences.append(beats.longest)
    enough.set()
    worker.join()
    _say({**told, "silence": statistics.median(silences)})
    connection.close()


def _list(app: QApplication, window: QMainWindow, connection: sqlite3.Connection) -> None:
    view = QTableView()
    view.verticalHeader().hide()
    view.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
    view.setModel(Jobs(connection))
    view.model().setParent(view)
    window.setCentralWidget(view)
    app.processEvents()


def _sheet(app: QApplication, window: QMainWindow, connection: sqlite3.Connection, key: int) -> None:
    rows = connection.execute(READINGS, (key,)).fetchall()
    table = QTableWidget(len(rows), 7)
    for at, row in enumerate(rows):
        for column, value in enumerate(row):
            table.setItem(at, column, QTableWidgetItem(str(value)))
    window.setCentralWidget(table)
    app.processEvents()


def _count(enough: threading.Event) -> None:
    """Plain Python work, as any thread beside a window does."""
    count = 0
    while not enough.is_set():
        count += 1


def _middle(deed: Callable[[], object]) -> float:
    taken = []
    for _ in range(REPEATS + 1):
        begun = time.perf_counter()
        deed()
        taken.append((time.perf_counter() - begun) * 1000)
    return statistics.median(taken[1:])


def _say(told: dict[str, float]) -> None:
    sys.stdout.write(f"{json.dumps(told)}\n")
    sys.stdout.flush()


if __name__ == "__main__":
    main(sys.argv[1:])
