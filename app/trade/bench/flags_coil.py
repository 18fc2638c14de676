"""Rules about changed circuits: coil current and warming, stacked changes, loaded parts, changed rails."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from itertools import pairwise

from app.trade.bench.circuit_ratio import circuit_ratios, shown_k
from app.trade.bench.facts import JobFacts, ReadingFact
from app.trade.bench.figures import rounded
from app.trade.bench.flag import Closing, FlagRaised, Level
from app.trade.bench.modification_words import effect_in_words, volts
from app.trade.bench.modifications import COIL_CIRCUITS, Circuit, Kind, Modification, in_words, live
from app.trade.bench.rules import flag, subject_of
from app.trade.bench.stages import Mark
from app.trade.bench.thresholds import Thresholds
from app.trade.sentence import Measure, Sentence, Value

COIL_READINGS = {Circuit.RADIAL_COIL: "radial_coil_r", Circuit.FOCUS_COIL: "focus_coil_r"}
_USUAL_ROOM = Decimal(23)  # degrees Celsius, where nobody noted the room
_ACKNOWLEDGED = Sentence(
    "The owner acknowledges it with a reason; it goes only when the rail is put back to the maker's voltage."
)
_NO_CIRCUIT = frozenset({Circuit.MECHANICS, Circuit.OTHER})  # two changes there need not meet


def coil_up(facts: JobFacts, thresholds: Thresholds) -> Iterator[FlagRaised]:
    """Coil current raised; far enough, the owner acknowledges it. Judged by all live changes together."""
    for ratio in circuit_ratios(facts.modifications):
        effect = effect_in_words(ratio)
        if ratio.circuit not in COIL_CIRCUITS or ratio.k is None or effect is None:
            continue
        subject, detail = subject_of(ratio.modifications), ratio.circuit.value
        if ratio.k > thresholds.coil_up_big:
            line = Measure(((thresholds.coil_up_big - 1) * 100).normalize(), "%")
            yield flag(
                "coil_up_big",
                Level.CAUTION,
                Sentence(
                    "{effect} More than {line} above the maker's value: the owner acknowledges.",
                    {"effect": effect, "line": line},
                ),
                subject=subject,
                detail=detail,
                closing=Closing.SEEN,
                needs=Mark.OWNER,
                owner_sees=True,
            )
        elif ratio.k > thresholds.coil_up:
            yield flag("coil_up", Level.CAUTION, effect, subject=subject, detail=detail)


def warming(cold: Decimal, hot: Decimal, room: Decimal) -> Decimal:
    """Rise of a copper coil in kelvin by its resistance cold and hot, ``room`` in degrees Celsius when cold.

    dT = (R_hot/R_cold - 1)(234.5 + T_cold), electrical-machine practice, from memory.
    """
    return (hot / cold - 1) * (Decimal("234.5") + room)


def coil_warmings(readings: tuple[ReadingFact, ...], quantity: str) -> list[tuple[Decimal, int]]:
    """Rise in kelvin and minutes warm for each hot reading of a coil that a cold one stands before."""
    of_coil = [r for r in readings if r.quantity == quantity]
    return [
        (
            warming(
                before.value.value,
                after.value.value,
                _USUAL_ROOM if before.room is None else before.room,
            ),
            after.warm_minutes,
        )
        for before, after in pairwise(of_coil)
        if not before.warm_minutes and after.warm_minutes and before.value.value > 0
    ]


def coil_hot(facts: JobFacts, thresholds: Thresholds) -> Iterator[FlagRaised]:
    """A coil warms too much, by the latest pair of its resistance cold and hot."""
    for circuit, quantity in COIL_READINGS.items():
        warmings = coil_warmings(facts.readings, quantity)
        if warmings and warmings[-1][0] > thresholds.coil_hot:
            rise, minutes = warmings[-1]
            yield flag(
                "coil_hot",
                Level.CAUTION,
                Sentence(
                    "Coil too warm: {coil} warms by {rise} in {minutes}.",
                    {
                        "coil": in_words(circuit),
                        "rise": Measure(rounded(rise, 0), "K"),
                        "minutes": Measure(Decimal(minutes), "min"),
                    },
                ),
                detail=circuit.value,
            )


def stacked(facts: JobFacts, _: Thresholds) -> Iterator[FlagRaised]:
    """Two or more live changes on one circuit: together they make more than each seems to."""
    for ratio in circuit_ratios(facts.modifications):
        changes = len(ratio.modifications)
        if changes < 2 or ratio.circuit in _NO_CIRCUIT:
            continue
        values: dict[str, Value] = {"circuit": in_words(ratio.circuit), "n": changes}
        if ratio.k is None:
            sentence = Sentence(
                "On {circuit}, {n} changes act together; no factor can be worked out for them.", values
            )
        else:
            sentence = Sentence(
                "On {circuit}, {n} changes together make {k}.",
                {**values, "k": Measure(shown_k(ratio.k), "×")},
            )
        yield flag(
            "stacked",
            Level.CAUTION,
            sentence,
            subject=subject_of(ratio.modifications),
            detail=ratio.circuit.value,
            closing=Closing.REASON,
        )


def part_load(facts: JobFacts, thresholds: Thresholds) -> Iterator[FlagRaised]:
    """An added part above half of its rating at its hottest; above all of it, a stop."""
    for m in live(facts.modifications):
        if m.power is None or not m.rating:
            continue
        percent = m.power * 100 / m.rating
        values: dict[str, Value] = {
            "part": m.where,
            "power": _watts(m.power),
            "rating": _watts(m.rating),
            "percent": Measure(rounded(percent, 1), "%"),
        }
        subject, detail = subject_of([m]), detail_of(m)
        if percent > 100:
            yield flag(
                "part_over",
                Level.STOP,
                Sentence("The part at {part} is overloaded: {power} of {rating} ({percent}).", values),
                subject=subject,
                detail=detail,
            )
        elif percent > thresholds.part_warm:
            yield flag(
                "part_warm",
                Level.CAUTION,
                Sentence("The part at {part} takes {power} of {rating} ({percent}).", values),
                subject=subject,
                detail=detail,
            )


def supply_changed(facts: JobFacts, thresholds: Thresholds) -> Iterator[FlagRaised]:
    """A rail moved away from the maker's voltage; far enough, the owner acknowledges it."""
    for m in live(facts.modifications):
        if m.kind is not Kind.SUPPLY or not m.maker_value or m.new_value is None:
            continue
        percent = (m.new_value / m.maker_value - 1) * 100
        if abs(percent) <= thresholds.supply_changed:
            continue
        big = abs(percent) > thresholds.supply_changed_big
        yield flag(
            "supply_changed",
            Level.CAUTION,
            Sentence(
                "Rail {rail} is now {now}, maker {maker} ({percent}).",
                {
                    "rail": m.where,
                    "now": volts(m.new_value),
                    "maker": volts(m.maker_value),
                    "percent": Measure(rounded(percent, 1), "%", signed=True),
                },
            ),
            subject=subject_of([m]),
            detail=detail_of(m),
            closing=Closing.SEEN if big else Closing.FACTS,
            needs=Mark.OWNER if big else None,
            owner_sees=big,
            clears=_ACKNOWLEDGED if big else None,
        )


def detail_of(modification: Modification) -> str:
    """By which a flag knows its modification again."""
    return f"modification {modification.number}"


def _watts(power: Decimal) -> Measure:
    if power < 1:
        return Measure(rounded(power * 1000, 1).normalize() + 0, "mW")
    return Measure(rounded(power, 2), "W")
