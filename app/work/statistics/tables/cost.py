"""What comebacks cost as tables: guarantee work by group, and jobs that ended not repaired."""

from __future__ import annotations

from app.trade.sentence import Sentence
from app.trade.statistics.table import Column, Line, Shape, Table
from app.work.statistics.cost import Cost
from app.work.statistics.tables.heads import named


def cost_tables(answer: Cost) -> tuple[Table, ...]:
    """Guarantee work first."""
    return (_guarantee(answer), _unrepaired(answer))


def _guarantee(answer: Cost) -> Table:
    columns = (
        named(answer.question.by),
        Column("count", Sentence("Jobs"), Shape.COUNT),
        Column("hours", Sentence("Hours"), Shape.NUMBER),
        Column("parts", Sentence("Parts at cost"), Shape.MONEY, 1),
        Column("lost", Sentence("Not charged"), Shape.MONEY),
    )
    lines = tuple(
        Line(row.label, (row.name, row.count, row.hours, row.parts, row.lost), row.jobs)
        for row in answer.rows
    )
    return Table(Sentence("Guarantee work without charge"), columns, lines)


def _unrepaired(answer: Cost) -> Table:
    columns = (
        Column("outcome", Sentence("Ended"), Shape.WORDS),
        Column("count", Sentence("Jobs"), Shape.COUNT),
        Column("hours", Sentence("Hours"), Shape.NUMBER),
        Column("median", Sentence("Hours of the middle job"), Shape.NUMBER),
        Column("days", Sentence("Days here, middle job"), Shape.NUMBER, 1),
    )
    lines = tuple(
        Line(
            row.outcome.value,
            (Sentence(row.outcome.value), row.count, row.hours, row.median_hours, row.median_days),
            row.jobs,
        )
        for row in answer.unrepaired
    )
    return Table(Sentence("Jobs that ended not repaired"), columns, lines)
