"""How the arrow keys go from mark to mark."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt

from app.screens.kit.plots.marks import Spot

_K = Qt.Key
_STEPS = {_K.Key_Left: -1, _K.Key_Right: 1, _K.Key_Up: -1, _K.Key_Down: 1}
WALKED = (*_STEPS, _K.Key_Home, _K.Key_End)


def next_spot(spots: Sequence[Spot], at: int, key: int) -> int:
    """The place in ``spots`` that ``key`` leads to from ``at`` (-1: from nowhere, to the first).

    Left and Right stay in a line, Up and Down go to the nearest mark of the next one, Home and End to the ends of the
    line. Where every line holds one mark, all four arrows go from line to line.
    """
    if not spots or key not in WALKED:
        return at
    if not 0 <= at < len(spots):
        return 0
    here = spots[at]
    lines = sorted({spot.line for spot in spots})
    single = len(lines) == len(spots)
    if key in (_K.Key_Home, _K.Key_End):
        line = range(len(spots)) if single else [i for i, s in enumerate(spots) if s.line == here.line]
        return line[0] if key == _K.Key_Home else line[-1]
    step = _STEPS[_K(key)]
    if key in (_K.Key_Up, _K.Key_Down) or single:
        to = lines.index(here.line) + step
        if not 0 <= to < len(lines):
            return at
        those = [i for i, spot in enumerate(spots) if spot.line == lines[to]]
        return min(those, key=lambda i: abs(spots[i].along - here.along))
    line = [i for i, spot in enumerate(spots) if spot.line == here.line]
    to = line.index(at) + step
    return line[to] if 0 <= to < len(line) else at
