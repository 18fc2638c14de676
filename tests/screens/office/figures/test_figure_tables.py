"""Tables of an answer on the screen."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from app.screens.kit.label import Label
from app.screens.office.figures.figure_tables import (
    MOST_LINES,
    FigureTables,
    columns_of,
    leaving_of,
    rows_of,
    tip_of,
)
from app.trade.money import Money
from app.trade.sentence import Measure, Sentence
from app.trade.statistics.table import Column, Line, Shape, Table
from tests.screens.office.conftest import lines


def table(*columns, cells=(), faint=False, count=1):
    return Table(
        Sentence("A table"),
        tuple(columns),
        tuple(Line(f"line {at}", tuple(cells), (at,), faint) for at in range(count)),
    )


def column(shape, key="x", least_wanted=0):
    return Column(key, Sentence("Head"), shape, least_wanted)


def test_numbers_stand_as_the_language_writes_them_units_soft_behind():
    shown = table(
        column(Shape.WORDS),
        column(Shape.COUNT),
        column(Shape.SHARE),
        column(Shape.P),
        column(Shape.MONEY),
        column(Shape.NUMBER),
        column(Shape.NUMBER),
        column(Shape.DAY),
        column(Shape.MONTH),
        column(Shape.NUMBER),
        cells=(
            Sentence("without"),
            12345,
            0.2708,
            0.00001,
            Money(12400, "EUR"),
            0.1234,
            Decimal("2.5"),
            date(2026, 3, 1),
            date(2026, 3, 1),
            Measure(Decimal("50.0"), "mA"),
        ),
    )
    (row,) = rows_of(shown)
    assert [cell.plain for cell in row.cells] == [
        "without",
        "12\u202f345",
        "27.1 %",
        "under 0.0001",
        "124.00 EUR",
        "0.12",
        "2.5",
        "1\u00a0Mar\u00a02026",
        "March\u00a02026",
        "50.0 mA",
    ]


def test_what_rests_on_few_is_soft_and_says_so():
    (row,) = rows_of(table(column(Shape.WORDS), column(Shape.SHARE), cells=("Murn A7", 0.0), faint=True))
    assert row.cells[0].soft
    assert row.cells[1].soft
    assert "too few" in row.cells[0].tip


def test_the_least_wanted_column_leaves_first():
    shown = table(
        column(Shape.WORDS), column(Shape.P, "a", 1), column(Shape.P, "b", 3), cells=("x", 1.0, 1.0)
    )
    assert [step.key for step in leaving_of(shown)] == ["b", "a"]
    assert columns_of(shown)[0].width == 0
    assert all(tip_of(key) for key in ("low", "high", "rest", "p", "adjusted"))


def test_a_long_table_is_cut_and_says_where_the_rest_is(qtbot):
    tables = FigureTables()
    qtbot.addWidget(tables)
    tables.show_tables([table(column(Shape.WORDS), cells=("x",), count=MOST_LINES + 7)])
    assert len(lines(tables.tables[0])) == MOST_LINES
    said = [label.text() for label in tables.findChildren(Label)]
    assert "7 more stand in the file and on the clipboard." in said


def test_marking_tells_the_line_also_when_it_was_marked_before(qtbot):
    tables = FigureTables()
    qtbot.addWidget(tables)
    assert tables.first() is tables
    tables.mark_first()
    shown = table(column(Shape.WORDS), cells=("x",), count=3)
    tables.show_tables([shown])
    told = []
    tables.marked.connect(lambda both: told.append(both[1].key))
    tables.mark_first()
    assert tables.mark("line 2")
    assert tables.mark("line 2")
    assert not tables.mark("another")
    assert told[-2:] == ["line 2", "line 2"]
    first = tables.tables[0]
    tables.show_tables([shown])
    assert tables.tables[0] is first
    assert first.marked_key() == "line 2"
