"""How the shop goes as tables: the stay, promises, work in hand, hours, turnover, and the weeks."""

from __future__ import annotations

from app.trade.sentence import Sentence
from app.trade.statistics.table import Column, Line, Shape, Table
from app.work.statistics.shop import AgeRow, Shop


def shop_tables(answer: Shop) -> tuple[Table, ...]:
    """The short ones first, the weeks last; months and weeks with the latest on top."""
    return (
        _stay(answer),
        _promises(answer),
        _in_hand(answer),
        _technicians(answer),
        _turnover(answer),
        _weeks(answer),
    )


def _stay(answer: Shop) -> Table:
    stay = answer.stay
    columns = (
        Column("what", Sentence("Days of jobs handed back"), Shape.WORDS),
        Column("n", Sentence("Jobs"), Shape.COUNT, 1),
        Column("median", Sentence("Half within"), Shape.NUMBER),
        Column("ninth_tenth", Sentence("9 of 10 within"), Shape.NUMBER),
    )
    lines = (
        Line("stay", (Sentence("in the shop"), stay.n, stay.median, stay.ninth_tenth)),
        Line(
            "waiting",
            (Sentence("of these, waiting"), stay.n, stay.waiting_median, stay.waiting_ninth_tenth),
        ),
    )
    return Table(Sentence("How long jobs stay"), columns, lines if stay.n else ())


def _promises(answer: Shop) -> Table:
    promises = answer.promises
    promised = promises.kept + promises.broken
    columns = (
        Column("what", Sentence("Promised day"), Shape.WORDS),
        Column("count", Sentence("Jobs"), Shape.COUNT),
        Column("share", Sentence("Share of those promised"), Shape.SHARE),
    )
    lines = (
        Line("kept", (Sentence("ready on the day promised"), promises.kept, _share(promises.kept, promised))),
        Line(
            "broken",
            (Sentence("ready later than promised"), promises.broken, _share(promises.broken, promised)),
            promises.broken_jobs,
        ),
        Line("without", (Sentence("without a promised day"), promises.without, None)),
    )
    return Table(Sentence("Promised days"), columns, lines if promised + promises.without else ())


def _share(part: int, whole: int) -> float | None:
    return part / whole if whole else None


def _in_hand(answer: Shop) -> Table:
    columns = (
        Column("age", Sentence("Taken in"), Shape.WORDS),
        Column("count", Sentence("Jobs"), Shape.COUNT),
    )
    lines = tuple(Line(f"age {row.least}", (age_words(row), row.count), row.jobs) for row in answer.in_hand)
    return Table(Sentence("Work in hand by age"), columns, lines)


def age_words(row: AgeRow) -> Sentence:
    """How long ago these jobs were taken in."""
    if row.most is None:
        return Sentence("{least} days ago and more", {"least": row.least})
    if not row.least:
        return Sentence("in the last {most} days", {"most": row.most})
    return Sentence("{least} to {most} days ago", {"least": row.least, "most": row.most})


def _technicians(answer: Shop) -> Table:
    columns = (
        Column("name", Sentence("Technician"), Shape.WORDS),
        Column("jobs", Sentence("Jobs"), Shape.COUNT),
        Column("hours", Sentence("Hours"), Shape.NUMBER),
    )
    lines = tuple(
        Line(f"hours {row.name}", (row.name, len(row.jobs), row.hours), row.jobs)
        for row in answer.technicians
    )
    return Table(Sentence("Working time"), columns, lines)


def _turnover(answer: Shop) -> Table:
    columns = (
        Column("month", Sentence("Month"), Shape.MONTH),
        Column("net", Sentence("Turnover without VAT"), Shape.MONEY),
    )
    lines = tuple(
        Line(f"month {row.first.isoformat()}", (row.first, row.net)) for row in reversed(answer.turnover)
    )
    return Table(Sentence("Turnover by month"), columns, lines)


def _weeks(answer: Shop) -> Table:
    columns = (
        Column("week", Sentence("Week from"), Shape.DAY),
        Column("taken_in", Sentence("Taken in"), Shape.COUNT),
        Column("handed_back", Sentence("Handed back"), Shape.COUNT),
    )
    lines = tuple(
        Line(row.first.isoformat(), (row.first, row.taken_in, row.handed_back), row.jobs)
        for row in reversed(answer.rows)
    )
    return Table(Sentence("In and out by week"), columns, lines)
