"""What a printed list is told: a table as it stood on the screen, with the words that say what it holds."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from app.papers.facts_json import Frozen


@dataclass(frozen=True)
class ListColumn(Frozen):
    """A column by its head; ``number`` aligns its figures on the decimal mark."""

    head: str
    number: bool = False


@dataclass(frozen=True)
class ListLine(Frozen):
    """One row, its cells as worded. ``over`` heads the rows below it: a word, and what is said behind it."""

    cells: tuple[str, ...]
    over: bool = False


@dataclass(frozen=True)
class ListFacts(Frozen):
    """The list of a page. ``about`` says which rows were asked for; ``more`` counts those that are not printed,
    and is below zero where only this is known: that there are some."""

    title: str
    day: date
    columns: tuple[ListColumn, ...]
    lines: tuple[ListLine, ...]
    about: tuple[str, ...] = ()
    more: int = 0
