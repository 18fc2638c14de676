"""Blocks: things of a known height that draw themselves, stacked, set side by side, and split where they must be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from app.papers.pen import HAIRLINE, INK, SPOT, Ink, Pen
from app.papers.text import FINE_GREY, RIGHT, SECTION, Style, Text, TextBlock, set_text

SPOT_START = 14.0  # mm of the spot colour at the start of a section rule
ABOVE_SECTION = 4.2


class Block(Protocol):
    """Anything that stands on a page."""

    @property
    def height(self) -> float:
        """Height in mm."""
        ...

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draws the block, its top left corner at x, top."""
        ...

    def split(self, room: float) -> tuple[Block, Block] | None:
        """The part that fits into ``room`` mm and the rest, or None where it cannot be split there."""
        ...


class Whole:
    """A block that is never split."""

    def split(self, room: float) -> tuple[Block, Block] | None:
        """Never."""
        return None


@dataclass(frozen=True)
class Gap:
    """Nothing, of a height."""

    height: float

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draws nothing."""

    def split(self, room: float) -> tuple[Block, Block] | None:
        """White at the foot of a page is worth nothing at the head of the next."""
        return Gap(max(room, 0.0)), Gap(0.0)


@dataclass(frozen=True)
class Rule(Whole):
    """A level line with the room it needs below."""

    width: float
    points: float = 0.4
    ink: Ink = HAIRLINE
    height: float = 0.0

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draws the line at the top."""
        pen.rule(x, top, self.width, self.points, self.ink)


@dataclass(frozen=True)
class Stack:
    """Blocks one below the other."""

    parts: tuple[Block, ...]

    @property
    def height(self) -> float:
        """Sum of the heights."""
        return sum(part.height for part in self.parts)

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draws each below the one before."""
        for part in self.parts:
            part.draw(pen, x, top)
            top += part.height

    def split(self, room: float) -> tuple[Block, Block] | None:
        """Between two parts, or inside the part that crosses. A heading is not left alone at the foot."""
        taken = 0.0
        for at, part in enumerate(self.parts):
            if taken + part.height <= room + 0.01:
                taken += part.height
                continue
            inside = part.split(room - taken)
            if inside is not None:
                head, rest = (*self.parts[:at], inside[0]), (inside[1], *self.parts[at + 1 :])
            else:
                head, rest = self.parts[:at], self.parts[at:]
            if not any(part.height > 0 and not isinstance(part, Gap | Rule | SectionHead) for part in head):
                return None
            return Stack(head), Stack(rest)
        return None


@dataclass(frozen=True)
class Shifted:
    """A block drawn ``across`` mm further right."""

    block: Block
    across: float

    @property
    def height(self) -> float:
        """The block's own."""
        return self.block.height

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draws the block."""
        self.block.draw(pen, x + self.across, top)

    def split(self, room: float) -> tuple[Block, Block] | None:
        """As the block."""
        parts = self.block.split(room)
        return parts and (Shifted(parts[0], self.across), Shifted(parts[1], self.across))


@dataclass(frozen=True)
class Beside:
    """Columns with a common top: each block with its distance from the left."""

    columns: tuple[tuple[float, Block], ...]

    @property
    def height(self) -> float:
        """Of the tallest."""
        return max((block.height for _, block in self.columns), default=0.0)

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draws all."""
        for across, block in self.columns:
            block.draw(pen, x + across, top)

    def split(self, room: float) -> tuple[Block, Block] | None:
        """Each column where it can; None when a column that does not fit cannot be split."""
        heads, rests = [], []
        for across, block in self.columns:
            if block.height <= room + 0.01:
                heads.append((across, block))
                continue
            parts = block.split(room)
            if parts is None:
                return None
            heads.append((across, parts[0]))
            rests.append((across, parts[1]))
        return (Beside(tuple(heads)), Beside(tuple(rests))) if rests else None


@dataclass(frozen=True)
class Quote:
    """Words of a person: in quotes, beside an upright bar of 1.2 points, 4.5 mm in."""

    words: TextBlock

    INDENT = 4.5

    @property
    def height(self) -> float:
        """Of the words."""
        return self.words.height

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Bar and words."""
        foot = top + self.height
        pen.line(x + 0.7, top + 0.2, x + 0.7, foot + 0.2, 1.2, INK)
        self.words.draw(pen, x + self.INDENT, top)

    def split(self, room: float) -> tuple[Block, Block] | None:
        """Between lines."""
        parts = self.words.split(room)
        return parts and (replace(self, words=parts[0]), replace(self, words=parts[1]))


@dataclass(frozen=True)
class SectionHead(Whole):
    """A section begins: hairline across, its first 14 mm in the spot colour, the title 5.1 below."""

    width: float
    title: TextBlock
    note: TextBlock | None = None
    text_from: float = 7.2

    TOP = 1.32  # from the rule to the top of the title's line

    @property
    def height(self) -> float:
        """From the rule to the first text."""
        lines = max(len(self.title.lines), len(self.note.lines) if self.note else 0)
        return self.text_from + (lines - 1) * self.title.style.leading

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Rule, title, and the note at the right."""
        pen.rule(x, top, self.width)
        pen.rule(x, top, min(SPOT_START, self.width), 1.8, SPOT)
        self.title.draw(pen, x, top + self.TOP)
        if self.note:
            self.note.draw(pen, x + self.width - self.note.width, top + self.TOP + 0.5)


def section_head(title: str, width: float, note: str = "", text_from: float = 7.2) -> SectionHead:
    """Head of a section, with a note in fine grey at the right. Text begins ``text_from`` below the rule."""
    if not note:
        return SectionHead(width, set_text(title, SECTION, width), None, text_from)
    beside = set_text(note, FINE_GREY, width * 0.6, RIGHT)
    return SectionHead(width, set_text(title, SECTION, width - beside.widest - 4), beside, text_from)


def section(title: str, width: float, *body: Block, note: str = "") -> Stack:
    """A section with its head."""
    return Stack((section_head(title, width, note), *body))


def lines(texts: Sequence[Text], style: Style, width: float) -> Stack:
    """Texts one below the other, empty ones left out."""
    return Stack(tuple(set_text(text, style, width) for text in texts if text))
