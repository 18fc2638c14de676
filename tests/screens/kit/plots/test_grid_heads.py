"""Heads of columns are never clipped and never run into each other."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QApplication

from app.screens.kit import measure
from app.screens.kit.plots.grid_heads import LINES, Way, lay_heads, letter, rise
from app.screens.kit.plots.wrapped import wrapped
from app.trade.sentence import Sentence
from app.trade.statistics.picture import Cell, Grid
from tests.screens.kit.plots.conftest import Shown

LONG = tuple(f"pick-up or lens unit renewed {i}" for i in range(10))
CELLS = tuple(Cell(row=0, column=i, count=i, told=Sentence("c")) for i in range(10))
TEN = Grid(
    title=Sentence("t"),
    rows_are=Sentence("r"),
    columns_are=Sentence("c"),
    rows=("a",),
    columns=LONG,
    cells=CELLS,
)

pytestmark = pytest.mark.usefixtures("qapp")


def test_few_heads_stand_level_in_as_many_lines_as_they_need() -> None:
    heads = lay_heads(("lens cleaned", "laser renewed and adjusted again"), 150, 500, 20)
    assert heads.way is Way.LEVEL
    assert heads.tall > 2 * measure.line()
    assert len(wrapped(heads.names[1], measure.body(), heads.wide, LINES)) >= 2


def test_long_heads_of_narrow_columns_slant_and_stay_within_the_page() -> None:
    heads = lay_heads(LONG, 150, 838, 20)
    assert heads.way is Way.SLANTED
    assert heads.wide >= 1.45 * measure.line()
    for i, head in enumerate(LONG):
        assert 150 + (i + 0.5) * heads.wide + rise(head) <= 838
        assert rise(head) <= heads.tall


def test_where_slanted_heads_would_touch_letters_stand_and_a_key_below() -> None:
    heads = lay_heads(LONG, 150, 480, 20)
    assert heads.way is Way.LETTERS
    assert heads.key > 0
    assert [entry.text for entry in heads.entries()] == list(LONG)
    assert [letter(i) for i in (0, 9, 25, 26)] == ["a", "j", "z", "aa"]


def test_without_columns_there_are_no_heads() -> None:
    assert lay_heads((), 150, 480, 20).tall == 0


def test_each_way_is_drawn(shown: Shown, qapp: QApplication) -> None:
    heights = {width: shown(TEN, width).height() for width in (1600, 838, 420)}
    assert len(set(heights.values())) == 3
    for width in heights:
        shown(TEN, width).grab()
    try:
        measure.set_text_size(qapp, 200)
        shown(TEN, 838).grab()
    finally:
        measure.set_text_size(qapp, 100)
