"""A modification in plain words with its numbers, and the way back."""

from __future__ import annotations

from decimal import Decimal

from app.trade.bench.circuit_ratio import CircuitRatio, heat, shown_db, shown_k
from app.trade.bench.figures import rounded
from app.trade.bench.modifications import COIL_CIRCUITS, SETTINGS, Kind, Modification, in_words
from app.trade.bench.stages import said
from app.trade.bench.units import UNITS
from app.trade.sentence import Measure, Sentence, Value, words


def ohms(value: Decimal) -> Measure:
    """A resistance as a person writes it: 6.8 Ω, 47 kΩ. Below 1000 the digits given are kept."""
    return UNITS["Ω"].engineering(value.normalize() if value >= 1000 else value)


def volts(value: Decimal) -> Measure:
    """A supply voltage with the digits given."""
    return Measure(value, "V")


# (what it is, way back), with the maker's value known and not known.
_NUMBERS = {
    Kind.PARALLEL: (
        words("{new} added across the maker's {maker} at {where} ({circuit})"),
        words("Take the {new} out at {where}; the maker's {maker} stays."),
    ),
    Kind.SERIES: (
        words("{new} added in series with the maker's {maker} at {where} ({circuit})"),
        words("Take the {new} out at {where} and close the gap; the maker's {maker} stays."),
    ),
    Kind.REPLACED: (
        words("{where} ({circuit}): {new} in place of the maker's {maker}"),
        words("Fit {maker} at {where} again."),
    ),
    Kind.SUPPLY: (
        words("{where}: {new} in place of the maker's {maker}"),
        words("Set {where} to {maker} again."),
    ),
}
_NO_MAKER = {
    Kind.PARALLEL: (
        words("{new} added in parallel at {where} ({circuit}); the maker's value is not known"),
        words("Take the {new} out at {where}."),
    ),
    Kind.SERIES: (
        words("{new} added in series at {where} ({circuit}); the maker's value is not known"),
        words("Take the {new} out at {where} and close the gap."),
    ),
    Kind.REPLACED: (
        words("{where} ({circuit}): {new} fitted; the maker's value is not known"),
        words("Find out the maker's value at {where} and fit it again."),
    ),
}


def what_it_is(modification: Modification) -> Sentence:
    """The change in one plain sentence without a full stop, place and numbers included."""
    m = modification
    worded = _worded(m)
    if worded:
        return Sentence(worded[0], _values(m))
    if m.kind in SETTINGS:
        return Sentence("{kind} at {where} ({circuit}): {was} to {now}", _values(m))
    if m.was and m.now:
        return Sentence("{kind} at {where} ({circuit}): {now}; maker: {was}", _values(m))
    if m.now:
        return Sentence("{kind} at {where} ({circuit}): {now}", _values(m))
    return Sentence("{kind} at {where} ({circuit})", _values(m))


def way_back(modification: Modification) -> Sentence:
    """How it is put back: as somebody wrote it, else as the kind of change says it."""
    m = modification
    worded = _worded(m)
    if m.way_back:
        return Sentence("{way_back}", {"way_back": m.way_back})
    if m.kind is Kind.TRIMMER and not m.reading_before:
        return Sentence("{where} was turned without a reading before: the way back is not known.", _values(m))
    if worded:
        return Sentence(worded[1], _values(m))
    if m.kind is Kind.FIRMWARE:
        return Sentence("Load version {was} into {where} again.", _values(m))
    if m.kind is Kind.JUMPER:
        return Sentence("Set {where} to {was} again.", _values(m))
    if m.was:
        return Sentence("Put {was} back at {where}.", _values(m))
    return Sentence("Put {where} back as its maker had it.", _values(m))


def _worded(m: Modification) -> tuple[str, str] | None:
    if m.new_value is None:
        return None
    return _NO_MAKER.get(m.kind) if m.maker_value is None else _NUMBERS.get(m.kind)


def _values(m: Modification) -> dict[str, Value]:
    shown = volts if m.kind is Kind.SUPPLY else ohms
    values: dict[str, Value] = {
        "kind": said(m.kind),
        "circuit": said(m.circuit),
        "where": m.where,
        "was": m.was,
        "now": m.now,
    }
    if m.maker_value is not None:
        values["maker"] = shown(m.maker_value)
    if m.new_value is not None:
        values["new"] = shown(m.new_value)
    return values


def effect_in_words(ratio: CircuitRatio) -> Sentence | None:
    """What all live changes of one circuit do together; None where no law gives a number."""
    if ratio.k is None:
        return None
    values: dict[str, Value] = {
        "circuit": in_words(ratio.circuit),
        "k": shown_k(ratio.k),
        "db": shown_db(ratio.k),
        "heat": shown_k(heat(ratio.k)),
        "list": ratio.places,
    }
    if ratio.circuit in COIL_CIRCUITS and ratio.of_current:
        return Sentence(
            "Current in {circuit} is {k} times the maker's, loop gain {db}, coil heat {heat} times ({list}).",
            values,
        )
    if ratio.of_current:
        return Sentence("Current in {circuit} is {k} times the maker's ({list}).", values)
    return Sentence("Loop gain in {circuit} is {k} times the maker's, {db} ({list}).", values)


def against_maker(k: Decimal) -> Sentence:
    """A ratio as a person says it: 21 % above the maker's figure."""
    percent = rounded((k - 1) * 100, 0)
    if percent >= 0:
        return Sentence("{percent} above the maker's figure", {"percent": Measure(percent, "%")})
    return Sentence("{percent} below the maker's figure", {"percent": Measure(-percent, "%")})
