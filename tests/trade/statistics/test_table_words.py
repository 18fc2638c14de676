"""Tables in words and figures, and as plain text for a spreadsheet."""

from __future__ import annotations

from datetime import UTC, date
from decimal import Decimal

import pytest

from app.trade.money import Money
from app.trade.sentence import Measure, Sentence
from app.trade.statistics.table import Column, Line, Shape, Table
from app.trade.statistics.table_words import cell_words, csv_sheet, tab_separated
from app.trade.upkeep.csv_text import Mark
from app.trade.wording import Wording, plain

ENGLISH = plain(UTC)
GERMAN = Wording(lambda key: key, "de", UTC)
DAY = date(2026, 3, 1)


@pytest.mark.parametrize(
    ("shape", "cell", "english", "german"),
    [
        (Shape.WORDS, "Velk A1", "Velk A1", "Velk A1"),
        (Shape.WORDS, Sentence("with"), "with", "with"),
        (Shape.COUNT, 12345, "12\u202f345", "12\u202f345"),
        (Shape.SHARE, 0.27083, "27.1\u00a0%", "27,1\u00a0%"),
        (Shape.SHARE, 1, "100.0\u00a0%", "100,0\u00a0%"),
        (Shape.SHARE, -0.0073, "\u22120.7\u00a0%", "\u22120,7\u00a0%"),
        (Shape.NUMBER, 0.125, "0.13", "0,13"),
        (Shape.NUMBER, Decimal("448.25"), "448.25", "448,25"),
        (Shape.NUMBER, Measure(Decimal("50.0"), "mA"), "50.0\u00a0mA", "50,0\u00a0mA"),
        (Shape.P, 0.0066, "0.0066", "0,0066"),
        (Shape.P, 1, "1.00", "1,00"),
        (Shape.P, 1e-9, "under 0.0001", "under 0,0001"),
        (Shape.DAY, DAY, "1\u00a0Mar\u00a02026", "1.\u00a0März\u00a02026"),
        (Shape.MONTH, DAY, "March\u00a02026", "März\u00a02026"),
        (Shape.MONEY, Money(123456, "EUR"), "1\u202f234.56\u00a0EUR", "1\u202f234,56\u00a0EUR"),
        (Shape.NUMBER, None, "", ""),
    ],
)
def test_a_cell_as_people_read_it(shape, cell, english, german):
    column = Column("x", Sentence("Head"), shape)
    assert cell_words(column, cell, ENGLISH) == english
    assert cell_words(column, cell, GERMAN) == german


def a_table(title="Rates"):
    columns = (
        Column("name", Sentence("Type"), Shape.WORDS),
        Column("count", Sentence("Jobs"), Shape.COUNT),
        Column("share", Sentence("Share"), Shape.SHARE),
        Column("net", Sentence("Sum"), Shape.MONEY),
    )
    lines = (
        Line("a", ("=SUM(A1)\tx", 12345, -0.25, Money(123456, "EUR"))),
        Line("b", (Sentence("not known"), 0, None, None)),
    )
    return Table(Sentence(title), columns, lines)


def test_tables_to_paste_have_tabs_plain_numbers_and_no_formula():
    assert tab_separated([a_table(), a_table("Again")], ENGLISH).splitlines()[:5] == [
        "Rates",
        "Type\tJobs\tShare\tSum",
        "'=SUM(A1) x\t12345\t-25.0 %\t1234.56 EUR",
        "not known\t0\t\t",
        "",
    ]
    assert tab_separated([], ENGLISH) == ""


def test_a_file_of_tables_has_whole_numbers_with_the_mark_asked_for():
    readings = Table(
        Sentence("Readings"),
        (Column("value", Sentence("Value"), Shape.NUMBER), Column("names", Sentence("Names"), Shape.WORDS)),
        (
            Line("a", (Measure(Decimal("50.5"), "mA"), ("one", "two"))),
            Line("b", (Measure(Decimal(2), "V"), "x")),
            Line("c", (0.1, "x")),
        ),
    )
    text = csv_sheet([a_table(), readings], GERMAN, Mark.COMMA)
    assert text.removeprefix("\ufeff").split("\r\n") == [
        "Type;Jobs;Share;Sum in EUR",
        "'=SUM(A1)\tx;12345;-0,25;1234,56",
        "not known;0;;",
        "",
        "Readings",
        "Value;Unit;Names",
        "50,5;mA;one, two",
        "2;V;x",
        "0,1;;x",
        "",
    ]
    assert csv_sheet([], ENGLISH, Mark.POINT) == ""
