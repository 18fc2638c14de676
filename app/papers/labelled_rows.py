"""Rows of a label in grey and a value: information blocks, what was paid, what the player is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from app.papers.blocks import Block
from app.papers.pen import Pen
from app.papers.text import RIGHT, Style, Text, TextBlock, cut, natural, set_text


@dataclass(frozen=True)
class LabelledRows:
    """Labels in grey at the left, values at the right, ``pitch`` apart; with ``ruled`` a hairline above each."""

    width: float
    rows: tuple[tuple[TextBlock, TextBlock], ...]
    pitch: float
    ruled: bool = False
    clipped: bool = False  # whether a value was longer than its rows may be

    @property
    def height(self) -> float:
        """Sum of the rows."""
        return sum(self._row(row) for row in self.rows)

    def _row(self, row: tuple[TextBlock, TextBlock]) -> float:
        label, value = row
        more = max(len(label.lines), len(value.lines)) - 1
        return self.pitch + more * value.style.leading

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draws the rows; label and value share their first baseline."""
        for row in self.rows:
            label, value = row
            if self.ruled:
                pen.rule(x, top, self.width, 0.35)
            inset = max(0.0, (self.pitch - value.style.leading) / 2)
            label.draw(pen, x, top + inset + (value.style.size - label.style.size) * 0.347)
            value.draw(pen, x + self.width - value.width, top + inset)
            top += self._row(row)

    def split(self, room: float) -> tuple[Block, Block] | None:
        """Between rows; a row higher than the room inside its value."""
        taken = 0.0
        for at, row in enumerate(self.rows):
            if taken + self._row(row) <= room + 0.01:
                taken += self._row(row)
                continue
            if at:
                return replace(self, rows=self.rows[:at]), replace(self, rows=self.rows[at:])
            label, value = row
            parts = value.split(room - self.pitch + value.style.leading)
            if parts is None:
                return None
            rest = (replace(label, lines=()), parts[1])
            return replace(self, rows=((label, parts[0]),)), replace(self, rows=(rest, *self.rows[1:]))
        return None


def labelled_rows(
    pairs: Sequence[tuple[str, Text]],
    width: float,
    label: Style,
    value: Style,
    pitch: float,
    *,
    ruled: bool = False,
    most: int = 40,
) -> LabelledRows:
    """Rows of label and value. A long value wraps at the right, in at most ``most`` lines."""
    rows = []
    clipped = False
    for name, shown in pairs:
        left = set_text(name, label, width - 3 - min(natural(shown, value), width * 0.45))
        room = width - left.widest - 3
        rows.append((left, cut(shown, value, room, most, RIGHT)))
        clipped = clipped or len(set_text(shown, value, room).lines) > most
    return LabelledRows(width, tuple(rows), pitch, ruled, clipped)
