"""The frame of a panel with two axes: where values stand on the sheet, its grid and the words along it."""

from __future__ import annotations

from dataclasses import dataclass

from app.papers.pen import INK, Pen
from app.papers.plots.ruler import Ruler
from app.papers.text import CENTRE, FINE_GREY, RIGHT, natural, set_text

TICK = 0.9
UNDER = 5.4  # height of the words under the frame
GRID = 0.86


@dataclass(frozen=True, slots=True)
class Frame:
    """A plot of ``width`` by ``height`` mm with its top left corner at ``left``, ``top``."""

    x: Ruler
    y: Ruler
    left: float
    top: float
    width: float
    height: float

    def across(self, value: float) -> float:
        """Where a value of x stands."""
        return self.left + self.x.share(value) * self.width

    def down(self, value: float) -> float:
        """Where a value of y stands."""
        return self.top + (1 - self.y.share(value)) * self.height

    def draw_grid(self, pen: Pen) -> None:
        """Level lines at the marks of y with their words at the left, the axis of x with its words below."""
        for value, words in self.y.marks:
            y = self.down(value)
            pen.line(self.left, y, self.left + self.width, y, 0.4, GRID)
            set_text(words, FINE_GREY, 30, RIGHT).draw(pen, self.left - 31.4, y - FINE_GREY.leading / 2)
        foot = self.top + self.height
        pen.line(self.left, foot, self.left + self.width, foot, 0.6, INK)
        free = self.left - 8.0
        for value, words in self.x.marks:
            x = self.across(value)
            pen.line(x, foot, x, foot + TICK, 0.6, INK)
            half = natural(words, FINE_GREY) / 2
            if x - half >= free:
                set_text(words, FINE_GREY, 2 * half + 1, CENTRE).draw(pen, x - half - 0.5, foot + 1.1)
                free = x + half + 1.5


def words_at_left(ruler: Ruler) -> float:
    """The room that the words of an upright axis need."""
    return max((natural(words, FINE_GREY) for _, words in ruler.marks), default=0.0) + 1.8
