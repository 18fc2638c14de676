"""Tables without vertical lines: heads repeat on every page, rows stay whole, numbers align on the decimal mark."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

from app.papers.blocks import Block, Whole
from app.papers.flow import Flow
from app.papers.pen import HAIRLINE, INK, Pen
from app.papers.text import FINE_GREY, LEFT, RIGHT, TABLE, TextBlock, natural, set_text

BESIDE = 2.0  # mm that a column keeps free at its right, except the last
PAD = 1.1  # above and below the text of a row
_WHOLE = re.compile(r"[-+\u2212]?\d[\d\u202f]*")
CARRIED = 6.0  # height of the line "carried forward"


@dataclass(frozen=True)
class Column:
    """A column: its head, its least width, and how it stands. ``decimal`` aligns on the mark; ``most`` caps the width.

    A width of zero takes what the others leave.
    """

    head: str
    width: float = 0.0
    align: float = LEFT
    decimal: bool = False
    most: float = 40.0


@dataclass(frozen=True)
class Row:
    """Cells of one row, each with its place from the left, closed by a hairline."""

    cells: tuple[tuple[float, TextBlock], ...]
    width: float
    last: bool = True  # False for the first part of a row that is split

    @cached_property
    def height(self) -> float:
        """Of the tallest cell, with the room above and below."""
        return max(block.height for _, block in self.cells) + 2 * PAD

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Cells and hairline."""
        for across, block in self.cells:
            block.draw(pen, x + across, top + PAD)
        if self.last:
            pen.rule(x, top + self.height, self.width, 0.35, HAIRLINE)

    def split(self, room: float) -> tuple[Block, Block] | None:
        """Between lines: a row higher than a whole page."""
        heads, rests = [], []
        for across, block in self.cells:
            parts = block.split(room - 2 * PAD)
            if parts is None and block.height > room - 2 * PAD:
                return None
            heads.append((across, parts[0] if parts else block))
            rests.append((across, parts[1] if parts else set_text("", block.style, block.width)))
        return Row(tuple(heads), self.width, last=False), Row(tuple(rests), self.width, self.last)


@dataclass(frozen=True)
class Head(Whole):
    """Heads of the columns in fine grey, over a rule of 0.9 points."""

    cells: tuple[tuple[float, TextBlock], ...]
    width: float

    @property
    def height(self) -> float:
        """Down to the rule."""
        return max(block.height for _, block in self.cells) + 2.6

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Heads stand on the rule."""
        foot = top + self.height
        for across, block in self.cells:
            block.draw(pen, x + across, foot - 1.5 - block.height)
        pen.rule(x, foot, self.width, 0.9, INK)


@dataclass(frozen=True)
class Table:
    """A head and its rows, ready to be poured."""

    head: Head
    rows: tuple[Row, ...]


def table(
    columns: Sequence[Column],
    rows: Sequence[Sequence[str]],
    width: float,
    widths: Sequence[float] | None = None,
) -> Table:
    """Text of every cell, set. Columns grow to what stands in them as far as the open column leaves room, or are
    as wide as ``widths`` says."""
    widths = widths or _widths(columns, rows, width)
    starts = [sum(widths[:at]) for at in range(len(columns))]
    last = len(columns) - 1
    rooms = [across - (BESIDE if at < last else 0.0) for at, across in enumerate(widths)]
    fractions = [_fraction(column, [row[at] for row in rows]) for at, column in enumerate(columns)]
    heads = []
    for at, column in enumerate(columns):
        align = RIGHT if column.decimal else column.align
        heads.append((starts[at], set_text(column.head, FINE_GREY, rooms[at], align)))
    made = []
    for row in rows:
        cells = []
        for at, column in enumerate(columns):
            room = rooms[at]
            if column.decimal:
                room -= fractions[at] - after_mark(row[at])
            align = RIGHT if column.decimal else column.align
            cells.append((starts[at], set_text(row[at], TABLE, room, align)))
        made.append(Row(tuple(cells), width))
    return Table(Head(tuple(heads), width), tuple(made))


def _widths(columns: Sequence[Column], rows: Sequence[Sequence[str]], width: float) -> list[float]:
    widths = []
    for at, column in enumerate(columns):
        if not column.width:
            widths.append(0.0)
            continue
        keep = BESIDE if at < len(columns) - 1 else 0.0
        wide = max([natural(row[at], TABLE) for row in rows] + [natural(column.head, FINE_GREY)], default=0.0)
        if column.decimal:
            fraction = _fraction(column, [row[at] for row in rows])
            wide = (
                max([natural(row[at], TABLE) - after_mark(row[at]) for row in rows], default=0.0) + fraction
            )
        widths.append(max(column.width, min(wide, column.most) + keep))
    return [across or max(30.0, width - sum(widths)) for across in widths]


def after_mark(text: str) -> float:
    """Width of a number's decimal mark and what follows it, a unit as well; of words nothing."""
    whole = _WHOLE.match(text)
    return natural(text[whole.end() :], TABLE) if whole else 0.0


def _fraction(column: Column, texts: Sequence[str]) -> float:
    return max((after_mark(text) for text in texts), default=0.0) if column.decimal else 0.0


def pour_table(
    flow: Flow,
    content: Table,
    *,
    above: float = 0.0,
    carried: Callable[[int], str] | None = None,
    tail: float = 0.0,
    together: bool = False,
) -> None:
    """Puts a table on the pages of ``flow``; more in `pour_rows`."""
    pour_rows(flow, content.head, content.rows, above=above, carried=carried, tail=tail, together=together)


def pour_rows(
    flow: Flow,
    head: Head,
    rows: Sequence[Block],
    *,
    opening: Block | None = None,
    above: float = 0.0,
    carried: Callable[[int], str] | None = None,
    tail: float = 0.0,
    together: bool = False,
) -> None:
    """Puts rows on the pages of ``flow``, the head above them on each; ``opening`` stands over the first head.

    ``carried`` words the line under the last row of a page, told how many rows stand above it. ``tail`` is the
    height of what must stand on the page of the last row. No page begins with a last row that has no other
    before it. ``together``: all of them on one page, where one has room for them.
    """
    kept = len(rows) if together else 2
    first = sum(row.height for row in rows[:kept])
    over = opening.height if opening else 0.0
    begin = above + over + head.height + first + (tail if len(rows) <= kept else 0.0)
    if begin > flow.room and begin - above <= flow.whole:
        flow.turn()
        above = 0.0
    if opening:
        flow.put(opening, above)
        above = 0.0
    flow.put(head, above)
    for at, row in enumerate(rows):
        last = at == len(rows) - 1
        after = (tail if tail + head.height + row.height <= flow.whole else 0.0) if last else 0.0
        if not last and carried:
            after = CARRIED
        if at and at == len(rows) - 2 and row.height + rows[-1].height + tail + head.height <= flow.whole:
            after = rows[-1].height + tail
        if row.height + after > flow.room + 0.01:
            if carried and at:
                line = set_text(carried(at), FINE_GREY, flow.width, RIGHT)
                flow.pages[-1].put(line, flow.left, flow.top + 1.6)
            if at:
                flow.turn()
                flow.put(head)
        flow.put(row)
