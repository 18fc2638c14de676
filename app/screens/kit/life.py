"""What the life line shows, as frozen facts: stays, jobs, changes, readings, limits, trend."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any


@dataclass(frozen=True)
class LifeBand:
    """A fitting: the unit it was in from ``start`` to ``end`` (None: still). No ``name`` is the shelf."""

    name: str
    second: str
    start: date
    end: date | None = None

    @property
    def present(self) -> bool:
        """Whether it is inside now."""
        return self.end is None and bool(self.name)


@dataclass(frozen=True)
class LifeJob:
    """A job as a tick with its number as a link; ``told`` says it in one line."""

    number: str
    day: date
    target: Any = None
    told: str = ""


@dataclass(frozen=True)
class LifeChange:
    """A modification from ``day`` until ``end`` (None: still inside), or a ``part`` renewed on a day."""

    words: str
    day: date
    end: date | None = None
    part: bool = False
    target: Any = None
    told: str = ""


@dataclass(frozen=True)
class LifeReading:
    """One reading with its expanded uncertainty; ``label`` is printed where it is not empty. Readings of one
    ``fitting`` are joined, never across. ``verdict``: within, close, outside, or empty without a limit."""

    day: date
    value: float
    spread: float = 0.0
    label: str = ""
    fitting: int = 0
    verdict: str = ""
    told: str = ""


@dataclass(frozen=True)
class LifeLimit:
    """A limit with its source in words; ``upper`` forbids what lies above it. ``steps`` are days from which it had
    other values, the last of them ``value``; empty when it never changed."""

    value: float
    words: tuple[str, ...]
    upper: bool = True
    steps: tuple[tuple[date, float], ...] = ()


@dataclass(frozen=True)
class LifeFacts:
    """Everything on the page. ``trend`` are days with low, middle and high; ``reaches`` the two days between
    which the band crosses the limit, with their word; the second is None where it stays open."""

    start: date
    end: date
    today: date
    bands: tuple[LifeBand, ...] = ()
    jobs: tuple[LifeJob, ...] = ()
    changes: tuple[LifeChange, ...] = ()
    unit: str = ""
    readings: tuple[LifeReading, ...] = ()
    limits: tuple[LifeLimit, ...] = ()
    reference: tuple[float, str] | None = None  # e.g. the label current with its words
    trend: tuple[tuple[date, float, float, float], ...] = ()
    reaches: tuple[date, date | None, str] | None = None
    sentence: str = ""

    @property
    def marks(self) -> tuple[LifeJob | LifeChange, ...]:
        """Jobs and changes as the keys walk them: in the order of time, a job before what was done in it."""
        return tuple(sorted((*self.jobs, *self.changes), key=lambda mark: mark.day))
