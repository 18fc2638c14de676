"""Flags on paper: note, caution, stop, each with its own sign, edge and word, so that none depends on colour."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.papers.blocks import Block, Stack
from app.papers.facts import Flag, FlagLevel
from app.papers.flow import stack
from app.papers.line_breaks import Run
from app.papers.pen import INK, Pen
from app.papers.said import worded
from app.papers.signs import draw_level
from app.papers.text import FINE, Style, TextBlock, set_text
from app.trade.wording import Wording

BAR = 1.8
ORDER = (FlagLevel.STOP, FlagLevel.CAUTION, FlagLevel.NOTE)


@dataclass(frozen=True)
class FlagBlock:
    """One flag: sign, level word, sentence; framed and barred when it is more than a note."""

    level: FlagLevel
    text: TextBlock
    width: float
    sign: float
    first: bool = True

    @property
    def pad(self) -> float:
        """Room above and below the text."""
        return 1.4 if self.level is FlagLevel.NOTE else 1.3

    @property
    def height(self) -> float:
        """Of the text or the sign, with the room around."""
        return max(self.text.height + 2 * self.pad, self.sign + 2.0 if self.first else 0.0)

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Edge, sign and words."""
        if self.level is FlagLevel.NOTE:
            pen.line(x, top, x, top + self.height, 0.5, INK)
        else:
            heavy = self.level is FlagLevel.STOP
            pen.frame(x, top, self.width, self.height, 1.6 if heavy else 0.5)
            pen.block(x, top, BAR, self.height)
        left = x + BAR + 1.1
        if self.first:
            offset = 1.0 if self.height > self.sign + 3.5 else (self.height - self.sign) / 2
            draw_level(pen, self.level, left, top + offset, self.sign)
        self.text.draw(pen, left + self.sign + 1.9, top + (self.height - self.text.height) / 2 - 0.15)

    def split(self, room: float) -> tuple[Block, Block] | None:
        """Between lines of a sentence longer than a page."""
        parts = self.text.split(room - 2 * self.pad)
        if parts is None:
            return None
        head = FlagBlock(self.level, parts[0], self.width, self.sign, self.first)
        return head, FlagBlock(self.level, parts[1], self.width, self.sign, first=False)


def level_word(level: FlagLevel, wording: Wording) -> str:
    """The word that begins a flag's sentence, with its full stop."""
    if level is FlagLevel.STOP:
        return wording("Stop.")
    return wording("Caution.") if level is FlagLevel.CAUTION else wording("Note.")


def flag_block(
    flag: Flag, width: float, wording: Wording, style: Style = FINE, sign: float = 5.2
) -> FlagBlock:
    """A flag across ``width``."""
    room = width - BAR - 1.1 - sign - 1.9 - 2.5
    words = [Run(level_word(flag.level, wording) + " ", bold=True), Run(worded(flag.sentence, wording))]
    return FlagBlock(flag.level, set_text(words, style, room), width, sign)


def flag_list(flags: Sequence[Flag], width: float, wording: Wording) -> list[FlagBlock]:
    """Flags in order: stops first, then cautions, then notes, else as given."""
    ordered = sorted(flags, key=lambda flag: ORDER.index(flag.level))
    return [flag_block(flag, width, wording) for flag in ordered]


def flag_blocks(flags: Sequence[Flag], width: float, wording: Wording) -> Stack:
    """Flags in order, one below the other."""
    return stack(flag_list(flags, width, wording), 1.5)


def worst(flags: Sequence[Flag]) -> Flag | None:
    """The first flag of the highest level."""
    return min(flags, key=lambda flag: ORDER.index(flag.level), default=None)
