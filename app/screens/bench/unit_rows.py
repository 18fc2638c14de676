"""The life of a player as rows: visits, stays of transports, changes inside it now, and those put back."""

from __future__ import annotations

from dataclasses import replace

from app.screens.kit.cells import Cell, Column, Figure, Link, Row, Words
from app.screens.language import day, moment, number, say
from app.trade.bench.stages import where_it_stands
from app.trade.office.invoice import unit_words
from app.work.bench.unit_life import UnitFitting, UnitModification
from app.work.bench.unit_parts import UnitPart
from app.work.counter.known_unit import LastReading, Visit


def visit_columns() -> tuple[Column, ...]:
    """Visits of the player."""
    return (
        Column("job", say("Job"), 80),
        Column("in", say("Taken in"), 120),
        Column("back", say("Handed back"), 120),
        Column("stands", say("Stage or outcome"), 200),
        Column("group", say("Fault group"), 120),
        Column("cause", say("Cause"), 200),
        Column("done", say("What helped, or the fault"), least=140),
    )


def visit_row(visit: Visit) -> Row:
    """One visit; its row opens the job."""
    stands = (
        say(visit.outcome.value) if visit.outcome is not None else say(where_it_stands(visit.stage, None))
    )
    cells = (
        Link(str(visit.number), visit.job_id),
        Words(day(visit.taken_in)),
        Words(
            day(visit.handed_back) if visit.handed_back is not None else say("not yet"),
            soft=visit.handed_back is None,
        ),
        Words(stands),
        Words(say(visit.group.value) if visit.group is not None else ""),
        Words(say(visit.cause.value) if visit.cause is not None else ""),
        Words(visit.done or visit.fault, tip=visit.fault),
    )
    return Row(visit.job_id, cells)


def fitting_columns() -> tuple[Column, ...]:
    """Stays of transports."""
    return (
        Column("transport", say("Transport"), 260),
        Column("kind", say("Kind"), 175),
        Column("since", say("From"), least=285),
        Column("until", say("To"), least=225),
        Column("belongs", "", 200),
    )


def fitting_row(at: int, fitting: UnitFitting) -> Row:
    """One stay, with where the transport came from and went."""
    name = f"{fitting.type_name} {fitting.marking}".strip()
    other = "" if fitting.as_maker else say("{type} belongs here", type=fitting.belongs_type)
    cells = (
        Link(name, fitting.transport_id),
        Words(say(fitting.arrangement.value)),
        Words(
            moment(fitting.since, "d MMM y"),
            say("out of {player}", player=fitting.came_from) if fitting.came_from else "",
        ),
        Words(
            moment(fitting.until, "d MMM y") if fitting.until is not None else say("still inside"),
            say("into {player}", player=fitting.went_to) if fitting.went_to else "",
        ),
        Words(other, before="caution" if other else ""),
    )
    return Row(fitting.transport_id, cells)


def change_columns() -> tuple[Column, ...]:
    """Changes that were put back."""
    return (
        Column("when", say("When"), 130),
        Column("job", say("Job"), 80),
        Column("what", say("What"), least=220),
        Column("whose", say("Whose"), 140),
        Column("back", say("Put back"), 150),
    )


def change_row(change: UnitModification) -> Row:
    """One change that was put back."""
    assert change.reversed_at is not None  # only those stand here
    words = say(change.words)
    cells = (
        Words(moment(change.at, "d MMM y")),
        Link(str(change.job_number), change.job_id),
        Words(words, tip=f"{words}\n{say(change.way_back)}"),
        Words(say("ours") if change.ours else say("found, not ours")),
        Words(moment(change.reversed_at, "d MMM y")),
    )
    return Row(change.id, cells)


def fitted_columns() -> tuple[Column, ...]:
    """Parts fitted on its jobs."""
    return (
        Column("when", say("When"), 130),
        Column("job", say("Job"), 80),
        Column("what", say("Part"), least=220),
        Column("many", say("How many"), 110, number=True),
        Column("by", say("By"), 160),
        Column("note", say("Note"), 220),
    )


def given_columns() -> tuple[Column, ...]:
    """Parts taken out of a donor."""
    return tuple(
        replace(column, title=say("For job")) if column.key == "job" else column
        for column in fitted_columns()
    )


def part_row(at: int, part: UnitPart) -> Row:
    """One part that went in, or came out; its row opens the part."""
    told = (
        part.rating,
        say("protects people") if part.safety_critical else "",
        say("out of {player}", player=part.donor) if part.donor else "",
    )
    second = ", ".join(filter(None, told))
    cells: tuple[Cell, ...] = (
        Words(moment(part.at, "d MMM y")),
        Link(str(part.job), ("job", part.job_id))
        if part.job is not None
        else Words(say("into stock"), soft=True),
        Words(f"{part.code}  {part.words}", second, tip=f"{part.words}\n{second}".strip()),
        Figure(number(part.quantity), say(unit_words(part.unit, part.quantity))),
        Words(part.by, soft=True),
        Words(part.note, soft=True, tip=part.note),
    )
    return Row((at, part.part_id), cells)


def inside_columns() -> tuple[Column, ...]:
    """What is inside now."""
    return (
        Column("when", say("Since"), 130),
        Column("job", say("Job"), 80),
        Column("what", say("What"), least=220),
        Column("where", say("Where"), 120),
        Column("back", say("Way back"), 300),
        Column("whose", say("Whose"), 140),
    )


def inside_row(change: UnitModification) -> Row:
    """One change that is inside, with its way back."""
    words, back = say(change.words), say(change.way_back)
    cells = (
        Words(moment(change.at, "d MMM y")),
        Link(str(change.job_number), change.job_id),
        Words(words, tip=f"{words}\n{back}", before="caution"),
        Words(say("in the transport") if change.in_transport else say("in the player")),
        Words(back, tip=back),
        Words(say("ours") if change.ours else say("found, not ours")),
    )
    return Row(change.id, cells)


def final_words(reading: LastReading) -> str:
    """A final reading with its verdict."""
    value = say("open") if reading.value is None else say("{value}", value=reading.value)
    return f"{value}, {say(reading.verdict.value)}" if reading.verdict is not None else value
