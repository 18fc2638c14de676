"""The shapes of letters as paths, read from the fonts of the papers, so that a picture looks the same in every program.

The tables head, maxp, loca and glyf of a TrueType font: OpenType specification, ISO/IEC 14496-22, chapter 5.
"""

from __future__ import annotations

import struct
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from reportlab.pdfbase import pdfmetrics

from app.papers.fonts import FILES, FOLDER, face
from app.trade.refusal import Fault

Spot = tuple[float, float, bool]  # x, y, and whether the curve goes through it
_ON, _X_SHORT, _Y_SHORT, _AGAIN, _X_SAME, _Y_SAME = 1, 2, 4, 8, 16, 32
_WORDS, _MOVED, _MORE, _STRETCHED = 1, 2, 32, 8 | 64 | 128


@dataclass(frozen=True, slots=True)
class Outlines:
    """A font file taken apart. ``units`` are what its em is divided into; y goes up."""

    data: bytes
    glyf: int
    loca: tuple[int, ...]
    units: int

    def path(self, glyph: int) -> str:
        """One glyph as the steps of a path; empty for one without ink."""
        return "".join(_steps(contour) for contour in self._contours(glyph))

    def _contours(self, glyph: int) -> list[list[Spot]]:
        at, end = self.glyf + self.loca[glyph], self.glyf + self.loca[glyph + 1]
        if at == end:
            return []
        (count,) = struct.unpack_from(">h", self.data, at)
        return self._simple(at + 10, count) if count >= 0 else self._composed(at + 10)

    def _simple(self, at: int, count: int) -> list[list[Spot]]:
        ends = struct.unpack_from(f">{count}H", self.data, at)
        (hints,) = struct.unpack_from(">H", self.data, at + 2 * count)
        at += 2 * count + 2 + hints
        total = ends[-1] + 1 if ends else 0
        flags: list[int] = []
        while len(flags) < total:
            flag, at = self.data[at], at + 1
            times = 1
            if flag & _AGAIN:
                times, at = self.data[at] + 1, at + 1
            flags += [flag] * times
        xs, at = self._places(flags, at, _X_SHORT, _X_SAME)
        ys, at = self._places(flags, at, _Y_SHORT, _Y_SAME)
        spots = [(x, y, bool(flag & _ON)) for x, y, flag in zip(xs, ys, flags, strict=True)]
        starts = [0, *(end + 1 for end in ends)]
        return [spots[start : end + 1] for start, end in zip(starts, ends, strict=False)]

    def _places(self, flags: list[int], at: int, short: int, same: int) -> tuple[list[float], int]:
        """One coordinate of all spots, each told by its distance from the one before."""
        place, places = 0.0, []
        for flag in flags:
            if flag & short:
                place += self.data[at] if flag & same else -self.data[at]
                at += 1
            elif not flag & same:
                place += struct.unpack_from(">h", self.data, at)[0]
                at += 2
            places.append(place)
        return places, at

    def _composed(self, at: int) -> list[list[Spot]]:
        """A letter made of others, each moved: ü of u and two dots. The fonts of the family stretch none."""
        contours: list[list[Spot]] = []
        flags = _MORE
        while flags & _MORE:
            flags, part = struct.unpack_from(">HH", self.data, at)
            if flags & _STRETCHED or not flags & _MOVED:
                raise Fault("a letter of a font is made in a way that is not read here")
            kind = ">hh" if flags & _WORDS else ">bb"
            dx, dy = struct.unpack_from(kind, self.data, at + 4)
            at += 4 + struct.calcsize(kind)
            for contour in self._contours(part):
                contours.append([(x + dx, y + dy, on) for x, y, on in contour])
        return contours


def _steps(contour: list[Spot]) -> str:
    """Straight lines and curves of the second degree. Between two spots off the curve lies one on it, in the middle."""
    full: list[Spot] = []
    for at, spot in enumerate(contour):
        before = contour[at - 1]
        if not spot[2] and not before[2]:
            full.append(((spot[0] + before[0]) / 2, (spot[1] + before[1]) / 2, True))
        full.append(spot)
    first = next(at for at, spot in enumerate(full) if spot[2])
    full = [*full[first:], *full[:first], full[first]]
    steps = [f"M{_n(full[0][0])} {_n(full[0][1])}"]
    at = 1
    while at < len(full):
        x, y, on = full[at]
        if on:
            steps.append(f"L{_n(x)} {_n(y)}")
        else:
            at += 1
            steps.append(f"Q{_n(x)} {_n(y)} {_n(full[at][0])} {_n(full[at][1])}")
        at += 1
    return "".join([*steps, "Z"])


def _n(number: float) -> str:
    return f"{number:.1f}".removesuffix(".0")


@lru_cache(maxsize=len(FILES))
def outlines_of(name: str) -> Outlines:
    """The outlines of a face, read on first use."""
    data = (FOLDER / FILES[name]).read_bytes()
    (count,) = struct.unpack_from(">H", data, 4)
    tables = {}
    for at in range(12, 12 + 16 * count, 16):
        tag, _, begin, _ = struct.unpack_from(">4sLLL", data, at)
        tables[tag] = begin
    (units,) = struct.unpack_from(">H", data, tables[b"head"] + 18)
    (long,) = struct.unpack_from(">h", data, tables[b"head"] + 50)
    (glyphs,) = struct.unpack_from(">H", data, tables[b"maxp"] + 4)
    shape = f">{glyphs + 1}{'L' if long else 'H'}"
    loca = tuple(place * (1 if long else 2) for place in struct.unpack_from(shape, data, tables[b"loca"]))
    return Outlines(data, tables[b"glyf"], loca, units)


def glyph_of(name: str, letter: str) -> int:
    """The number of the glyph that a face draws for a letter, of which it has a shape."""
    face(name)
    font: Any = pdfmetrics.getFont(name).face  # type: ignore[attr-defined]  # a TTFont
    return int(font.charToGlyph[ord(letter)])
