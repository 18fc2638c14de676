"""A table of an answer as data: heads and cells in words and numbers, each row with the jobs behind it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from app.trade.sentence import Sentence, Value


class Shape(StrEnum):
    """How the cells of a column are written."""

    WORDS = "words"
    COUNT = "count"
    SHARE = "share"  # 0 to 1, written as per cent
    NUMBER = "number"
    P = "p"  # a probability of a test
    DAY = "day"
    MONTH = "month"  # a day that stands for its month
    MONEY = "money"


@dataclass(frozen=True, slots=True)
class Column:
    """``name`` is short; ``least_wanted`` is the order in which columns leave a narrow table, the highest first, 0 for
    one that never leaves."""

    key: str
    name: Sentence
    shape: Shape
    least_wanted: int = 0


@dataclass(frozen=True, slots=True)
class Line:
    """One row: as many cells as columns, None for an empty one, and the keys of the jobs behind it."""

    key: str
    cells: tuple[Value | float | None, ...]
    jobs: tuple[int, ...] = ()
    faint: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """One table of an answer, with its title."""

    title: Sentence
    columns: tuple[Column, ...]
    lines: tuple[Line, ...]
