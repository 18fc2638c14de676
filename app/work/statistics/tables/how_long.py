"""How long repairs last as tables: the groups, how many are still watched, and pairs of groups."""

from __future__ import annotations

from decimal import Decimal

from app.trade.sentence import Measure, Sentence
from app.trade.statistics.table import Column, Line, Shape, Table
from app.work.statistics.how_long import HowLong
from app.work.statistics.tables.heads import interval, named


def lasting_tables(answer: HowLong) -> tuple[Table, ...]:
    """The share that holds at the window, the numbers at risk, and log-rank tests of pairs."""
    return (_groups(answer), _at_risk(answer), _pairs(answer))


def _groups(answer: HowLong) -> Table:
    columns = (
        named(answer.question.by),
        Column("n", Sentence("Repairs"), Shape.COUNT),
        Column("came_back", Sentence("Came back"), Shape.COUNT, 1),
        Column("holds", Sentence("Hold {days} days", {"days": answer.question.window}), Shape.SHARE),
        *interval(2),
        Column("median", Sentence("Half came back within, days"), Shape.NUMBER, 3),
        Column("earliest", Sentence("at the earliest"), Shape.NUMBER, 4),
        Column("latest", Sentence("at the latest"), Shape.NUMBER, 4),
    )
    lines = tuple(
        Line(
            row.label,
            (
                row.name,
                row.n,
                row.came_back,
                row.holds,
                row.low,
                row.high,
                row.median,
                *row.curve.median_band(),
            ),
            row.jobs,
            row.few,
        )
        for row in answer.rows
    )
    return Table(Sentence("Share that holds, by group"), columns, lines)


def _at_risk(answer: HowLong) -> Table:
    marks = tuple(
        Column(
            f"day_{mark:g}",
            Sentence("{days} days", {"days": Measure(Decimal(f"{mark:g}"))}),
            Shape.COUNT,
            1 + at % 2 if 0 < at < len(answer.marks) - 1 else 0,
        )
        for at, mark in enumerate(answer.marks)
    )
    lines = tuple(Line(row.label, (row.name, *row.at_risk), row.jobs, row.few) for row in answer.rows)
    return Table(Sentence("Still watched after"), (named(answer.question.by), *marks), lines)


def _pairs(answer: HowLong) -> Table:
    columns = (
        Column("first", Sentence("Of two groups"), Shape.WORDS),
        Column("second", Sentence("against"), Shape.WORDS),
        Column("chi2", Sentence("Log-rank χ²"), Shape.NUMBER, 1),
        Column("p", Sentence("p"), Shape.P, 2),
        Column("adjusted", Sentence("Adjusted p"), Shape.P),
    )
    jobs = {row.name: row.jobs for row in answer.rows}
    lines = tuple(
        Line(
            f"pair {at}",
            (pair.first, pair.second, pair.chi2, pair.p, pair.adjusted),
            (*jobs[pair.first], *jobs[pair.second]),
        )
        for at, pair in enumerate(answer.pairs, start=1)
    )
    return Table(Sentence("Two groups against each other"), columns, lines)
