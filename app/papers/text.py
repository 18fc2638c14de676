"""The one door for text on paper: breaks lines, keeps every letter, finds a font for each.

Text is never markup here: runs carry their weight and ink as values, so nothing that a person types can set
type, open a file or break a page.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple, TypeAlias

from app.papers import bidi
from app.papers.fonts import Piece, cleaned, pieces, width
from app.papers.pen import INK, LABEL, POINT, Ink, Pen

ASCENT = 0.984  # of the size, from the top of a line to its baseline (Source Sans Pro, hhea)
SMALLEST = 9.0  # points: nothing on any paper is set smaller
LEFT, RIGHT, CENTRE = 0.0, 1.0, 0.5
_TOKENS = re.compile(r"\n|[ \u200b]+|[^ \u200b\n]+")
# A number does not part from its unit, a factor not from its sign; the space between them is then no break.
_UNITS = "[kMGmnµp]?(?:Ω|V|A|W|F|H|s|g|m|Hz|Vpp)|mm|cm|kg|µm|nm|min|h|d|°C|K|°|dB|%|EUR|USD|GBP|CHF"
_GLUED = re.compile(rf"(?<=[0-9]) (?=(?:{_UNITS})(?![\w]))|(?<=[×±≤≥]) (?=[0-9])")
_SOFT_BREAK = re.compile(r"(?<=[^\W\d][-–/])(?=[^\W\d])")


class Run(NamedTuple):
    """Text of one weight and ink."""

    text: str
    bold: bool = False
    ink: Ink = INK


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


class _Token(NamedTuple):
    text: str
    run: Run
    width: float  # mm


class Line(NamedTuple):
    """One line as it will be drawn: runs of pieces, and its width in mm."""

    parts: tuple[tuple[Ink, tuple[Piece, ...], float], ...]
    width: float


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
                lines[-1] = Line(parts, lines[-1].width + more)
        return replace(self, lines=tuple(lines))

    def split(self, room: float) -> tuple[TextBlock, TextBlock] | None:
        """The lines that fit into ``room`` and the rest; None where not one fits."""
        count = int((room + 0.01) / self.style.leading)
        if not 0 < count < len(self.lines):
            return None
        return replace(self, lines=self.lines[:count]), replace(self, lines=self.lines[count:])


def set_text(text: Text, style: Style, width: float, align: float = LEFT) -> TextBlock:
    """``text`` broken into lines of at most ``width`` mm. A word wider than that is broken too: nothing runs over."""
    lines = tuple(_drawn(tokens, style) for tokens in _broken(_tokens(runs(text, style), style), width))
    return TextBlock(lines, style, width, align)


def natural(text: Text, style: Style) -> float:
    """Width of ``text`` on one line, in mm."""
    return sum(width(cleaned(run.text), run.bold) for run in runs(text, style)) * style.scale


def one_line(text: Text, style: Style, width: float, align: float = LEFT, tail: str = "…") -> TextBlock:
    """The first line of ``text``, cut at ``width`` mm with ``tail`` where it is longer: labels only."""
    return cut(text, style, width, 1, align, tail)


def cut(text: Text, style: Style, width: float, most: int, align: float = LEFT, tail: str = "…") -> TextBlock:
    """At most ``most`` lines of ``text``; where there is more, the last ends with ``tail``."""
    lines = _broken(_tokens(runs(text, style), style), width)
    if len(lines) > most:
        last = list(lines[most - 1])
        run = last[-1].run if last else runs(text, style)[0]
        mark = _token(cleaned(tail), run, style)
        if most < len(lines) and last and lines[most]:
            last = [*last, _token(" ", run, style), *lines[most]]
        while last and sum(token.width for token in last) + mark.width > width:
            end = last.pop()
            if len(end.text) > 1:
                last.append(_token(end.text[:-1], end.run, style))
        while last and not last[-1].text.strip():
            last.pop()
        lines = [*lines[: most - 1], [*last, mark]]
    return TextBlock(tuple(_drawn(tokens, style) for tokens in lines), style, width, align)


def fitted(text: Text, style: Style, width: float, most: int = 1, align: float = LEFT) -> TextBlock:
    """``text`` at the largest size up to the style's that keeps it within ``most`` lines; never under 9 points."""
    size = style.size
    while True:
        block = set_text(text, style.but(size=size), width, align)
        if len(block.lines) <= most or size <= SMALLEST:
            return block
        size = max(SMALLEST, size - (0.5 if size <= 24 else 1))


