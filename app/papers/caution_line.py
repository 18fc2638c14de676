"""Safety notes as one line at the foot of a half: signs, then words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.papers.blocks import Whole
from app.papers.facts import Caution, Clause
from app.papers.line_breaks import Run
from app.papers.modification import clause_runs
from app.papers.pen import Pen
from app.papers.signs import draw_sign
from app.papers.text import FINE, FINE_GREY, LEFT, RIGHT, TextBlock, set_text
from app.trade.wording import Wording

SIGN = 9.0


@dataclass(frozen=True)
class CautionLine(Whole):
    """Safety notes at the foot of the half: their signs, then their words, and which half this is."""

    signs: tuple[Caution, ...]
    words: TextBlock
    width: float
    label: TextBlock

    @classmethod
    def of(cls, notes: Sequence[Caution], width: float, label: str, wording: Wording) -> CautionLine:
        """Notes as one paragraph beside their signs."""
        shown = {note.sign: note for note in notes if note.sign}
        about = set_text(label, FINE_GREY, 40, RIGHT)
        runs: list[Run] = []
        for note in notes:
            runs += clause_runs(Clause(note.title, note.text), wording)
            runs.append(Run(" "))
        room = width - len(shown) * (SIGN + 1.5) - 2 - about.widest - 4
        return cls(tuple(shown.values()), set_text(runs, FINE, room, LEFT), width, about)

    @property
    def height(self) -> float:
        """Hairline, words, or sign."""
        return max(1.7 + self.words.height, SIGN, 1.7 + self.label.height)

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Hairline, signs, words; the label on the last line."""
        pen.rule(x, top, self.width)
        across = x
        for note in self.signs:
            assert note.sign is not None
            draw_sign(pen, note.sign, across, top + 1.0, SIGN)
            across += SIGN + 1.5
        self.words.draw(pen, across + (1.5 if self.signs else 0.0), top + 1.3)
        self.label.draw(pen, x + self.width - self.label.width, top + self.height - self.label.height)
