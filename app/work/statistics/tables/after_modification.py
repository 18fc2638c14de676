"""After a modification as tables: the kinds of change against like standard repairs, and readings since."""

from __future__ import annotations

from itertools import groupby

from app.trade.sentence import Measure, Sentence
from app.trade.statistics.table import Column, Line, Shape, Table
from app.work.statistics.after_modification import AfterModification, ReadingPoint
from app.work.statistics.tables.heads import interval


def modified_tables(answer: AfterModification) -> tuple[Table, ...]:
    """The kinds first; then the first and the last reading of each transport that carries a change."""
    return (_kinds(answer), _readings(answer))


def _kinds(answer: AfterModification) -> Table:
    columns = (
        Column("kind", Sentence("Repair"), Shape.WORDS),
        Column("n", Sentence("Jobs"), Shape.COUNT, 1),
        Column("came_back", Sentence("Came back"), Shape.COUNT),
        Column("could", Sentence("Of"), Shape.COUNT),
        Column("share", Sentence("Share"), Shape.SHARE),
        *interval(2),
        Column("like", Sentence("Compared with"), Shape.COUNT, 3),
        Column("p", Sentence("Log-rank p"), Shape.P),
    )
    lines = tuple(
        Line(
            row.kind.name.lower(),
            (
                row.name,
                row.n,
                row.came_back,
                row.could,
                row.share,
                None if row.share is None else row.low,
                None if row.share is None else row.high,
                row.like or None,
                None if row.test is None else row.test.p,
            ),
            row.jobs,
            row.few,
        )
        for row in answer.rows
    )
    return Table(Sentence("Jobs with a change of ours, and standard repairs"), columns, lines)


def _readings(answer: AfterModification) -> Table:
    columns = (
        Column("transport", Sentence("Transport"), Shape.WORDS),
        Column("quantity", Sentence("Quantity"), Shape.WORDS),
        Column("count", Sentence("Readings"), Shape.COUNT, 1),
        Column("first_day", Sentence("First on"), Shape.DAY, 2),
        Column("first", Sentence("First value"), Shape.NUMBER),
        Column("last_day", Sentence("Last on"), Shape.DAY),
        Column("last", Sentence("Last value"), Shape.NUMBER),
    )
    return Table(
        Sentence("Readings of modified transports"),
        columns,
        tuple(
            _course(transport, quantity, list(points))
            for (transport, quantity), points in groupby(
                answer.readings, key=lambda point: (point.transport_id, point.quantity)
            )
        ),
    )


def _course(transport: int, quantity: str, points: list[ReadingPoint]) -> Line:
    first, last = points[0], points[-1]
    return Line(
        f"{transport} {quantity}",
        (
            first.transport,
            first.name,
            len(points),
            first.day,
            Measure(first.shown, first.unit),
            last.day,
            Measure(last.shown, last.unit),
        ),
        tuple(dict.fromkeys(point.job for point in points)),
    )
