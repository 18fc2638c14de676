"""The line under a panel that says what its shapes mean: only those that stand in it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from app.papers.blocks import Whole
from app.papers.pen import Pen
from app.papers.text import FINE, TextBlock, cut

SAMPLE = 9.0  # mm
BESIDE, APART, ROW = 1.8, 6.0, 5.0
Draw = Callable[[Pen, float, float], None]  # from x over SAMPLE mm, around the middle y


@dataclass(frozen=True)
class Legend(Whole):
    """Samples with their words, in as many rows as they need."""

    entries: tuple[tuple[float, float, Draw, TextBlock], ...]  # across, down
    height: float

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Each sample in the middle of its first line."""
        for across, down, sample, words in self.entries:
            sample(pen, x + across, top + down + FINE.leading / 2)
            words.draw(pen, x + across + SAMPLE + BESIDE, top + down)


def legend(entries: Sequence[tuple[Draw, str]], width: float) -> Legend:
    """Entries side by side as far as they fit; long words take two lines."""
    placed, across, down, tallest = [], 0.0, 0.0, 0.0
    for sample, text in entries:
        words = cut(text, FINE, width - SAMPLE - BESIDE, 2)
        needed = SAMPLE + BESIDE + words.widest
        if across and across + needed > width:
            across, down, tallest = 0.0, down + tallest, 0.0
        placed.append((across, down, sample, words))
        across += needed + APART
        tallest = max(tallest, words.height + ROW - FINE.leading)
    return Legend(tuple(placed), down + tallest)
