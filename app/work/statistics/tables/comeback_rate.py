"""Comeback rates as tables: the groups, how each was counted, and two against each other."""

from __future__ import annotations

from app.trade.sentence import Sentence
from app.trade.statistics.table import Column, Line, Shape, Table
from app.work.statistics.comeback_rate import ComebackRates, RateRow
from app.work.statistics.tables.heads import interval, named


def rate_tables(answer: ComebackRates) -> tuple[Table, ...]:
    """The rates first; then what was counted, with comebacks confirmed, undecided and denied apart."""
    return (_rates(answer), _counted(answer), _pairs(answer))


def _rates(answer: ComebackRates) -> Table:
    columns = (
        named(answer.question.by),
        Column("came_back", Sentence("Came back"), Shape.COUNT),
        Column("could", Sentence("Of"), Shape.COUNT),
        Column("share", Sentence("Share"), Shape.SHARE),
        *interval(2),
        Column("rest", Sentence("The rest"), Shape.SHARE, 3),
        Column("verdict", Sentence("Against the rest"), Shape.WORDS),
        Column("p", Sentence("Adjusted p"), Shape.P, 4),
    )
    lines = tuple(
        Line(
            row.label,
            (
                row.name,
                row.came_back,
                row.could,
                row.share,
                None if row.share is None else row.low,
                None if row.share is None else row.high,
                row.rest_share,
                _verdict(row),
                None if row.few or row.rest_share is None else row.adjusted,
            ),
            row.jobs,
            row.few,
        )
        for row in answer.rows
    )
    return Table(Sentence("Share that came back, by group"), columns, lines)


def _verdict(row: RateRow) -> Sentence:
    if row.share is None:
        return Sentence("watched too short")
    return Sentence(row.verdict.value)


def _counted(answer: ComebackRates) -> Table:
    columns = (
        named(answer.question.by),
        Column("handed_back", Sentence("Handed back"), Shape.COUNT),
        Column("too_young", Sentence("Watched too short"), Shape.COUNT, 2),
        Column("not_counted", Sentence("Not repaired"), Shape.COUNT, 3),
        Column("set_aside", Sentence("Set aside"), Shape.COUNT, 4),
        Column("came_back", Sentence("Came back"), Shape.COUNT),
        Column("confirmed", Sentence("Confirmed"), Shape.COUNT),
        Column("undecided", Sentence("Undecided"), Shape.COUNT),
        Column("denied", Sentence("Denied"), Shape.COUNT),
    )
    lines = tuple(
        Line(
            row.label,
            (
                row.name,
                row.handed_back,
                row.too_young,
                row.not_counted,
                row.set_aside,
                row.came_back,
                row.confirmed,
                row.undecided,
                row.denied,
            ),
            row.came_back_jobs,
            row.few,
        )
        for row in answer.rows
    )
    return Table(Sentence("What was counted, and what the shop said of it"), columns, lines)


def _pairs(answer: ComebackRates) -> Table:
    columns = (
        Column("first", Sentence("Of two groups"), Shape.WORDS),
        Column("second", Sentence("against"), Shape.WORDS),
        Column("difference", Sentence("Difference"), Shape.SHARE),
        *interval(0),
        Column("apart", Sentence("Apart"), Shape.WORDS, 1),
    )
    jobs = {row.name: row.jobs for row in answer.rows}
    lines = tuple(
        Line(
            f"pair {at}",
            (
                pair.first,
                pair.second,
                pair.difference,
                pair.low,
                pair.high,
                Sentence("yes, on their own") if pair.low > 0 or pair.high < 0 else Sentence("cannot tell"),
            ),
            (*jobs[pair.first], *jobs[pair.second]),
        )
        for at, pair in enumerate(answer.pairs, start=1)
    )
    return Table(Sentence("Two groups against each other"), columns, lines)
