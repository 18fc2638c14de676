"""What a printed answer is told: its words as they are worded, its picture as data, its table as it stands."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from app.papers.list_facts import ListLine
from app.trade.statistics.picture import Picture


@dataclass(frozen=True, slots=True)
class AnswerColumn:
    """A column by its head; ``number`` aligns its figures. Where the table is too wide, the column with the highest
    ``least_wanted`` leaves first; one with 0 never does."""

    head: str
    number: bool = False
    least_wanted: int = 0


@dataclass(frozen=True, slots=True)
class AnswerTable:
    """A table with its title."""

    title: str
    columns: tuple[AnswerColumn, ...]
    lines: tuple[ListLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerFacts:
    """An answer of the book on a day. ``question`` is what was asked and ``asked`` of which jobs; ``said`` is what has
    to stand beside the answer; ``why`` and ``sources`` are what its numbers rest on."""

    question: str
    headline: str
    day: date
    asked: tuple[str, ...]
    picture: Picture
    table: AnswerTable | None
    said: tuple[str, ...]
    why: tuple[str, ...]
    sources: tuple[str, ...]