def _token(text: str, run: Run, style: Style) -> _Token:
    return _Token(text, run, width(text, run.bold) * style.scale)


def _tokens(parts: Iterable[Run], style: Style) -> list[_Token]:
    out: list[_Token] = []
    for run in parts:
        for match in _TOKENS.finditer(_GLUED.sub("\u00a0", cleaned(run.text))):
            word = match.group()
            for piece in _SOFT_BREAK.split(word) if "-" in word or "–" in word or "/" in word else (word,):
                if piece is not word and out and out[-1].text and not out[-1].text.isspace():
                    out.append(_Token("", run, 0.0))  # a place where the line may break without a space
                out.append(_token(piece, run, style))
    return out


def _broken(tokens: Sequence[_Token], width: float) -> list[list[_Token]]:
    """Greedy lines. Tokens that touch without a space or a soft break between them stay together."""
    lines: list[list[_Token]] = [[]]
    filled = 0.0
    gap: list[_Token] = []
    at = 0
    while at < len(tokens):
        token = tokens[at]
        if token.text == "\n":
            lines.append([])
            filled, gap = 0.0, []
            at += 1
            continue
        if not token.text or token.text.isspace():
            if lines[-1] and token.text:
                gap.append(token)
            at += 1
            continue
        end = at
        while end < len(tokens) and tokens[end].text and not tokens[end].text.isspace():
            end += 1
        chunk = list(tokens[at:end])
        at = end
        across = sum(part.width for part in chunk)
        between = sum(part.width for part in gap)
        if filled + between + across <= width + 0.001:
            lines[-1] += [*gap, *chunk]
            filled += between + across
        else:
            if lines[-1]:
                lines.append([])
            filled = _placed(chunk, width, lines)
        gap = []
    return lines if len(lines) > 1 or lines[0] else []


def _placed(chunk: Sequence[_Token], width: float, lines: list[list[_Token]]) -> float:
    """Puts a chunk on a fresh line, broken between letters where it is wider; the width then filled."""
    filled = 0.0
    for token in chunk:
        if filled + token.width <= width + 0.001:
            lines[-1].append(token)
            filled += token.width
            continue
        scale = token.width / max(1.0, _thousandths(token))
        start = 0
        for end in range(1, len(token.text) + 1):
            across = _thousandths(token._replace(text=token.text[end - 1 : end])) * scale
            if filled + across > width and (filled or end - start > 1):
                if end - 1 > start:
                    lines[-1].append(_part(token, start, end - 1, scale))
                lines.append([])
                start, filled = end - 1, 0.0
            filled += across
        lines[-1].append(_part(token, start, len(token.text), scale))
    return filled


def _thousandths(token: _Token) -> float:
    return width(token.text, token.run.bold)


def _part(token: _Token, start: int, end: int, scale: float) -> _Token:
    part = token._replace(text=token.text[start:end])
    return part._replace(width=_thousandths(part) * scale)


def _drawn(tokens: Sequence[_Token], style: Style) -> Line:
    joined: list[Run] = []
    for token in tokens:
        if joined and joined[-1][1:] == token.run[1:]:
            joined[-1] = token.run._replace(text=joined[-1].text + token.text)
        else:
            joined.append(token.run._replace(text=token.text))
    if any(bidi.is_mixed(run.text) for run in joined):
        joined = _reordered(joined)
    parts = []
    for run in joined:
        letters = pieces(run.text, run.bold)
        parts.append((run.ink, letters, sum(piece.width for piece in letters) * style.scale))
    return Line(tuple(parts), sum(part[2] for part in parts))


def _reordered(joined: Sequence[Run]) -> list[Run]:
    """The runs of a line in the order in which they are drawn."""
    owner = [run for run in joined for _ in run.text]
    out: list[Run] = []
    for at, letter in bidi.drawing_order("".join(run.text for run in joined)):
        run = owner[at]
        if out and out[-1][1:] == run[1:]:
            out[-1] = run._replace(text=out[-1].text + letter)
        else:
            out.append(run._replace(text=letter))
    return out
