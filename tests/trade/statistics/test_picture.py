"""What a picture is made of, as data."""

from __future__ import annotations

from app.trade.sentence import Sentence
from app.trade.statistics.picture import (
    Axis,
    Bar,
    Bars,
    Cell,
    Course,
    Curve,
    Curves,
    Grid,
    Point,
    Scale,
    Series,
    marks_of,
)

WORD = Sentence("word")
AXIS = Axis(name=WORD, scale=Scale.COUNT)


def test_every_kind_of_panel_hands_out_its_marks_in_their_order():
    bar = Bar(key="a", name="A", value=1.0, told=WORD)
    assert marks_of(Bars(title=WORD, axis=AXIS, bars=(bar,))) == (bar,)
    curve = Curve(key="a", name="A", x=(0.0,), y=(1.0,), until=2.0, told=WORD)
    assert marks_of(Curves(title=WORD, x=AXIS, y=AXIS, curves=(curve,))) == (curve,)
    one, two = (Point(key=key, x=0.0, y=1.0, told=WORD) for key in "ab")
    series = (Series(key="a", name="A", points=(one,)), Series(key="b", name="B", points=(two,)))
    assert marks_of(Course(title=WORD, x=AXIS, y=AXIS, series=series)) == (one, two)
    cell = Cell(row=0, column=0, count=1, told=WORD)
    grid = Grid(title=WORD, rows_are=WORD, columns_are=WORD, rows=("a",), columns=("b",), cells=(cell,))
    assert marks_of(grid) == (cell,)
