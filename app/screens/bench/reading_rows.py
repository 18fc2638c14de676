"""Rows of the readings table: value, uncertainty, limits, gauge, verdict, and what a struck-out one keeps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from app.screens.kit.cells import Cell, Column, Figure, Group, Leave, Row, Words
from app.screens.kit.gauges import GaugeFacts, gauge, gauge_key
from app.screens.language import clock_time, moment, number, say
from app.trade.bench.figures import alike, shown_u
from app.trade.bench.stages import Moment
from app.trade.bench.verdict import VerdictWord, in_hundred
from app.work.bench.sheet_lines import ReadingLine

REST_FROM = 4  # the words of a struck-out row begin where the limits stand
LEAVING = (Leave("with"), Leave("u"), Leave("verdict", "second", 66), Leave("gauge"), Leave("limits"))
_GAUGES = {
    VerdictWord.WITHIN: "within",
    VerdictWord.HIGH: "outside",
    VerdictWord.LOW: "outside",
    VerdictWord.CLOSE: "close",
}


def columns(with_last: bool) -> tuple[Column, ...]:
    """The columns; the header of the gauge carries its key as soon as there is a last value."""
    header = gauge_key(say("now"), say("last")) if with_last else None
    return (
        Column("quantity", say("Quantity"), least=130),
        Column("value", say("Value"), 72, number=True),
        Column(
            "u", "", 62, tip=say("Expanded uncertainty: about 95 in 100 such readings lie within it (k = 2)")
        ),
        Column("unit", "", 62),
        Column("limits", say("Limits"), 116),
        Column("gauge", "", 118, header=header),
        Column("verdict", say("Verdict"), 182),
        Column("with", say("Read with"), 100),
    )


def of_trials(readings: Sequence[ReadingLine]) -> list[ReadingLine]:
    """Those that were taken for a trial: its tile shows them too."""
    return [r for r in readings if r.moment is Moment.DURING and r.trial_number is not None]


def rows_of(readings: Sequence[ReadingLine]) -> list[Row | Group]:
    """In the order of the work; under a word for each moment, and for each trial, as soon as there is more than
    one run."""
    runs: list[tuple[str, list[ReadingLine]]] = []
    taken = of_trials(readings)
    for each in Moment:
        alone = [r for r in readings if r.moment is each and r not in taken]
        if alone:
            runs.append((moment_words(each), alone))
        if each is Moment.DURING:
            for number_of in dict.fromkeys(r.trial_number for r in taken):
                of_one = [r for r in taken if r.trial_number == number_of]
                runs.append((say("Trial {number}", number=number_of or 0), of_one))
    made: list[Row | Group] = []
    for word, of in runs:
        if len(runs) > 1:
            counted = sum(1 for r in of if r.struck is None)
            readings_word = say("1 reading") if counted == 1 else say("{n} readings", n=counted)
            made.append(Group(word, readings_word))
        made += [row_of(r) for r in of]
    return made


def moment_words(each: Moment) -> str:
    """A moment as the heading of its readings."""
    return {
        Moment.ARRIVAL: say("On arrival"),
        Moment.DURING: say("During the work"),
        Moment.FINAL: say("Final"),
    }[each]


def row_of(reading: ReadingLine) -> Row:
    """One reading."""
    if reading.struck is not None:
        struck = reading.struck
        rest = say(
            "struck out {time}, {name}: {reason}",
            time=clock_time(struck.at),
            name=struck.by,
            reason=struck.reason,
        )
        return Row(reading.id, _cells(reading), struck=True, rest=rest, rest_from=REST_FROM)
    return Row(reading.id, _cells(reading))


def _cells(reading: ReadingLine) -> tuple[Cell, ...]:
    under, limits = conditions_words(reading), limit_words(reading.low, reading.high)
    tip = ", ".join(part for part in (moment(reading.at), reading.by, under) if part)
    return (
        _name(reading, tip),
        _value(reading),
        Words(uncertainty_words(reading.uncertainty), soft=True),
        Words(reading.unit, soft=True),
        Words(limits, tip=say(reading.limit_source)),
        _gauge(reading, limits),
        _verdict(reading),
        Words(
            reading.read_with,
            say("overdue") if reading.instrument_overdue else "",
            tip=", ".join(part for part in (reading.read_with, under) if part),
        ),
    )


def conditions_words(reading: ReadingLine) -> str:
    """What it was read under: disc, place, warm-up, room, counting time."""
    parts = [reading.conditions]
    if reading.warm_minutes is not None:
        parts.append(say("warm for {n} min", n=reading.warm_minutes))
    if reading.room is not None:
        parts.append(say("room {degrees} °C", degrees=number(reading.room)))
    if reading.seconds is not None:
        parts.append(say("counted for {n} s", n=reading.seconds))
    return ", ".join(part for part in parts if part)


def _name(reading: ReadingLine, tip: str) -> Words:
    """What tells it from others of its kind stands soft behind: seek time, first to last track."""
    name, _, more = say(reading.name).partition(", ")
    side = {"before": say("before"), "after": say("after")}.get(reading.trial_side, "")
    whole = f"{say(reading.name)}\n{tip}" if more else tip
    return Words(name, side if side and reading.moment is Moment.DURING else more, tip=whole)


def _value(reading: ReadingLine) -> Cell:
    ink = "stop" if reading.verdict is not None and reading.verdict.outside else ""
    if reading.value is None:
        return Words(say("open"), strong=True, ink=ink, right=True)
    text = number(reading.value)
    return Figure(f">\u202f{text}" if reading.bound == ">" else text, strong=True, ink=ink)


def uncertainty_words(u: Decimal | None) -> str:
    """±0.04: the standard uncertainty, as on papers."""
    figure = shown_u(u)
    return "" if figure is None else f"±{number(figure)}"


def limit_words(low: Decimal | None, high: Decimal | None) -> str:
    """at most 57.6; 0.8 to 1.4, both ends with as many decimals."""
    shown = [number(end) for end in alike([end for end in (low, high) if end is not None])]
    if not shown:
        return ""
    if low is None:
        return say("at most {high}", high=shown[0])
    if high is None:
        return say("at least {low}", low=shown[0])
    return say("{low} to {high}", low=shown[0], high=shown[1])


def gauge_facts(
    value: Decimal,
    u: Decimal | None,
    low: Decimal | None,
    high: Decimal | None,
    verdict: VerdictWord | None,
    last: Decimal | None,
) -> GaugeFacts:
    """A value between its limits, as the gauge draws it."""
    return GaugeFacts(
        float(value),
        float(2 * (u or 0)),
        None if low is None else float(low),
        None if high is None else float(high),
        _GAUGES[verdict] if verdict is not None else "",
        None if last is None else float(last),
    )


def _gauge(reading: ReadingLine, limits: str) -> Cell:
    if reading.value is None or (reading.low is None and reading.high is None):
        return None
    facts = gauge_facts(
        reading.value, reading.uncertainty, reading.low, reading.high, reading.verdict, reading.last
    )
    last = say("last {value}", value=number(reading.last)) if reading.last is not None else ""
    plain = ", ".join(part for part in (limits, last) if part)
    return gauge(facts, plain, last)


def _verdict(reading: ReadingLine) -> Cell:
    if reading.verdict is None:
        return Words(say("no limit"), soft=True)
    found = verdict_words(reading.verdict, reading.probability)
    if reading.as_made is None:
        return found
    second = ", ".join(part for part in (say("as read"), found.second) if part)
    return replace(found, second=second, tip=say(reading.as_made))


def verdict_words(verdict: VerdictWord, probability: float | None) -> Words:
    """within; outside in the ink of a stop; too close to call with its chance."""
    if verdict.outside:
        tip = say("above the limit") if verdict is VerdictWord.HIGH else say("below the limit")
        return Words(say("outside"), strong=True, ink="stop", tip=tip)
    if verdict is VerdictWord.CLOSE:
        chance = say(in_hundred(probability)) if probability is not None else ""
        return Words(
            say("too close to call"),
            chance,
            ink="caution",
            tip=say("The uncertainty reaches over the limit; beside it the chance that it is within"),
        )
    return Words(say("within"))
