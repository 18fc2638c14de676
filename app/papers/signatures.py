"""Lines to sign on, with their words below and room above."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.papers.blocks import Whole
from app.papers.pen import INK, Pen
from app.papers.text import FINE_GREY, TextBlock, set_text


@dataclass(frozen=True)
class SignatureLines(Whole):
    """Lines beside each other: distance from the left, length, words. ``room`` is free above them."""

    lines: tuple[tuple[float, float, TextBlock], ...]
    room: float

    @property
    def height(self) -> float:
        """Room, line and words."""
        return self.room + 1.0 + max(words.height for _, _, words in self.lines)

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Lines and words."""
        for across, length, words in self.lines:
            pen.rule(x + across, top + self.room, length, 0.8, INK)
            words.draw(pen, x + across, top + self.room + 0.8)


def signature_lines(lines: Sequence[tuple[float, float, str]], room: float) -> SignatureLines:
    """Lines given as distance from the left, length and words."""
    return SignatureLines(
        tuple((across, length, set_text(words, FINE_GREY, length)) for across, length, words in lines), room
    )
