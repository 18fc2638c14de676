"""Boxes with words, ticked or open, as on the screen they were ticked on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.papers.blocks import Beside, Stack, Whole
from app.papers.facts import Tick
from app.papers.flow import stack
from app.papers.line_breaks import Run
from app.papers.pen import INK, Pen
from app.papers.said import worded
from app.papers.text import TABLE, Style, TextBlock, natural, set_text
from app.trade.wording import Wording

BOX = 3.3
WORDS = 4.9  # from the left edge of the box to its words


@dataclass(frozen=True)
class TickBlock(Whole):
    """One box and its words."""

    words: TextBlock
    ticked: bool

    @property
    def height(self) -> float:
        """Of the words."""
        return self.words.height

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """The box stands on the first line of the words."""
        box = top + (self.words.style.leading - BOX) / 2 + 0.05
        pen.frame(x, box, BOX, BOX, 0.7)
        if self.ticked:
            points = [(x + 0.65, box + 1.7), (x + 1.4, box + 2.5), (x + 2.75, box + 0.75)]
            pen.polyline(points, 0.5, INK)
        self.words.draw(pen, x + WORDS, top)


def tick_block(tick: Tick, width: float, wording: Wording, style: Style = TABLE) -> TickBlock:
    """A box with its words in a column of ``width``."""
    words = Run(worded(tick.text, wording), bold=tick.strong)
    return TickBlock(set_text(words, style, width - WORDS), tick.ticked)


def tick_columns(
    ticks: Sequence[Tick], width: float, wording: Wording, *, columns: int = 2, between: float = 1.45
) -> Stack:
    """Boxes in rows of ``columns``, read along the rows."""
    across = width / columns
    cells = [tick_block(tick, across - 3, wording) for tick in ticks]
    rows = [cells[at : at + columns] for at in range(0, len(cells), columns)]
    return stack([Beside(tuple((at * across, cell) for at, cell in enumerate(row))) for row in rows], between)


def tick_lines(ticks: Sequence[Tick], width: float, wording: Wording, *, gap: float = 5.0) -> list[Beside]:
    """Boxes one after the other, on as many lines as they need; one longer than a line wraps in itself."""
    lines: list[list[tuple[float, TickBlock]]] = [[]]
    filled = 0.0
    for tick in ticks:
        words = Run(worded(tick.text, wording), bold=tick.strong)
        across = min(width, WORDS + natural(words, TABLE) + 0.01)
        if lines[-1] and filled + gap + across > width:
            lines.append([])
            filled = 0.0
        at = filled + gap if lines[-1] else 0.0
        lines[-1].append((at, tick_block(tick, across, wording)))
        filled = at + across
    return [Beside(tuple(line)) for line in lines if line]
