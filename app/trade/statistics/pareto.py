"""The few that make the most: counts sorted, with the share that they reach together."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Bar:
    """One label with its ``count``, its ``share`` of all, and the ``reached`` share of it and all before it."""

    label: str
    count: int
    share: float
    reached: float


def pareto(counts: Mapping[str, int]) -> tuple[Bar, ...]:
    """The labels with a count above 0, the largest first, equal ones by label; shares from 0 to 1.

    Raises ValueError for a count below 0. The last one reaches 1. After J. M. Juran's use of the curve (common practice).
    """
    if any(count < 0 for count in counts.values()):
        raise ValueError("a count is not below 0")
    total, so_far, bars = sum(counts.values()), 0, []
    for label, count in sorted(counts.items(), key=lambda one: (-one[1], one[0])):
        if count:
            so_far += count
            bars.append(Bar(label, count, count / total, so_far / total))
    return tuple(bars)
