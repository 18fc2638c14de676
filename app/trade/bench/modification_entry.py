"""What cannot be right in a modification as it was entered, field by field."""

from __future__ import annotations

from decimal import Decimal

from app.trade.bench.modifications import RESISTOR_KINDS, SETTINGS, Circuit, Kind, Law, Modification
from app.trade.sentence import Sentence

# Refuses typing slips; no resistor of a player lies outside.
_LEAST_OHM, _MOST_OHM = Decimal("0.001"), Decimal(100_000_000)
_MOST_VOLT = Decimal(60)

# Laser power loops answer to light, mains and mechanics to no resistor law at all.
_LAWLESS = frozenset(
    {
        Circuit.LASER_SUPPLY,
        Circuit.MAINS,
        Circuit.EARTH,
        Circuit.FUSE,
        Circuit.INTERLOCK,
        Circuit.SUPPLY_RAIL,
        Circuit.MECHANICS,
    }
)
_HOME = {Kind.FUSE: Circuit.FUSE, Kind.INTERLOCK: Circuit.INTERLOCK, Kind.SUPPLY: Circuit.SUPPLY_RAIL}
_IN_WORDS = SETTINGS | {
    Kind.OTHER_TYPE,
    Kind.MECHANICAL,
    Kind.WIRING,
    Kind.FUSE,
    Kind.INTERLOCK,
    Kind.OTHER,
}


def fields_refused(modification: Modification) -> dict[str, Sentence]:
    """A sentence under the name of each field of `Modification` that cannot be right; empty: all can."""
    refused: dict[str, Sentence] = {}
    if not modification.where.strip():
        refused["where"] = Sentence("Say where: the part's designation, such as R314, or the place.")
    refused |= _circuit_refused(modification)
    refused |= _law_refused(modification)
    if modification.kind in RESISTOR_KINDS:
        refused |= _resistor_refused(modification)
    elif modification.kind is Kind.SUPPLY:
        refused |= _supply_refused(modification)
    elif modification.kind in _IN_WORDS:
        refused |= _words_refused(modification)
    return refused | _power_refused(modification)


def _circuit_refused(m: Modification) -> dict[str, Sentence]:
    home = _HOME.get(m.kind)
    if home is not None and m.circuit is not home:
        return {
            "circuit": Sentence(
                "A change of this kind belongs to the circuit “{circuit}”.",
                {"circuit": Sentence(home.value)},
            )
        }
    return {}


def _law_refused(m: Modification) -> dict[str, Sentence]:
    if m.law is Law.NEITHER:
        return {}
    if m.kind not in RESISTOR_KINDS:
        return {"law": Sentence("Only a resistor follows a law here. Choose “neither” and take readings.")}
    if m.circuit in _LAWLESS:
        return {"law": Sentence("No such law holds in this circuit. Choose “neither” and take readings.")}
    if m.maker_value is None:
        return {"maker_value": Sentence("Without the maker's value no factor can be worked out.")}
    return {}


def _resistor_refused(m: Modification) -> dict[str, Sentence]:
    refused: dict[str, Sentence] = {}
    if m.new_value is None:
        refused["new_value"] = Sentence("Enter the resistor that was added or fitted.")
    for field, value in (("maker_value", m.maker_value), ("new_value", m.new_value)):
        if value is not None and not _LEAST_OHM <= value <= _MOST_OHM:
            refused[field] = Sentence("A resistor here lies between 0.001 Ω and 100 MΩ.")
    if m.kind is Kind.REPLACED and m.new_value is not None and m.new_value == m.maker_value:
        refused["new_value"] = Sentence("This is the maker's value: a part renewed, not a modification.")
    return refused


def _supply_refused(m: Modification) -> dict[str, Sentence]:
    refused: dict[str, Sentence] = {}
    for field, value in (("maker_value", m.maker_value), ("new_value", m.new_value)):
        if value is None:
            refused[field] = Sentence("Enter the maker's voltage and the one it is now.")
        elif not 0 < abs(value) <= _MOST_VOLT:
            refused[field] = Sentence("A rail in a player lies between 0 and 60 V, either sign.")
    return refused


def _words_refused(m: Modification) -> dict[str, Sentence]:
    refused: dict[str, Sentence] = {}
    if not m.now.strip():
        refused["now"] = Sentence("Say what is in there now.")
    if m.kind in SETTINGS and not m.was.strip():
        refused["was"] = Sentence("Say the version or position as made; “not known” if nobody knows.")
    elif m.kind in SETTINGS and m.was.strip().casefold() == m.now.strip().casefold():
        refused["now"] = Sentence("This is what stood there before: nothing was changed.")
    if m.kind in (Kind.OTHER_TYPE, Kind.FUSE) and not m.was.strip():
        refused["was"] = Sentence("Say what the maker fitted; “not known” if nobody knows.")
    return refused


def _power_refused(m: Modification) -> dict[str, Sentence]:
    refused: dict[str, Sentence] = {}
    if m.rating is not None and m.rating <= 0:
        refused["rating"] = Sentence("A rating is more than 0 W.")
    if m.power is not None and m.power < 0:
        refused["power"] = Sentence("Power is not below 0 W.")
    if m.power is not None and m.rating is None:
        refused["rating"] = Sentence("Enter the rating too: the power alone says nothing.")
    return refused
