"""Players that keep coming as tables: the groups, and the ten with most visits."""

from __future__ import annotations

from app.trade.sentence import Sentence
from app.trade.statistics.definition import Followed
from app.trade.statistics.table import Column, Line, Shape, Table
from app.work.statistics.keep_coming import KeepComing
from app.work.statistics.tables.heads import named


def coming_tables(answer: KeepComing) -> tuple[Table, ...]:
    """Later visits of each by group, and those with the most."""
    return (_groups(answer), _most(answer))


def _of_unit(answer: KeepComing) -> bool:
    return answer.question.followed is Followed.UNIT


def _groups(answer: KeepComing) -> Table:
    columns = (
        named(answer.question.by),
        Column("units", Sentence("Players") if _of_unit(answer) else Sentence("Transports"), Shape.COUNT),
        Column("visits", Sentence("Later visits"), Shape.COUNT),
        Column("year", Sentence("In the first year, each"), Shape.NUMBER),
        Column("low", Sentence("from"), Shape.NUMBER, 1),
        Column("high", Sentence("to"), Shape.NUMBER, 1),
    )
    lines = tuple(
        Line(
            row.label,
            (row.name, row.units, row.visits, row.year_mean, row.year_low, row.year_high),
            row.jobs,
            row.few,
        )
        for row in answer.rows
    )
    return Table(Sentence("Later visits by group"), columns, lines)


def _most(answer: KeepComing) -> Table:
    columns = (
        Column("name", Sentence("Player") if _of_unit(answer) else Sentence("Transport type"), Shape.WORDS),
        Column("serial", Sentence("Serial number"), Shape.WORDS, 2),
        Column("visits", Sentence("Visits"), Shape.COUNT),
        Column("first", Sentence("First handed back"), Shape.DAY, 1),
        Column("last", Sentence("Last taken in"), Shape.DAY),
    )
    lines = tuple(
        Line(f"most {row.id}", (row.name, row.serial, row.visits, row.first, row.last), row.jobs)
        for row in answer.most
    )
    return Table(Sentence("Those with most visits"), columns, lines)
