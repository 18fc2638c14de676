"""The one door for text on paper: breaks lines, keeps every letter, finds a font for each.

Text is never markup here: runs carry their weight and ink as values, so nothing that a person types can set
type, open a file or break a page.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TypeAlias

from app.papers.fonts import cleaned, pieces, width
from app.papers.line_breaks import Line, Run, broken, drawn, token, tokens_of
from app.papers.pen import INK, LABEL, POINT, Ink, Pen

ASCENT = 0.984  # of the size, from the top of a line to its baseline (Source Sans Pro, hhea)
SMALLEST = 9.0  # points: nothing on any paper is set smaller
LEFT, RIGHT, CENTRE = 0.0, 1.0, 0.5


@dataclass(frozen=True, slots=True)
class Style:
    """Size in points, leading in mm, and the weight and ink that plain text takes."""

    size: float
    leading: float
    bold: bool = False
    ink: Ink = INK

    def __post_init__(self) -> None:
        if self.size < SMALLEST:
            raise ValueError(f"type of {self.size} points is too small to read")

    @property
    def scale(self) -> float:
        """Millimetres for one thousandth of the size."""
        return self.size * POINT / 1000

    def but(self, size: float | None = None, bold: bool | None = None, ink: Ink | None = None) -> Style:
        """This style with another size (leading in proportion), weight or ink."""
        return replace(
            self,
            size=size or self.size,
            leading=self.leading * size / self.size if size else self.leading,
            bold=self.bold if bold is None else bold,
            ink=self.ink if ink is None else ink,
        )


FINE = Style(9.5, 4.2)
FINE_GREY = Style(9.5, 4.2, ink=LABEL)
TABLE = Style(10, 4.7)
BODY = Style(10.5, 4.7)
ADDRESS = Style(11, 5)
SECTION = Style(11, 4.7, bold=True)
FIRST = Style(14, 5.8, bold=True)
TITLE = Style(18, 7.4)

Text: TypeAlias = "str | Run | Sequence[Run]"


def runs(text: Text, style: Style) -> tuple[Run, ...]:
    """``text`` as runs; a plain string takes the weight and ink of ``style``."""
    if isinstance(text, str):
        return (Run(text, style.bold, style.ink),)
    return (text,) if isinstance(text, Run) else tuple(text)


@dataclass(frozen=True)
class TextBlock:
    """Lines of one style in a column of ``width`` mm. ``align`` is 0 left, 1 right, 0.5 centred."""

    lines: tuple[Line, ...]
    style: Style
    width: float
    align: float = LEFT

    @property
    def height(self) -> float:
        """Lines times leading."""
        return len(self.lines) * self.style.leading

    @property
    def widest(self) -> float:
        """Width of the widest line."""
        return max((line.width for line in self.lines), default=0.0)

    def draw(self, pen: Pen, x: float, top: float) -> None:
        """Draws the lines below ``top``."""
        size = self.style.size
        baseline = top + ASCENT * size * POINT
        for line in self.lines:
            at = x + (self.width - line.width) * self.align
            for ink, letters, across in line.parts:
                pen.letters(at, baseline, size, letters, ink)
                at += across
            for begin, end in line.struck:
                left, y = x + (self.width - line.width) * self.align, baseline - size * POINT * 0.26
                pen.line(left + begin, y, left + end, y, 0.7, INK)
            baseline += self.style.leading

    def shorter(self) -> TextBlock:
        """Without its last line; an ellipsis ends what is left where there is room for it."""
        lines = list(self.lines[:-1])
        if lines and lines[-1].parts:
            ink, letters, across = lines[-1].parts[-1]
            mark = pieces(" …", False)
            more = sum(piece.width for piece in mark) * self.style.scale
            if lines[-1].width + more <= self.width:
                parts = (*lines[-1].parts[:-1], (ink, (*letters, *mark), across + more))
                lines[-1] = Line(parts, lines[-1].width + more, lines[-1].struck)
        return replace(self, lines=tuple(lines))

    def split(self, room: float) -> tuple[TextBlock, TextBlock] | None:
        """The lines that fit into ``room`` and the rest; None where not one fits."""
        count = int((room + 0.01) / self.style.leading)
        if not 0 < count < len(self.lines):
            return None
        return replace(self, lines=self.lines[:count]), replace(self, lines=self.lines[count:])


def set_text(text: Text, style: Style, width: float, align: float = LEFT) -> TextBlock:
    """``text`` broken into lines of at most ``width`` mm. A word wider than that is broken too: nothing runs over."""
    lines = _set_plain(text, style, width) if isinstance(text, str) else _set(text, style, width)
    return TextBlock(lines, style, width, align)


def _set(text: Text, style: Style, width: float) -> tuple[Line, ...]:
    lines = broken(tokens_of(runs(text, style), style.scale), width)
    return tuple(drawn(line, style.scale) for line in lines)


@lru_cache(maxsize=1024)
def _set_plain(text: str, style: Style, width: float) -> tuple[Line, ...]:
    """As `_set`, kept: units, rates and quantities of a long table are a few words again and again."""
    return _set(text, style, width)


def natural(text: Text, style: Style) -> float:
    """Width of ``text`` on one line, in mm."""
    if isinstance(text, str):
        return width(cleaned(text), style.bold) * style.scale
    return sum(width(cleaned(run.text), run.bold) for run in runs(text, style)) * style.scale


def one_line(text: Text, style: Style, width: float, align: float = LEFT, tail: str = "…") -> TextBlock:
    """The first line of ``text``, cut at ``width`` mm with ``tail`` where it is longer: labels only."""
    return cut(text, style, width, 1, align, tail)


def cut(text: Text, style: Style, width: float, most: int, align: float = LEFT, tail: str = "…") -> TextBlock:
    """At most ``most`` lines of ``text``; where there is more, the last ends with ``tail``."""
    lines = broken(tokens_of(runs(text, style), style.scale), width)
    if len(lines) > most:
        last = list(lines[most - 1])
        run = last[-1].run if last else runs(text, style)[0]
        mark = token(cleaned(tail), run, style.scale)
        if most < len(lines) and last and lines[most]:
            last = [*last, token(" ", run, style.scale), *lines[most]]
        while last and sum(one.width for one in last) + mark.width > width:
            end = last.pop()
            if len(end.text) > 1:
                last.append(token(end.text[:-1], end.run, style.scale))
        while last and not last[-1].text.strip():
            last.pop()
        lines = [*lines[: most - 1], [*last, mark]]
    return TextBlock(tuple(drawn(line, style.scale) for line in lines), style, width, align)


def fitted(text: Text, style: Style, width: float, most: int = 1, align: float = LEFT) -> TextBlock:
    """``text`` at the largest size up to the style's that keeps it within ``most`` lines; never under 9 points."""
    size = style.size
    while True:
        block = set_text(text, style.but(size=size), width, align)
        if len(block.lines) <= most or size <= SMALLEST:
            return block
        size = max(SMALLEST, size - (0.5 if size <= 24 else 1))


def held(text: Text, style: Style, width: float, most: int = 1, align: float = LEFT) -> TextBlock:
    """As `fitted`, and cut where even the smallest type needs more lines: for places that cannot grow, where the
    whole stands elsewhere."""
    block = fitted(text, style, width, most, align)
    return block if len(block.lines) <= most else cut(text, block.style, width, most, align)
