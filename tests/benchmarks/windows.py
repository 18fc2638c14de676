"""Our window on the book against an empty one: start, memory, painting, and the silence of the event loop."""

from __future__ import annotations

import json
import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.benchmarks.measure import Budget, Measured

ROOT = Path(__file__).resolve().parents[2]
STARTS = 5
EMPTY = "an empty QMainWindow with sqlalchemy.orm"
Told = dict[str, float]

# DESIGN names no floor for these two, and none in a like page for an invoice: the best that was seen of each on two
# cores that others used as well. A quieter machine would show smaller ones, and allow more.
PAINTED = Budget(50, floor=6.5)
SILENCE = Budget(100, floor=8.8)


def windows(path: Path, folder: Path) -> list[Measured]:
    """All of them."""
    ours: list[float] = []
    bare: list[float] = []
    our_memory = bare_memory = 0.0
    for _ in range(STARTS + 1):  # by turns, so that both meet the same moments of a busy machine
        taken, told = _run("our_window", str(path), str(folder))
        ours.append(taken)
        our_memory = told[0]["memory"]
        taken, told = _run("bare_window")
        bare.append(taken)
        bare_memory = told[0]["memory"]
    floor = _run("bare_window", str(path))[1][-1]
    work = _run("our_window", str(path), str(folder), "work")[1][-1]
    return [
        Measured(
            "start to first painted window",
            statistics.median(ours[1:]),
            statistics.median(bare[1:]),
            EMPTY,
            Budget(1.5, floor=1),
        ),
        Measured("memory with the window", our_memory, bare_memory, EMPTY, Budget(160, floor=77), "MB"),
        Measured("memory after the work below", work["memory"], bare_memory, EMPTY, None, "MB"),
        Measured(
            "list of every job, asked and painted",
            work["list"],
            floor["list"],
            "a bare QTableView with all keys and cached pages",
            Budget(60, floor=37),
        ),
        Measured(
            "job sheet with 50 readings, opened and painted",
            work["sheet"],
            floor["sheet"],
            "its readings in a bare QTableWidget",
            PAINTED,
        ),
        Measured(
            "the same with what is below and the ranked suspects",
            work["sheet whole"],
            floor["sheet"],
            "its readings in a bare QTableWidget",
            None,
        ),
        Measured(
            "the same asked anew and painted",
            work["sheet again"],
            floor["sheet"],
            "its readings in a bare QTableWidget",
            None,
        ),
        *(
            Measured(f"longest {name}", taken, floor["silence"], "beside a thread of plain Python", SILENCE)
            for name, taken in work.items()
            if name.startswith("silence")
        ),
    ]


def _run(module: str, *words: str) -> tuple[float, list[Told]]:
    """Milliseconds until the process said that its window is painted, and all that it told."""
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen", "PYTHONPATH": str(ROOT)}
    command = [sys.executable, "-m", f"tests.benchmarks.{module}", *words]
    with tempfile.TemporaryFile("w+") as errors:
        begun = time.perf_counter()
        with subprocess.Popen(
            command, cwd=ROOT, env=environment, stdout=subprocess.PIPE, stderr=errors, text=True
        ) as child:
            assert child.stdout is not None
            first = child.stdout.readline()
            taken = (time.perf_counter() - begun) * 1000
            lines = [first, *child.stdout.read().splitlines()]
        if child.returncode:
            errors.seek(0)
            raise RuntimeError(f"{module} ended with {child.returncode}:\n{errors.read()}")
    return taken, [json.loads(line) for line in lines if line.strip()]
