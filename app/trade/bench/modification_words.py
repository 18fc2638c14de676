"""A modification in plain words with its numbers, and the way back."""

from __future__ import annotations

from decimal import Decimal

from app.trade.bench.circuit_ratio import CircuitRatio, heat, shown_db, shown_k
from app.trade.bench.figures import rounded, written_out
from app.trade.bench.modifications import COIL_CIRCUITS, Kind, Modification, in_words
from app.trade.bench.stages import said
from app.trade.sentence import Measure, Sentence, Value


def ohms(value: Decimal) -> Measure:
    """A resistance as a person writes it: 6.8 Ω, 47 kΩ. Below 1000 the digits given are kept."""
    if value >= 1_000_000:
        return Measure(written_out(value.scaleb(-6).normalize()), "MΩ")
    if value >= 1_000:
        return Measure(written_out(value.scaleb(-3).normalize()), "kΩ")
    return Measure(written_out(value), "Ω")


def volts(value: Decimal) -> Measure:
    """A supply voltage with the digits given."""
    return Measure(written_out(value), "V")


def what_it_is(modification: Modification) -> Sentence:
    """The change in one plain sentence without a full stop, place and numbers included."""
    m = modification
    values: dict[str, Value] = {"where": m.where, "circuit": said(m.circuit)}
    if m.new_value is not None and m.maker_value is not None:
        if m.kind is Kind.SUPPLY:
            values |= {"maker": volts(m.maker_value), "new": volts(m.new_value)}
            return Sentence("{where}: {new} instead of the maker's {maker}", values)
        values |= {"maker": ohms(m.maker_value), "new": ohms(m.new_value)}
        if m.kind is Kind.PARALLEL:
            return Sentence("{new} added across the maker's {maker} at {where} ({circuit})", values)
        if m.kind is Kind.SERIES:
            return Sentence("{new} added in series with the maker's {maker} at {where} ({circuit})", values)
        if m.kind is Kind.REPLACED:
            return Sentence("{where} ({circuit}): {new} in place of the maker's {maker}", values)
    values |= {"kind": said(m.kind), "was": m.was, "now": m.now}
    if m.was and m.now:
        return Sentence("{kind} at {where} ({circuit}): {now}; maker: {was}", values)
    if m.now:
        return Sentence("{kind} at {where} ({circuit}): {now}", values)
    return Sentence("{kind} at {where} ({circuit})", values)


def way_back(modification: Modification) -> Sentence:
    """How it is put back: as somebody wrote it, else as the kind of change says it."""
    m = modification
    if m.way_back:
        return Sentence("{way_back}", {"way_back": m.way_back})
    values: dict[str, Value] = {"where": m.where}
    if m.kind is Kind.TRIMMER and not m.reading_before:
        return Sentence("{where} was turned without a reading before: the way back is not known.", values)
    if m.new_value is not None and m.maker_value is not None:
        if m.kind is Kind.SUPPLY:
            return Sentence("Set {where} to {maker} again.", values | {"maker": volts(m.maker_value)})
        values |= {"maker": ohms(m.maker_value), "new": ohms(m.new_value)}
        if m.kind is Kind.PARALLEL:
            return Sentence("Take the {new} out at {where}; the maker's {maker} stays.", values)
        if m.kind is Kind.SERIES:
            return Sentence("Take the {new} out at {where} and close the gap; {maker} stays.", values)
        if m.kind is Kind.REPLACED:
            return Sentence("Fit {maker} at {where} again.", values)
    if m.was:
        return Sentence("Put {was} back at {where}.", values | {"was": m.was})
    return Sentence("Put {where} back as its maker had it.", values)


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
    return Sentence("Gain in {circuit} is {k} times the maker's, {db} ({list}).", values)


def against_maker(k: Decimal) -> Sentence:
    """A ratio as a person says it: 21 % above the maker's figure."""
    percent = rounded((k - 1) * 100, 0)
    if percent >= 0:
        return Sentence("{percent} above the maker's figure", {"percent": Measure(percent, "%")})
    return Sentence("{percent} below the maker's figure", {"percent": Measure(-percent, "%")})
