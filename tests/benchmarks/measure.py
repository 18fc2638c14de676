"""How an operation and its floor are timed in one run, and how the table says whether the budget is kept."""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

NARROW = 0.8  # of the ratio that is allowed: from there on a kept budget is a narrow one


@dataclass(frozen=True)
class Budget:
    """What an operation may take, beside what its floor took where the budget was set; both in one unit.

    Only their ratio is judged, so that a slow or busy machine, on which the floor is slow as well, says the
    same as a fast one.
    """

    most: float
    floor: float

    @property
    def ratio(self) -> float:
        """How many times its floor an operation may take."""
        return self.most / self.floor


@dataclass(frozen=True)
class Measured:
    """One line of the table, in ``unit``. ``floor`` is the bare operation ``against`` which it is set, measured
    in the same run. Without a budget the line only tells."""

    what: str
    ours: float
    floor: float
    against: str
    budget: Budget | None
    unit: str = "ms"

    @property
    def ratio(self) -> float:
        """How many times its floor it took."""
        return self.ours / self.floor if self.floor else float("nan")

    @property
    def holds(self) -> bool:
        """Whether the ratio is within that of the budget."""
        return self.budget is None or self.ratio <= self.budget.ratio

    @property
    def verdict(self) -> str:
        """The same in words."""
        if self.budget is None:
            return "told only"
        share = self.ratio / self.budget.ratio
        if share > 1:
            return f"**over**, by {(share - 1) * 100:.0f} %"
        return "kept, narrowly" if share > NARROW else "kept"


def times(deeds: Iterable[Callable[[], object]]) -> list[float]:
    """Milliseconds of each deed."""
    taken = []
    for deed in deeds:
        begun = time.perf_counter()
        deed()
        taken.append((time.perf_counter() - begun) * 1000)
    return taken


def best(deed: Callable[[], object], tries: int = 3) -> float:
    """Milliseconds of the best of a few tries: what the machine did beside them is not in it."""
    return min(times([deed] * tries))


def p95(taken: Sequence[float]) -> float:
    """The time that 19 of 20 keep."""
    return statistics.quantiles(taken, n=20)[-1] if len(taken) > 1 else taken[0]


def by_turns(ours: Callable[[], object], bare: Callable[[], object], repeats: int = 7) -> tuple[float, float]:
    """Medians of the same deed and of its floor, one after the other, so that both meet the same moments of a
    busy machine. The first of each warms it and does not count."""
    ours()
    bare()
    pairs = [times((ours, bare)) for _ in range(repeats)]
    return statistics.median(pair[0] for pair in pairs), statistics.median(pair[1] for pair in pairs)


def table(lines: Sequence[Measured]) -> str:
    """All of it as Markdown."""
    rows = ["| what | took | floor | measured against | ratio | allowed | |", "|---|---|---|---|---|---|---|"]
    for one in lines:
        allowed = "" if one.budget is None else f"{one.budget.ratio:.3g}"
        ours, floor = _amount(one.ours, one.unit), _amount(one.floor, one.unit)
        rows.append(
            f"| {one.what} | {ours} | {floor} | {one.against} | {one.ratio:.3g} | {allowed} | {one.verdict} |"
        )
    return "\n".join(rows)


def _amount(value: float, unit: str) -> str:
    return f"{value:.0f} {unit}" if value >= 100 else f"{value:.3g} {unit}"
