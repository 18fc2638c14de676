"""The arrow keys: along a line, from line to line, to its ends."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPointF, QRectF, Qt

from app.screens.kit.plots.marks import Mark, Spot
from app.screens.kit.plots.walking import next_spot

K = Qt.Key


def spot(line: int, along: float) -> Spot:
    mark = Mark(panel=0, key=f"{line}-{along}", name="", told="")
    return Spot(mark=mark, line=line, along=along, at=QPointF(), rect=QRectF())


TWO_LINES = [spot(0, 0), spot(0, 1), spot(0, 2), spot(3, 0.9), spot(3, 5)]
BARS = [spot(0, 0), spot(1, 0), spot(2, 0)]


@pytest.mark.parametrize(
    ("at", "key", "to"),
    [
        (0, K.Key_Right, 1),
        (2, K.Key_Right, 2),  # the end of the line is the end
        (3, K.Key_Left, 3),
        (1, K.Key_Down, 3),  # the nearest of the next line
        (4, K.Key_Up, 2),
        (4, K.Key_Down, 4),
        (1, K.Key_End, 2),
        (4, K.Key_Home, 3),
        (-1, K.Key_Left, 0),  # from nowhere to the first
        (1, K.Key_A, 1),
    ],
)
def test_keys_go_along_a_line_and_to_the_nearest_of_the_next(at: int, key: Qt.Key, to: int) -> None:
    assert next_spot(TWO_LINES, at, key) == to


@pytest.mark.parametrize(
    ("key", "to"),
    [(K.Key_Down, 2), (K.Key_Right, 2), (K.Key_Left, 0), (K.Key_Up, 0), (K.Key_End, 2), (K.Key_Home, 0)],
)
def test_where_each_line_holds_one_mark_all_arrows_go_from_line_to_line(key: Qt.Key, to: int) -> None:
    assert next_spot(BARS, 1, key) == to


def test_nothing_to_walk_on_leaves_it_where_it_was() -> None:
    assert next_spot([], -1, K.Key_Down) == -1
