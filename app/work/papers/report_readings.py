"""Readings for the service report: arrival beside final, with limits, verdicts and what to know of them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from app.book.bench.job_rows import JobRows
from app.papers.facts import Clause, Said
from app.papers.service_report_facts import ReadingRow, StruckReading, Value
from app.trade.bench.figures import alike, shown_u
from app.trade.bench.stages import Moment
from app.trade.bench.start_up import StartUpResult
from app.trade.bench.verdict import VerdictWord, in_hundred
from app.trade.sentence import Measure, Sentence
from app.work.bench.sheet_lines import ReadingLine

Pairs = list[tuple[ReadingLine | None, ReadingLine | None]]


def reading_rows(
    rows: JobRows, readings: Sequence[ReadingLine], climb: StartUpResult | None
) -> tuple[ReadingRow, ...]:
    """A row for each quantity that was read on arrival or at the end; the last of each counts. ``climb``: that of
    arrival, by which a reading could not be taken then."""
    return tuple(
        _row(arrival, final, _out_of_reach(rows, arrival, final, climb))
        for arrival, final in _pairs(rows, readings)
    )


def _pairs(rows: JobRows, readings: Sequence[ReadingLine]) -> Pairs:
    last: dict[tuple[str, str], dict[Moment, ReadingLine]] = {}
    for reading in readings:
        if reading.struck is None and reading.moment is not Moment.DURING:
            last.setdefault((reading.quantity, reading.detail), {})[reading.moment] = reading
    order = {quantity: at for at, quantity in enumerate(rows.quantities)}
    keys = sorted(last, key=lambda key: (order.get(key[0], len(order)), key))
    return [(last[key].get(Moment.ARRIVAL), last[key].get(Moment.FINAL)) for key in keys]


def _out_of_reach(
    rows: JobRows, arrival: ReadingLine | None, final: ReadingLine | None, climb: StartUpResult | None
) -> bool:
    """Whether it could not be read on arrival, as the player did not climb that far."""
    if arrival is not None or final is None or climb is None:
        return False
    quantity = rows.quantities.get(final.quantity)
    return quantity is not None and quantity.needs > climb.rung


def _row(arrival: ReadingLine | None, final: ReadingLine | None, not_readable: bool) -> ReadingRow:
    shown = final or arrival
    assert shown is not None  # one of the two brought it here
    ends = iter(alike([end for end in (shown.low, shown.high) if end is not None]))
    verdict, was = shown.verdict, None
    if final is not None and arrival is not None and arrival.verdict not in (None, VerdictWord.WITHIN):
        was = Sentence("same") if arrival.verdict is final.verdict else verdict_said(arrival.verdict)
    return ReadingRow(
        name=shown.name,
        unit=shown.unit,
        arrival=_value(arrival),
        final=_value(final),
        low=None if shown.low is None else next(ends),
        high=None if shown.high is None else next(ends),
        verdict=verdict_said(verdict),
        strong=verdict not in (None, VerdictWord.WITHIN),
        was=was or "",
        not_readable=not_readable,
    )


def _value(reading: ReadingLine | None) -> Value | None:
    return None if reading is None else Value(reading.value, shown_u(reading.uncertainty), reading.bound)


def verdict_said(verdict: VerdictWord | None) -> Said:
    """within, outside, too close to call; nothing where there is no limit."""
    if verdict is None:
        return ""
    return Sentence("outside") if verdict.outside else Sentence(verdict.value)


def struck_rows(readings: Iterable[ReadingLine]) -> tuple[StruckReading, ...]:
    """Readings that were struck out stay legible, with reason, person and time."""
    return tuple(
        StruckReading(
            Sentence("{name} {value}", {"name": reading.name, "value": _shown(reading)}),
            Sentence(
                "“{reason}”, {by}, {at}.",
                {"reason": reading.struck.reason, "by": reading.struck.by, "at": reading.struck.at},
            ),
        )
        for reading in readings
        if reading.struck is not None
    )


def _shown(reading: ReadingLine) -> Measure | Sentence:
    if reading.value is None:
        return Sentence("open")
    measure = Measure(reading.value, reading.unit)
    return Sentence("> {value}", {"value": measure}) if reading.bound else measure


def notes_of(
    rows: JobRows, readings: Sequence[ReadingLine], climb: StartUpResult | None
) -> tuple[Clause, ...]:
    """Why something could not be read on arrival, the chance of being within where it is too close to call, and
    what only follows from a change."""
    pairs = _pairs(rows, readings)
    clauses = []
    unread = tuple(
        final.name for arrival, final in pairs if final and _out_of_reach(rows, arrival, final, climb)
    )
    if unread and climb is not None:
        clauses.append(
            Clause(
                Sentence("Not readable on arrival:"),
                Sentence(
                    "{list}. The ladder stopped at rung {rung}, before they could be read.",
                    {"list": unread, "rung": climb.rung + 1},
                ),
            )
        )
    close = tuple(
        Sentence("{name} {chance}", {"name": final.name, "chance": in_hundred(final.probability)})
        for _, final in pairs
        if final and final.verdict is VerdictWord.CLOSE and final.probability is not None
    )
    if close:
        clauses.append(
            Clause(Sentence("Chance of being within, final:"), Sentence("{list}.", {"list": close}))
        )
    for _, final in pairs:
        if final is not None and final.as_made is not None:
            clauses.append(Clause(Sentence("By the change alone:"), final.as_made))
    return tuple(clauses)


def sources_of(readings: Iterable[ReadingLine]) -> Said:
    """Where the limits of these readings come from."""
    used = [r for r in readings if r.struck is None and r.moment is not Moment.DURING and r.verdict]
    sources = tuple(Sentence(source) for source in dict.fromkeys(r.limit_source for r in used) if source)
    return Sentence("Limits: {list}.", {"list": sources}) if sources else ""


def instruments_of(rows: JobRows, readings: Iterable[ReadingLine]) -> Said:
    """The instruments of the readings that stand, with the day until which each may be used."""
    named = list(dict.fromkeys(r.read_with for r in readings if r.struck is None and r.read_with))
    due = {row.name: row.due_on for row in rows.instruments.values()} if named else {}
    said = tuple(
        Sentence("{name} (due {day})", {"name": name, "day": due[name]})
        if due.get(name)
        else Sentence("{name}", {"name": name})
        for name in named
    )
    return Sentence("{list}.", {"list": said}) if said else ""
