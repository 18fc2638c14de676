"""The signs, our own vector drawings in a square of 100 units, redrawn from the idea of the standards.

Warning signs after ISO 7010 W001, W004, W012 and W017, static after IEC 60417-5134, plug after ISO 7010 M006, class II
after IEC 60417-5172. Colour says nothing alone: every sign is told by its shape in grey as well.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from app.papers.facts import FlagLevel, Sign
from app.papers.pen import BLUE, INK, SPOT, WHITE, YELLOW, Ink, Pen, Points

HUNDRED = 100.0


class Square:
    """A square of 100 units on the page: places and lengths in units, drawn at ``size`` mm."""

    def __init__(self, pen: Pen, x: float, y: float, size: float) -> None:
        self.pen = pen
        self.x = x
        self.y = y
        self.unit = size / HUNDRED

    def at(self, points: Points) -> list[tuple[float, float]]:
        """Points in mm on the page."""
        return [(self.x + x * self.unit, self.y + y * self.unit) for x, y in points]

    def shape(
        self, points: Points, fill: Ink | None = INK, stroke: Ink | None = None, width: float = 0
    ) -> None:
        """A closed shape; a stroke rounds its corners."""
        self.pen.shape(self.at(points), fill, stroke, width * self.unit)

    def line(self, points: Points, width: float, ink: Ink = INK, cap: int = 0) -> None:
        """An open line."""
        self.pen.polyline(self.at(points), width * self.unit, ink, cap)

    def disc(self, x: float, y: float, radius: float, ink: Ink = INK) -> None:
        """A filled circle."""
        ((across, down),) = self.at([(x, y)])
        self.pen.disc(across, down, radius * self.unit, ink)


def draw_sign(pen: Pen, sign: Sign, x: float, y: float, size: float, *, colour: bool = True) -> None:
    """A safety sign, its square's top left corner at x, y. Without ``colour`` for labels of one colour."""
    square = Square(pen, x, y, size)
    if sign is Sign.PLUG:
        _plug(square, BLUE if colour else INK)
    elif sign is Sign.CLASS_II:
        _class_ii(square)
    else:
        ground = YELLOW if colour else WHITE
        square.shape([(50, 13), (92.5, 87), (7.5, 87)], INK, INK, 14)
        square.shape([(50, 17.5), (88, 84.5), (12, 84.5)], ground, ground, 3.5)
        _INSIDE[sign](square, ground)


def _general(square: Square, ground: Ink) -> None:
    square.shape([(44, 35.5), (56, 35.5), (53.2, 64), (46.8, 64)])
    square.disc(50, 73.5, 5.2)


def _laser(square: Square, ground: Ink) -> None:
    x, y = 42.5, 63.0
    square.disc(x, y, 6.4)
    for ray in range(1, 16):
        angle = ray * math.tau / 16
        far = 18.5 if ray % 2 == 0 else 15.0
        square.line([(x, y), (x + far * math.cos(angle), y - far * math.sin(angle))], 1.9)
    square.line([(x, y), (81, y)], 2.4)


def _electric(square: Square, ground: Ink) -> None:
    square.shape(
        [(53, 31), (59.5, 32.4), (54, 50), (60.5, 48.4), (51, 69), (46.6, 67.2), (51.4, 56), (43, 58)]
    )
    square.shape([(41.6, 62.6), (55.4, 68.6), (45.4, 79.5)])


def _hot(square: Square, ground: Ink) -> None:
    for x in (38.5, 50.0, 61.5):
        square.line([(x - 2, 45), (x + 2.4, 50), (x - 2.6, 57), (x + 2.6, 63), (x - 0.5, 68)], 3.4, cap=1)
    square.shape([(29, 73.5), (71, 73.5), (71, 78.5), (29, 78.5)])


def _static(square: Square, ground: Ink) -> None:
    square.shape([(19.5, 84), (31, 67.5), (38, 65), (46, 73), (44, 80), (34, 84)])  # palm, from the corner
    for root, tip in (
        ((36, 68), (40, 51)),
        ((39, 69), (52, 57.5)),
        ((42, 72), (60, 67)),
        ((42, 77), (58, 77.5)),
    ):
        square.line([root, tip], 4.4, cap=1)
    for x, y in ((59.0, 45.5), (65.5, 54.5), (71.0, 64.0)):
        square.disc(x, y, 2.5)
    square.line([(38, 39), (77, 80.7)], 7.2, ground)  # a clear edge on both sides of the slash
    square.line([(38, 39), (77, 80.7)], 3.4)


_INSIDE: dict[Sign, Callable[[Square, Ink], None]] = {
    Sign.GENERAL: _general,
    Sign.LASER: _laser,
    Sign.ELECTRIC: _electric,
    Sign.STATIC: _static,
    Sign.HOT: _hot,
}


def _plug(square: Square, ground: Ink) -> None:
    square.disc(50, 50, 50, ground)
    square.shape([(17, 29), (25.5, 29), (25.5, 71), (17, 71)], WHITE)
    for y in (42.0, 58.0):
        square.line([(33, y), (48, y)], 5, WHITE)
    square.shape([(46, 34), (58, 34), (68, 43), (68, 57), (58, 66), (46, 66)], WHITE)
    square.line([(66, 50), (86, 50)], 5.4, WHITE)


def _class_ii(square: Square) -> None:
    side = HUNDRED * square.unit
    inner = 0.52 * side
    edge = (side - inner) / 2
    square.pen.frame(square.x, square.y, side, side, 0.9)
    square.pen.frame(square.x + edge, square.y + edge, inner, inner, 0.9)


def draw_level(pen: Pen, level: FlagLevel, x: float, y: float, size: float) -> None:
    """The sign of a flag's level: open circle with i, open triangle with !, black octagon with a white bar."""
    square = Square(pen, x, y, size)
    if level is FlagLevel.NOTE:
        pen.ring(x + size / 2, y + size / 2, size * 0.46, max(0.7, size * 0.16))
        square.disc(50, 29, 6.5)
        square.shape([(44.5, 42), (55.5, 42), (55.5, 76), (44.5, 76)])
    elif level is FlagLevel.CAUTION:
        square.shape([(50, 9), (96, 89), (4, 89)], None, INK, 5)
        square.shape([(44.6, 37), (55.4, 37), (52.8, 65), (47.2, 65)])
        square.disc(50, 75, 5)
    else:
        corner = HUNDRED * (1 - 1 / math.sqrt(2)) / 1  # octagon cut from the square
        near, far = corner, HUNDRED - corner
        ring = [(near, 0), (far, 0), (100, near), (100, far), (far, 100), (near, 100), (0, far), (0, near)]
        square.shape(ring)
        square.shape([(20, 41), (80, 41), (80, 59), (20, 59)], WHITE)


def draw_mark(pen: Pen, x: float, y: float, size: float) -> None:
    """The neutral mark of a shop without a logo: a disc with its track, ``size`` mm across."""
    middle_x, middle_y, radius = x + size / 2, y + size / 2, size / 2
    pen.ring(middle_x, middle_y, radius - 0.3, size * 0.13, SPOT)
    pen.disc(middle_x, middle_y, radius * 0.15, SPOT)
    pen.ring(middle_x, middle_y, radius * 0.36, size * 0.05, SPOT)
    for share, start, extent in (
        (0.56, 20.0, 120.0),
        (0.56, 200.0, 120.0),
        (0.74, 80.0, 75.0),
        (0.74, 260.0, 75.0),
    ):
        pen.arc(middle_x, middle_y, radius * share, start, extent, size * 0.05, SPOT)
