"""A picture of an answer as data: what is drawn where and what is said of it; screens and papers each paint it.

A picture is a few panels, one below the other. Every mark tells its own numbers in a sentence (for the pointer, the
keyboard and a screen reader), so that nothing has to be read off a drawing.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from app.trade.sentence import Sentence, Value

ENDINGS = (".pdf", ".svg", ".png")  # of files that a picture is saved as


class Scale(StrEnum):
    """How the numbers of an axis are written."""

    SHARE = "share"  # 0 to 1, written as per cent
    COUNT = "count"
    NUMBER = "number"
    DAYS = "days"
    DATE = "date"  # proleptic ordinals of days, as date.toordinal gives them


class Ink(StrEnum):
    """What a mark is, which a painter shows by fill or shape and never by colour alone."""

    PLAIN = "plain"
    MORE = "more"  # stands out as more, after correction
    LESS = "less"
    FAINT = "faint"  # rests on few


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """``name`` is a few words with the unit; ``least`` and ``most`` are the ends, None where the marks decide."""

    name: Sentence
    scale: Scale
    least: float | None = None
    most: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """One bar from 0 to ``value`` (None: nothing to draw, only the name stands) with an interval from ``low`` to
    ``high`` where there is one. ``other`` is the open diamond: the share of all others. ``beside`` stands at its end;
    ``reached`` is the cumulated share of a Pareto bar. ``told`` says it in words; ``jobs`` are the keys behind."""

    key: str
    name: Value
    value: float | None
    told: Sentence
    low: float | None = None
    high: float | None = None
    other: float | None = None
    reached: float | None = None
    beside: Sentence | None = None
    ink: Ink = Ink.PLAIN
    jobs: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Bars:
    """Lying bars, the first on top. Where bars have ``reached``, a painter draws the cumulated line as well."""

    title: Sentence
    axis: Axis
    bars: tuple[Bar, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """A step function: at each ``x`` it goes to ``y`` and stays until the next. It begins at (``x[0]``, ``y[0]``) and
    ends at ``until``. ``low`` and ``high`` are its band, as long as ``x``, or empty. ``at_risk`` belongs to the marks
    of the panel."""

    key: str
    name: Value
    x: tuple[float, ...]
    y: tuple[float, ...]
    until: float
    told: Sentence
    low: tuple[float, ...] = ()
    high: tuple[float, ...] = ()
    at_risk: tuple[int, ...] = ()
    ink: Ink = Ink.PLAIN
    jobs: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Curves:
    """Step curves in one frame. ``marks`` are the places on x under which the numbers at risk stand, named by
    ``risk_name``; ``guide`` is an upright line (the window) with its word."""

    title: Sentence
    x: Axis
    y: Axis
    curves: tuple[Curve, ...]
    marks: tuple[float, ...] = ()
    risk_name: Sentence | None = None
    guide: float | None = None
    guide_name: Sentence | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """A dot at (``x``, ``y``); ``low`` and ``high`` are its own limits, not its interval, where a chart has limits."""

    key: str
    x: float
    y: float
    told: Sentence
    low: float | None = None
    high: float | None = None
    ink: Ink = Ink.PLAIN
    jobs: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """Dots of one thing, in the order of x, joined by a line where ``joined``."""

    key: str
    name: Value
    points: tuple[Point, ...]
    joined: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """Series over a common axis: what happened when. ``centre`` is a level line with its word. Where points have
    limits, a painter draws them as two stepped lines."""

    title: Sentence
    x: Axis
    y: Axis
    series: tuple[Series, ...]
    centre: float | None = None
    centre_name: Sentence | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One field of a grid by its place, from the top left."""

    row: int
    column: int
    count: int
    told: Sentence
    jobs: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """Counts by two things: a field is the darker, the more it counts, and says its number."""

    title: Sentence
    rows_are: Sentence
    columns_are: Sentence
    rows: tuple[Value, ...]
    columns: tuple[Value, ...]
    cells: tuple[Cell, ...]


Panel: TypeAlias = "Bars | Curves | Course | Grid"


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """The panels of one answer, the one that answers the question first. Without panels there is nothing to draw."""

    title: Sentence
    panels: tuple[Panel, ...]


def marks_of(panel: Panel) -> tuple[Bar | Curve | Point | Cell, ...]:
    """Everything in a panel that tells of itself, in its order."""
    if isinstance(panel, Bars):
        return panel.bars
    if isinstance(panel, Curves):
        return panel.curves
    if isinstance(panel, Course):
        return tuple(point for series in panel.series for point in series.points)
    return panel.cells
