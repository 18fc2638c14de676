"""Frames for what must not be overlooked: the go-ahead limit."""

from __future__ import annotations

from dataclasses import dataclass

from app.papers.blocks import Stack, Whole
from app.papers.pen import INK, Pen


@dataclass(frozen=True)
class Framed(Whole):
    """A block in a frame of 1.2 points."""

    inside: Stack
    width: float
    pad: float = 3.0
    above: float = 1.6
    below: float = 1.8

    @property
    def height(self) -> float:
        """With the room above and below."""
        return self.inside.height + self.above + self.below

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Frame and block."""
        pen.frame(x, top, self.width, self.height, 1.2, INK)
        self.inside.draw(pen, x + self.pad, top + self.above)
