"""The table of an answer on paper: columns leave where they have no room, and it can be cut after any row."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.papers.answer_facts import AnswerColumn, AnswerTable
from app.papers.blocks import SectionHead, Stack, section_head
from app.papers.list_facts import ListColumn
from app.papers.list_paper import shares
from app.papers.tables import BESIDE, Column, Table, table
from app.papers.text import FINE_GREY, TABLE, natural

MOST_ROWS, FEWEST_ROWS = 15, 3
LEAST = 9.0  # mm of a column


@dataclass(frozen=True)
class AnswerRows:
    """The table, set: its first rows, and how many rows there are in all."""

    head: SectionHead
    content: Table
    there: int

    @property
    def most(self) -> int:
        """How many rows can be printed."""
        return len(self.content.rows)

    def height(self, count: int) -> float:
        """Of the first ``count`` rows under their heads."""
        return self.first(count).height

    def first(self, count: int) -> Stack:
        """The first ``count`` rows under their heads."""
        return Stack((self.head, self.content.head, *self.content.rows[:count]))


def answer_rows(facts: AnswerTable, width: float) -> AnswerRows:
    """The first rows of a table set in ``width`` mm."""
    lines = [
        (*line.cells, *[""] * (len(facts.columns) - len(line.cells))) for line in facts.lines[:MOST_ROWS]
    ]
    kept = _kept(facts.columns, lines, width)
    columns = [facts.columns[at] for at in kept]
    rows = [tuple(line[at] for at in kept) for line in lines]
    plain = [Column(column.head, decimal=column.number) for column in columns]
    return AnswerRows(
        section_head(facts.title, width, text_from=8.6),
        table(plain, rows, width, _widths(columns, rows, width)),
        len(facts.lines),
    )


def _kept(columns: Sequence[AnswerColumn], rows: Sequence[Sequence[str]], width: float) -> list[int]:
    """The places of the columns that have room without breaking a word of any."""
    kept = list(range(len(columns)))
    least = [_least(column, [row[at] for row in rows]) for at, column in enumerate(columns)]
    while sum(least[at] for at in kept) > width and any(columns[at].least_wanted for at in kept):
        kept.remove(max(kept, key=lambda at: (columns[at].least_wanted, at)))
    return kept


def _least(column: AnswerColumn, cells: Sequence[str]) -> float:
    """What a column needs: a figure stands on one line, words may take several."""
    parts = cells if column.number else [word for cell in cells for word in cell.split()]
    heads = max((natural(word, FINE_GREY) for word in column.head.split()), default=0.0)
    return max([heads, *(natural(part, TABLE) for part in parts), LEAST]) + BESIDE


def _widths(columns: Sequence[AnswerColumn], rows: Sequence[Sequence[str]], width: float) -> list[float]:
    """Room shared evenly where all stands on one line, else by what needs it most."""
    whole = [
        max([natural(column.head, FINE_GREY), *(natural(row[at], TABLE) for row in rows), LEAST]) + 2 * BESIDE
        for at, column in enumerate(columns)
    ]
    spare = width - sum(whole)
    if spare < 0:
        return shares([ListColumn(column.head, column.number) for column in columns], rows, width)
    return [one + spare / len(whole) for one in whole]
