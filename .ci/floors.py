"""Compares coverage's JSON report with the floors: trade and work every line and branch, all of app 90 %."""

from __future__ import annotations

import json
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

FLOORS = (("app/trade/", 100), ("app/work/", 100), ("app/", 90))


@dataclass(frozen=True)
class Tested:
    """How many statements and branch ways there are, and how many of them ran."""

    there: int = 0
    ran: int = 0

    def __add__(self, other: Tested) -> Tested:
        return Tested(self.there + other.there, self.ran + other.ran)

    def reaches(self, percent: int) -> bool:
        """Whether the share is at least so many percent, without rounding; nothing there reaches anything."""
        return self.ran * 100 >= percent * self.there

    def __str__(self) -> str:
        # Rounded down, so that 99.99 % never reads as 100.
        return f"{self.ran * 1000 // self.there / 10:.1f} %" if self.there else "nothing there yet"


def tested(summary: dict[str, Any]) -> Tested:
    """One file's or total's figures from the report."""
    return Tested(
        summary["num_statements"] + summary["num_branches"],
        summary["covered_lines"] + summary["covered_branches"],
    )


def gaps(entry: dict[str, Any]) -> str:
    """The lines that never ran and the branch ways never taken, as people read them."""
    if not entry["executed_lines"]:
        return "never ran"
    missed = set(entry["missing_lines"])
    lines = ", ".join(spans(entry["missing_lines"]))
    # A way from or to a line that never ran says nothing new.
    ways = [
        f"{start}->{'out' if end < 0 else end}"
        for start, end in entry["missing_branches"]
        if not {start, end} & missed
    ]
    parts = [f"lines {lines}"] if lines else []
    return "; ".join(parts + ([f"ways {', '.join(ways)}"] if ways else []))


def spans(lines: list[int]) -> list[str]:
    """Line numbers with neighbours joined: 3, 4, 5, 9 become 3-5 and 9."""
    runs: list[list[int]] = []
    for line in sorted(lines):
        if runs and line == runs[-1][-1] + 1:
            runs[-1].append(line)
        else:
            runs.append([line])
    return [str(run[0]) if len(run) == 1 else f"{run[0]}-{run[-1]}" for run in runs]


def judge(report: dict[str, Any]) -> tuple[list[str], bool]:
    """What to print, and whether every floor is reached. Each file counts for every floor it lies under."""
    files = {name.replace("\\", "/"): entry for name, entry in report["files"].items()}
    lines: list[str] = []
    good = True
    for folder, percent in FLOORS:
        inside = {name: entry for name, entry in files.items() if name.startswith(folder)}
        whole = sum((tested(entry["summary"]) for entry in inside.values()), Tested())
        reached = whole.reaches(percent)
        lines.append(f"{folder:<12}{whole}, floor {percent} %{'' if reached else ': too little'}")
        if not reached:
            good = False
            short = sorted(
                (name for name, entry in inside.items() if not tested(entry["summary"]).reaches(percent))
            )
            lines += [f"    {name} {tested(files[name]['summary'])}: {gaps(files[name])}" for name in short]
    return lines, good


def main(path: str) -> int:
    """Print the comparison; 0 when every floor is reached."""
    try:
        report = json.loads(Path(path).read_text(encoding="utf-8"))
    except FileNotFoundError:
        print("There is no coverage report: the tests write it when they run (run.py test tests coverage).")
        return 1
    lines, good = judge(report)
    print("\n".join(lines))
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
