"""The same life as rows: stays with their jobs, readings, modifications and renewed parts."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, tzinfo

from app.screens.bench.life_facts import span_at
from app.screens.bench.reading_rows import gauge_facts, limit_words, uncertainty_words, verdict_words
from app.screens.kit.cells import Cell, Column, Figure, Group, Link, Row, Words
from app.screens.kit.gauges import gauge
from app.screens.language import day, moment, number, say
from app.trade.calendar.promise import local_day
from app.work.bench.transport_life import LifeJob, LifeReading, TransportLife


def stay_columns() -> tuple[Column, ...]:
    """Jobs, grouped by the player that the transport was in."""
    return (
        Column("job", say("Job"), 80),
        Column("taken", say("Taken in"), 150),
        Column("values", say("Read in it"), 200),
        Column("fault", say("Fault and outcome"), least=160),
        Column("unit", "", 150),
    )


def stay_rows(
    life: TransportLife, readings: Sequence[LifeReading], today: date, zone: tzinfo
) -> list[Row | Group]:
    """The present stay first; under each its jobs with what was read in them."""
    rows: list[Row | Group] = []
    for at in range(len(life.spans) - 1, -1, -1):
        span = life.spans[at]
        since = local_day(span.since, zone)
        until = today if span.until is None else local_day(span.until, zone)
        days = (until - since).days
        serial = span.serial or say("no serial")
        if span.until is None:
            told = say("{serial}, since {since}, {days} days", serial=serial, since=day(since), days=days)
        else:
            told = say(
                "{serial}, {since} to {until}, {days} days",
                serial=serial,
                since=day(since),
                until=day(until),
                days=days,
            )
        if span.belongs_type:
            other = say("{type} belongs here", type=span.belongs_type)
            told = f"{told}, {other}"
        rows.append(Group(span.unit, told))
        of_stay = [r for r in readings if span_at(life.spans, r.at) == at]
        for nth, job in enumerate(reversed(span.jobs)):
            values = [r for r in of_stay if r.job_number == job.number]
            unit = Link(say("All of this player"), ("unit", span.unit_id)) if nth == 0 else None
            rows.append(_job_row(unit, job, values))
    return rows


def _job_row(unit: Link | None, job: LifeJob, values: list[LifeReading]) -> Row:
    read = ""
    if values:
        shown = [number(values[0].value), number(values[-1].value)]
        read = shown[-1] if len(values) == 1 else say("{first} to {last}", first=shown[0], last=shown[1])
        read = f"{read} {values[-1].unit}"
    cells: tuple[Cell, ...] = (
        Link(str(job.number), ("job", job.id)),
        Words(moment(job.taken_in, "d MMM y")),
        Words(read),
        Words(job.fault, say(job.outcome.value) if job.outcome is not None else "", tip=job.fault),
        unit,
    )
    return Row(job.id, cells)


def reading_columns() -> tuple[Column, ...]:
    """Readings of one quantity with the limits of their day."""
    return (
        Column("when", say("When"), 170),
        Column("job", say("Job"), 80),
        Column("value", say("Value"), 100, number=True),
        Column("u", "", 70),
        Column("unit", "", 60),
        Column("limits", say("Limits"), 150),
        Column("gauge", "", 130),
        Column("verdict", say("Verdict"), least=160),
    )


def reading_row(at: int, reading: LifeReading) -> Row:
    """One reading; the row opens its job."""
    facts = gauge_facts(reading.value, reading.uncertainty, reading.low, reading.high, reading.verdict, None)
    limits = limit_words(reading.low, reading.high)
    verdict = verdict_words(reading.verdict, None) if reading.verdict is not None else None
    cells: tuple[Cell, ...] = (
        Words(moment(reading.at)),
        Link(str(reading.job_number), reading.job_id),
        Figure(number(reading.value), strong=True),
        Words(uncertainty_words(reading.uncertainty), soft=True),
        Words(reading.unit, soft=True),
        Words(limits, tip=say(reading.limit_source)),
        gauge(facts, limits) if limits else None,
        verdict,
    )
    return Row((at, reading.job_id), cells)


def change_columns() -> tuple[Column, ...]:
    """Modifications and renewed parts."""
    return (
        Column("when", say("When"), 150),
        Column("job", say("Job"), 80),
        Column("what", say("What"), least=200),
        Column("whose", say("Whose"), 210),
        Column("back", say("Put back"), 150),
    )


def change_rows(life: TransportLife) -> list[Row]:
    """In the order of time. A change of a player counts for as long as the transport was in it."""
    rows: list[tuple[datetime, Row]] = []
    for change in life.modifications:
        back = (
            moment(change.reversed_at, "d MMM y") if change.reversed_at is not None else say("still inside")
        )
        whose = say("ours") if change.ours else say("found, not ours")
        words = say(change.words)
        cells: tuple[Cell, ...] = (
            Words(moment(change.at, "d MMM y")),
            Link(str(change.job_number), change.job_id),
            Words(words, tip=f"{words}\n{say(change.way_back)}"),
            Words(whose, say("in {player}", player=change.unit) if change.unit else ""),
            Words(back, before="" if change.reversed_at is not None else "caution"),
        )
        rows.append((change.at, Row(("modification", change.id, change.job_id), cells)))
    for part in life.renewed:
        label = say("new label {value}", value=part.label) if part.label is not None else ""
        cells = (
            Words(moment(part.at, "d MMM y")),
            Link(str(part.job_number), part.job_id),
            Words(say("renewed: {part}", part=part.words), label, tip=part.words),
            Words(""),
            Words(""),
        )
        rows.append((part.at, Row(("part", part.id, part.job_id), cells)))
    return [row for _, row in sorted(rows, key=lambda pair: pair[0])]
