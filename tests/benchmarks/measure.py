"""How an operation and its floor are timed in one run, and how the table says whether the budget is kept."""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Measured:
    """One line of the table, in ``unit``. ``floor`` is a bare operation measured beside ours in the same run.

    The floor says how much of the time is ours and how fast the machine was; it never moves the budget, which
    is compared as it stands. Without a budget the line only tells.
    """

    what: str
    ours: float
    floor: float
    budget: float | None
    unit: str = "ms"

    @property
    def holds(self) -> bool:
        """Whether ours is within the budget."""
        return self.budget is None or self.ours <= self.budget


def times(deeds: Iterable[Callable[[], object]]) -> list[float]:
    """Milliseconds of each deed."""
    taken = []
    for deed in deeds:
        begun = time.perf_counter()
        deed()
        taken.append((time.perf_counter() - begun) * 1000)
    return taken


def p95(taken: Sequence[float]) -> float:
    """The time that 19 of 20 keep."""
    return statistics.quantiles(taken, n=20)[-1] if len(taken) > 1 else taken[0]


def middle(deed: Callable[[], object], repeats: int = 5) -> float:
    """The median of some times of the same deed, the first of which warms it and does not count."""
    deed()
    return statistics.median(times([deed] * repeats))


def table(lines: Sequence[Measured]) -> str:
    """All of it as Markdown."""
    rows = ["| what | measured | floor | ratio | budget | |", "|---|---|---|---|---|---|"]
    for one in lines:
        ratio = one.ours / one.floor if one.floor else float("nan")
        ours, floor = _amount(one.ours, one.unit), _amount(one.floor, one.unit)
        allowed, word = "none", ""
        if one.budget is not None:
            allowed, word = _amount(one.budget, one.unit), "kept" if one.holds else "**over**"
        rows.append(f"| {one.what} | {ours} | {floor} | {ratio:.1f} | {allowed} | {word} |")
    return "\n".join(rows)


def _amount(value: float, unit: str) -> str:
    return f"{value:.0f} {unit}" if value >= 100 else f"{value:.3g} {unit}"
