"""What tells marks apart on paper: fills of bars, dashes and markers of lines. Greys and shapes, no colour."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from app.papers.pen import BAND, INK, WHITE, Pen
from app.papers.pen import Ink as Grey
from app.trade.statistics.picture import Ink

OUTLINE = 0.5  # points
DARK: Grey = 0.55
HATCH = 1.1  # mm between two strokes


class Marker(StrEnum):
    """Shapes of dots."""

    DOT = "dot"
    SQUARE = "square"
    TRIANGLE = "triangle"
    RING = "ring"
    OPEN_SQUARE = "open square"
    OPEN_TRIANGLE = "open triangle"
    UP = "up"  # beyond the upper limit
    DOWN = "down"


@dataclass(frozen=True, slots=True)
class LineLook:
    """A line of a panel: its dash in mm (empty: solid), its ink and its marker."""

    dash: tuple[float, ...]
    grey: Grey
    marker: Marker


LINES = (
    LineLook((), INK, Marker.DOT),
    LineLook((2.4, 1.1), INK, Marker.SQUARE),
    LineLook((0.5, 0.9), INK, Marker.TRIANGLE),
    LineLook((), 0.5, Marker.RING),
    LineLook((3.2, 0.9, 0.6, 0.9), INK, Marker.OPEN_SQUARE),
    LineLook((1.2, 0.8), 0.45, Marker.OPEN_TRIANGLE),
)


def line_look(at: int) -> LineLook:
    """The look of the line with this place in its panel; after the last they begin again."""
    return LINES[at % len(LINES)]


def draw_bar(pen: Pen, x: float, y: float, width: float, height: float, ink: Ink) -> None:
    """A bar: dark where it stands out as more, hatched as less, open where it rests on few, else light."""
    fill = {Ink.MORE: DARK, Ink.PLAIN: BAND}.get(ink, WHITE)
    if width > 0:
        pen.block(x, y, width, height, fill)
    if ink is Ink.LESS:
        _hatch(pen, x, y, width, height)
    pen.frame(x, y, width, height, OUTLINE, INK)


def _hatch(pen: Pen, x: float, y: float, width: float, height: float) -> None:
    """Slanted strokes, each cut at the ends of the bar."""
    at = x - height
    while at < x + width:
        begin, end = max(at, x), min(at + height, x + width)
        if end > begin:
            pen.line(begin, y + height - (begin - at), end, y + height - (end - at), 0.4, INK)
        at += HATCH


def draw_interval(pen: Pen, x1: float, x2: float, y: float, half: float = 1.1) -> None:
    """A lying interval with its two ends."""
    pen.line(x1, y, x2, y, 1.0, INK)
    for x in (x1, x2):
        pen.line(x, y - half, x, y + half, 1.0, INK)


def draw_diamond(pen: Pen, x: float, y: float, half: float = 1.0) -> None:
    """An open diamond."""
    pen.shape(((x, y - half), (x + half, y), (x, y + half), (x - half, y)), WHITE, INK, 0.25)


def draw_marker(pen: Pen, x: float, y: float, marker: Marker, grey: Grey = INK, radius: float = 0.8) -> None:
    """A dot of one of the shapes."""
    match marker:
        case Marker.DOT:
            pen.disc(x, y, radius, grey)
        case Marker.RING:
            pen.disc(x, y, radius, WHITE)
            pen.ring(x, y, radius, 0.8, grey)
        case Marker.SQUARE | Marker.OPEN_SQUARE:
            half = radius * 0.9
            square = ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))
            pen.shape(square, grey if marker is Marker.SQUARE else WHITE, grey, 0.25)
        case _:
            down = -1 if marker is Marker.DOWN else 1
            size = radius * (1.5 if marker in (Marker.UP, Marker.DOWN) else 1.15)
            side = size * math.sqrt(3) / 2
            corners = ((x, y - down * size), (x + side, y + down * size / 2), (x - side, y + down * size / 2))
            pen.shape(corners, WHITE if marker is Marker.OPEN_TRIANGLE else grey, grey, 0.25)
