"""The outline of a player from above and in front, with the numbered marks it came with."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.papers.blocks import Whole
from app.papers.intake_ticket_facts import Face, Mark
from app.papers.pen import INK, WHITE, Pen
from app.papers.text import CENTRE, FINE, FINE_GREY, set_text
from app.trade.wording import Wording

CIRCLE = 2.15  # radius of a mark


@dataclass(frozen=True)
class PlayerOutline(Whole):
    """Top and front, ``across`` mm wide. Free places are for marks by pen."""

    across: float
    marks: tuple[Mark, ...]
    top_word: str
    front_word: str

    @property
    def _depth(self) -> float:
        return self.across * 0.4

    @property
    def _front(self) -> float:
        return self._depth + 2.9

    @property
    def _face(self) -> float:
        return self.across * 0.15

    @property
    def height(self) -> float:
        """Both faces, and the half of a mark at the lower edge."""
        return self._front + self._face + 1.4

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Faces, what is on the front, marks, names of the faces."""
        wide, front = self.across, top + self._front
        pen.frame(x, top, wide, self._depth, 0.8, radius=0.8)
        pen.frame(x, front, wide, self._face, 0.8, radius=0.8)
        middle, unit = front + self._face / 2, wide / 44
        pen.frame(x + 2.2 * unit, middle - unit, 2 * unit, 2 * unit, 0.5)
        pen.frame(x + 13 * unit, front + 1.2 * unit, 13 * unit, 1.6 * unit, 0.5, radius=0.4 * unit)
        for button in range(4):
            pen.ring(x + (14.1 + 3.1 * button) * unit, front + 4.6 * unit, 0.8 * unit, 0.5)
        pen.frame(x + 29 * unit, front + 1.3 * unit, 7 * unit, 2.4 * unit, 0.5)
        pen.ring(x + 40 * unit, middle, 1.5 * unit, 0.5)
        for word, at in ((self.top_word, top + self._depth / 2), (self.front_word, middle)):
            set_text(word, FINE_GREY, 14).draw(pen, x + wide + 3.4, at - 2.3)
        for number, mark in enumerate(self.marks, 1):
            if mark.face:
                box = (top, self._depth) if mark.face is Face.TOP else (front, self._face)
                self._mark(pen, number, x + wide * mark.across / 1000, box[0] + box[1] * mark.down / 1000)

    def _mark(self, pen: Pen, number: int, x: float, y: float) -> None:
        pen.disc(x, y, CIRCLE, WHITE)
        pen.ring(x, y, CIRCLE, 0.9, INK)
        figure = set_text(str(number), FINE.but(bold=True), 5, CENTRE)
        figure.draw(pen, x - 2.5, y - 2.15)


def player_outline(marks: Sequence[Mark], across: float, wording: Wording) -> PlayerOutline:
    """The outline with its faces named."""
    return PlayerOutline(across, tuple(marks), wording("top"), wording("front"))
