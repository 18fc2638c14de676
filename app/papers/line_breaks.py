"""Lines broken: at spaces and soft hyphens, never between a number and its unit, inside a word only where it must."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import NamedTuple

from app.papers import bidi
from app.papers.fonts import Piece, cleaned, pieces, width
from app.papers.pen import INK, Ink

_TOKENS = re.compile(r"\n|[ \u200b]+|[^ \u200b\n]+")
# A number does not part from its unit, a factor not from its sign; the space between them is then no break.
_UNITS = "[kMGmnµp]?(?:Ω|V|A|W|F|H|s|g|m|Hz|Vpp)|mm|cm|kg|µm|nm|min|h|d|°C|K|°|dB|%|EUR|USD|GBP|CHF"
_GLUED = re.compile(rf"(?<=[0-9]) (?=(?:{_UNITS})(?![\w]))|(?<=[×±≤≥]) (?=[0-9])")
_SOFT_BREAK = re.compile(r"(?<=[^\W\d][-–/])(?=[^\W\d])")


class Run(NamedTuple):
    """Text of one weight and ink; ``struck`` draws a line through it."""

    text: str
    bold: bool = False
    ink: Ink = INK
    struck: bool = False


class Token(NamedTuple):
    """A word, a space, or (empty) a place where the line may break."""

    text: str
    run: Run
    width: float  # mm


class Line(NamedTuple):
    """One line as it will be drawn: runs of pieces, its width in mm, and from where to where it is struck."""

    parts: tuple[tuple[Ink, tuple[Piece, ...], float], ...]
    width: float
    struck: tuple[tuple[float, float], ...] = ()


def token(text: str, run: Run, scale: float) -> Token:
    """A token of cleaned text; ``scale`` is millimetres for a thousandth of the size."""
    return Token(text, run, width(text, run.bold) * scale)


def tokens_of(parts: Iterable[Run], scale: float) -> list[Token]:
    """Words, spaces, line ends and places for a soft break, in order."""
    out: list[Token] = []
    for run in parts:
        for match in _TOKENS.finditer(_GLUED.sub("\u00a0", cleaned(run.text))):
            word = match.group()
            for piece in _SOFT_BREAK.split(word) if "-" in word or "–" in word or "/" in word else (word,):
                if piece is not word and out and out[-1].text and not out[-1].text.isspace():
                    out.append(Token("", run, 0.0))  # a place where the line may break without a space
                out.append(token(piece, run, scale))
    return out


def broken(tokens: Sequence[Token], width: float) -> list[list[Token]]:
    """Greedy lines. Tokens that touch without a space or a soft break between them stay together."""
    lines: list[list[Token]] = [[]]
    filled = 0.0
    gap: list[Token] = []
    at = 0
    while at < len(tokens):
        one = tokens[at]
        if one.text == "\n":
            lines.append([])
            filled, gap = 0.0, []
            at += 1
            continue
        if not one.text or one.text.isspace():
            if lines[-1] and one.text:
                gap.append(one)
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


def _placed(chunk: Sequence[Token], width: float, lines: list[list[Token]]) -> float:
    """Puts a chunk on a fresh line, broken between letters where it is wider; the width then filled."""
    filled = 0.0
    for one in chunk:
        if filled + one.width <= width + 0.001:
            lines[-1].append(one)
            filled += one.width
            continue
        scale = one.width / max(1.0, _thousandths(one))
        start = 0
        for end in range(1, len(one.text) + 1):
            across = _thousandths(one._replace(text=one.text[end - 1 : end])) * scale
            if filled + across > width and (filled or end - start > 1):
                if end - 1 > start:
                    lines[-1].append(_part(one, start, end - 1, scale))
                lines.append([])
                start, filled = end - 1, 0.0
            filled += across
        lines[-1].append(_part(one, start, len(one.text), scale))
    return filled


def _thousandths(one: Token) -> float:
    return width(one.text, one.run.bold)


def _part(one: Token, start: int, end: int, scale: float) -> Token:
    part = one._replace(text=one.text[start:end])
    return part._replace(width=_thousandths(part) * scale)


def drawn(tokens: Sequence[Token], scale: float) -> Line:
    """One line ready to draw: right-to-left letters in their order, each letter in a face that has it."""
    joined = [
        Run("".join([one.text for one in alike]), *how) for how, alike in groupby(tokens, _weight_and_ink)
    ]
    if any(bidi.is_mixed(run.text) for run in joined):
        joined = _reordered(joined)
    parts, struck = [], []
    across = 0.0
    for run in joined:
        letters = pieces(run.text, run.bold)
        parts.append((run.ink, letters, sum(piece.width for piece in letters) * scale))
        if run.struck:
            struck.append((across, across + parts[-1][2]))
        across += parts[-1][2]
    return Line(tuple(parts), across, tuple(struck))


def _weight_and_ink(one: Token) -> tuple[bool, Ink, bool]:
    return one.run[1:]


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
