"""A grid of counts on paper: the darker a field, the more it counts, and each says its number."""

from __future__ import annotations

import math
from dataclasses import dataclass

from app.papers.blocks import Whole
from app.papers.fonts import Piece
from app.papers.pen import BAND, INK, WHITE, Pen
from app.papers.text import CENTRE, FINE, FINE_GREY, TextBlock, cut, one_line, set_text
from app.trade.statistics.picture import Grid
from app.trade.wording import Wording

NAMES = 0.28  # of the width, at most
FIELD = 6.6  # height
WIDEST, SLANT = 15.0, 55.0  # mm of a field; degrees of the words over it
LONGEST = 50.0  # mm of those words
LIGHT, DARK = 0.95, 0.30
HALF = 0.47  # where white figures stand out as well as dark ones


@dataclass(frozen=True)
class GridPanel(Whole):
    """The panel, set."""

    rows: tuple[TextBlock, ...]
    columns: tuple[TextBlock, ...]
    rows_are: TextBlock
    columns_are: TextBlock
    counts: tuple[tuple[int, int, TextBlock, float], ...]  # row, column, number, share of the largest
    left: float
    field: float
    width: float

    @property
    def height(self) -> float:
        """Slanted words, then the rows."""
        return self._above + sum(self._row(row) for row in self.rows) + 1.0

    @property
    def _above(self) -> float:
        longest = max((column.widest for column in self.columns), default=0.0)
        return longest * math.sin(math.radians(SLANT)) + 4.0

    @staticmethod
    def _row(name: TextBlock) -> float:
        return max(FIELD, name.height + 0.8)

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Words, then fields, then their numbers."""
        begin, left = top + self._above, x + self.left
        self.rows_are.draw(pen, x, begin - FINE.leading - 1.0)
        self.columns_are.draw(pen, x, top)
        for at, column in enumerate(self.columns):
            foot = left + (at + 0.5) * self.field + 0.9
            for line in column.lines:
                letters: list[Piece] = [piece for _, part, _ in line.parts for piece in part]
                pen.slanted(foot, begin - 1.2, SLANT, FINE.size, letters, INK)
        places = []
        for name in self.rows:
            high = self._row(name)
            places.append((begin, high))
            name.draw(pen, x, begin + (high - name.height) / 2)
            for at in range(len(self.columns)):
                pen.frame(left + at * self.field, begin, self.field, high, 0.35, BAND)
            begin += high
        for row, place, number, share in self.counts:
            y, high = places[row]
            grey = LIGHT - share * (LIGHT - DARK)
            pen.block(left + place * self.field, y, self.field, high, grey)
            pen.frame(left + place * self.field, y, self.field, high, 0.35, WHITE)
            number.draw(pen, left + place * self.field, y + (high - number.height) / 2)


def grid_panel(panel: Grid, width: float, wording: Wording) -> GridPanel:
    """The grid set in ``width`` mm. Words over the columns are slanted, so the last one needs room at its right."""
    rows = tuple(cut(wording.value(name), FINE, width * NAMES, 2) for name in panel.rows)
    columns = tuple(one_line(wording.value(name), FINE, LONGEST) for name in panel.columns)
    rows_are = one_line(wording(panel.rows_are), FINE_GREY, width * NAMES)
    left = max([rows_are.widest, *(row.widest for row in rows)]) + 3.0
    over = max((column.widest for column in columns[-1:]), default=0.0) * math.cos(math.radians(SLANT))
    field = min(WIDEST, (width - left - max(0.0, over - 4.0)) / max(1, len(columns)))
    most = max((cell.count for cell in panel.cells), default=1)
    counts = []
    for cell in panel.cells:
        share = cell.count / most
        ink = WHITE if LIGHT - share * (LIGHT - DARK) < HALF else INK
        words = wording.value(cell.count)
        number = set_text(words, FINE.but(ink=ink), field, CENTRE)
        counts.append((cell.row, cell.column, number, share))
    return GridPanel(
        rows,
        columns,
        rows_are,
        one_line(wording(panel.columns_are), FINE_GREY, left),
        tuple(counts),
        left,
        field,
        width,
    )
