"""Better or worse over time as tables: the quarters, and the tests of a trend."""

from __future__ import annotations

from datetime import date

from app.trade.calendar.period import MONTHS_OF_A_QUARTER
from app.trade.sentence import Sentence
from app.trade.statistics.growth import TrendTest
from app.trade.statistics.table import Column, Line, Shape, Table
from app.work.statistics.over_time import OverTime


def course_tables(answer: OverTime) -> tuple[Table, ...]:
    """The quarters, the latest on top, then the tests."""
    return (_quarters(answer), _tests(answer))


def _quarters(answer: OverTime) -> Table:
    columns = (
        Column("quarter", Sentence("Quarter handed back"), Shape.WORDS),
        Column("came_back", Sentence("Came back"), Shape.COUNT),
        Column("could", Sentence("Of"), Shape.COUNT),
        Column("share", Sentence("Share"), Shape.SHARE),
        Column("lower", Sentence("Lower limit"), Shape.SHARE, 1),
        Column("upper", Sentence("Upper limit"), Shape.SHARE, 1),
        Column("stands", Sentence("On the chart"), Shape.WORDS, 2),
    )
    lines = tuple(
        Line(
            row.first.isoformat(),
            (
                quarter_words(row.first),
                row.came_back,
                row.could,
                row.share,
                None if row.share is None else row.low,
                None if row.share is None else row.high,
                _stands(row.share, row.outside),
            ),
            row.jobs,
        )
        for row in reversed(answer.rows)
    )
    return Table(Sentence("Quarter by quarter"), columns, lines)


def quarter_words(day: date) -> Sentence:
    """The quarter that a day lies in."""
    number = (day.month - 1) // MONTHS_OF_A_QUARTER + 1
    return Sentence("Quarter {number} of {year}", {"number": number, "year": str(day.year)})


def _stands(share: float | None, outside: bool) -> Sentence:
    if share is None:
        return Sentence("no repair")
    return Sentence("outside the limits") if outside else Sentence("within the limits")


def _tests(answer: OverTime) -> Table:
    columns = (
        Column("test", Sentence("Test of a trend"), Shape.WORDS),
        Column("statistic", Sentence("Statistic"), Shape.NUMBER, 1),
        Column("p", Sentence("p"), Shape.P, 2),
        Column("adjusted", Sentence("Adjusted p"), Shape.P),
        Column("points", Sentence("Points to"), Shape.WORDS),
    )
    tests = (
        ("laplace", Sentence("Laplace"), answer.laplace),
        ("military_handbook", Sentence("MIL-HDBK-189"), answer.military_handbook),
    )
    there = [(key, name, test) for key, name, test in tests if test is not None]
    lines = tuple(
        Line(key, (name, test.statistic, test.p, adjusted, _points(test)))
        for (key, name, test), adjusted in zip(there, answer.adjusted, strict=True)
    )
    return Table(Sentence("Tests of a trend"), columns, lines)


def _points(test: TrendTest) -> Sentence:
    return Sentence("more comebacks") if test.rising else Sentence("fewer comebacks")
