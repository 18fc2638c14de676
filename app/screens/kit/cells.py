"""What can stand in a cell of a table: frozen facts, already worded; `plain` is what a screen reader says."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, TypeAlias

from app.screens.language import say

if TYPE_CHECKING:
    from PySide6.QtCore import QRectF
    from PySide6.QtGui import QPainter


@dataclass(frozen=True)
class Words:
    """Words, and soft second words behind them. ``ink`` names a role, e.g. ``stop`` for a verdict."""

    text: str
    second: str = ""
    strong: bool = False
    soft: bool = False
    ink: str = ""
    tip: str = ""  # the long form, shown in the tooltip
    before: str = ""  # level of a flag whose shape stands before the words
    right: bool = False

    @property
    def plain(self) -> str:
        return f"{self.text} {self.second}".strip()


@dataclass(frozen=True)
class Figure:
    """A number as worded (with the language's decimal mark), aligned on its mark; never elided.

    ``unit`` stands soft behind it, where it has no column of its own.
    """

    text: str
    unit: str = ""
    strong: bool = False
    soft: bool = False
    ink: str = ""
    tip: str = ""

    @property
    def plain(self) -> str:
        return f"{self.text} {self.unit}".strip()


@dataclass(frozen=True)
class Link:
    """Words that open something; ``target`` comes back by the table's `link_opened`."""

    text: str
    target: Any = None
    second: str = ""
    tip: str = ""

    @property
    def plain(self) -> str:
        return f"{self.text} {self.second}".strip()


@dataclass(frozen=True)
class Stage:
    """Where a job is: ``index`` 0 taken in, 1 on the bench, 2 running in, 3 ready, 4 handed back."""

    index: int
    word: str
    second: str = ""  # waiting for answer, part or customer

    @property
    def plain(self) -> str:
        return f"{self.word} {self.second}".strip()


@dataclass(frozen=True)
class Flags:
    """Flags in a list: pairs of level and word, the gravest first; only the first is shown with its word."""

    flags: tuple[tuple[str, str], ...] = ()

    @property
    def plain(self) -> str:
        return ", ".join(f"{say(str(level))}: {word}" for level, word in self.flags)


@dataclass(frozen=True)
class Gate:
    """An open or ticked box with its word."""

    word: str
    done: bool = False

    @property
    def plain(self) -> str:
        return self.word


@dataclass(frozen=True)
class Two:
    """Two lines in one cell: the first in text (or heavier), the second soft."""

    first: str
    second: str
    strong: bool = False
    soft: bool = False
    right: bool = False
    tip: str = ""

    @property
    def plain(self) -> str:
        return f"{self.first}, {self.second}"


@dataclass(frozen=True)
class Drawing:
    """A small picture: ``paint(painter, rect)`` draws it, ``plain`` says the same in words."""

    paint: Callable[[QPainter, QRectF], None]
    plain: str
    tip: str = ""


Cell: TypeAlias = "Words | Figure | Link | Stage | Flags | Gate | Two | Drawing | None"


@dataclass(frozen=True)
class Column:
    """A column: ``width`` in px for L = 18 (0 takes the rest), ``number`` aligns on the decimal mark.

    ``fraction`` is the room kept right of the mark, in digits, where not all rows are at hand.
    ``sorts`` makes its header a button. ``tip`` gives the long form of the header, ``short`` stands in its place
    where the column has become too narrow for it.
    """

    key: str
    title: str
    width: float = 0
    number: bool = False
    fraction: int | None = None
    sorts: bool = False
    tip: str = ""
    short: str = ""
    least: float = 60  # for the column that takes the rest
    right: bool = False
    header: Callable[[QPainter, QRectF], None] | None = None  # a drawn header, e.g. the key of a scale


@dataclass(frozen=True)
class Leave:
    """One step when the table gets narrow: a column leaves, or a part of its cells does.

    ``part`` is ``column``, ``second`` (second words) or ``word`` (the word beside stage boxes);
    ``saves`` is the width that a part gives back, for L = 18.
    """

    key: str
    part: str = "column"
    saves: float = 0


@dataclass(frozen=True)
class Row:
    """One row: ``key`` comes back when it is opened; cells in the order of the columns.

    ``struck`` draws a line through all cells; the words of ``rest`` then run from column ``rest_from`` to the
    end. ``tail`` stands heavier at the right end (``kept here, not saved``).
    """

    key: Any
    cells: tuple[Cell, ...]
    struck: bool = False
    rest: str = ""
    rest_from: int = 0
    tail: str = ""


@dataclass(frozen=True)
class Group:
    """A row between rows: a heavier word and a soft count, with the shape of a flag where it has one."""

    word: str
    second: str = ""
    level: str = ""


@dataclass(frozen=True)
class Sorting:
    """Which column a table is sorted by."""

    key: str = ""
    descending: bool = False


@dataclass
class Hidden:
    """Parts that have left a table because it is narrow."""

    columns: set[str] = field(default_factory=set)
    seconds: set[str] = field(default_factory=set)
    words: set[str] = field(default_factory=set)
