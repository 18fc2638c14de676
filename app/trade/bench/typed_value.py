"""The strict grammar for values as people type them: 4k7, R47, 150m, 0,82, 228 mV, > 100M, open.

Comma and point are both decimal marks and never group. Small m is milli, large M is mega. A bare number is in
the unit the field shows; a prefix without a unit counts from the unit itself. Whatever is read is shown back
at once, and whatever could be read in two ways is refused. Codes as in IEC 60062. Values of one reading taken
anew are parted by semicolons, 28.4; 30.4; 32.4, and stand for their mean.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from app.trade.bench.bound import Bound
from app.trade.bench.units import PREFIXES, Unit
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Measure, Sentence, Value

LONGEST = 40  # characters; longer is no value
WHOLE_FIGURES = 12
FRACTION_FIGURES = 9
OPEN_WORDS = ("open", "offen")
AGAIN = ";"  # parts values of one reading taken anew

_NUMBER = re.compile(r"([+\-\u2212]?)([0-9]*)([.,]?)([0-9]*)")
_CODE = re.compile(r"([^\W0-9_])([0-9]+)\s*(.*)")


@dataclass(frozen=True)
class Entry:
    """What a field reads: its unit, the range that refuses slips (in the unit shown; no verdict), a value that
    would be right, whether a lower bound or an open circuit may be entered, and of how many values taken anew
    it reads the mean."""

    unit: Unit
    low: Decimal
    high: Decimal
    example: Decimal
    more_than: bool = False
    open_circuit: bool = False
    repeats: int = 1


@dataclass(frozen=True)
class TypedValue:
    """A value as read: ``value`` in the SI unit and ``shown`` in ``unit``, both with the digits typed; None for
    an open circuit. ``step`` is one in the last digit typed, in the shown unit. ``repeats`` are the values in SI
    that it is the mean of, where several were typed."""

    typed: str
    value: Decimal | None
    shown: Decimal | None
    unit: Unit
    step: Decimal
    bound: Bound = Bound.EXACT
    repeats: tuple[Decimal, ...] = ()

    @property
    def measure(self) -> Sentence | Measure:
        """The value as it is shown in tables."""
        if self.shown is None:
            return Sentence("open")
        measure = Measure(self.shown, self.unit.shown)
        return measure if self.bound is Bound.EXACT else Sentence("more than {value}", {"value": measure})

    @property
    def echo(self) -> Sentence:
        """How it was read, to stand beside the field while typing."""
        if self.shown is None:
            return Sentence("read as open, no circuit")
        value = self.unit.engineering(self.shown)
        if self.bound is Bound.MORE:
            return Sentence("read as more than {value}", {"value": value})
        if self.repeats:
            return Sentence("read as the mean of {n}: {value}", {"n": len(self.repeats), "value": value})
        return Sentence("read as {value}", {"value": value})


def read_value(text: str, entry: Entry) -> TypedValue | Sentence:
    """The value typed, or the sentence that says what is wrong with it and what would be right."""
    if AGAIN in text:
        return _read_mean(text, entry)
    typed = text.strip()
    if not typed:
        return _wrong("Type a value, for example {example}.", entry)
    if len(typed) > LONGEST:
        return _wrong("This is too long for a value. Right is for example {example}.", entry)
    if typed.casefold() in OPEN_WORDS:
        if not entry.open_circuit:
            return _wrong("Open is no reading here. Right is for example {example}.", entry)
        return TypedValue(typed, None, None, entry.unit, Decimal(0), Bound.OPEN)
    bound, number = Bound.EXACT, typed
    if typed.startswith(">"):
        if not entry.more_than:
            return _wrong("A lower bound is no reading here. Right is for example {example}.", entry)
        bound, number = Bound.MORE, typed[1:].lstrip()
    read = _read_number(number, typed, entry)
    if isinstance(read, Sentence):
        return read
    if not entry.low <= read <= entry.high:
        return _outside(read, entry, typed)
    exponent = read.as_tuple().exponent
    assert isinstance(exponent, int)
    step = Decimal(1).scaleb(exponent)
    return TypedValue(typed, entry.unit.to_si(read), read, entry.unit, step, bound)


def parse_value(text: str, entry: Entry, field: str = "value") -> TypedValue:
    """As `read_value`, with a FieldRefusal under the name ``field`` where it cannot be read."""
    read = read_value(text, entry)
    if isinstance(read, Sentence):
        raise FieldRefusal({field: read})
    return read


def _read_mean(text: str, entry: Entry) -> TypedValue | Sentence:
    """The mean of values parted by semicolons, with one figure more than typed where it does not come out even."""
    pieces = text.split(AGAIN)
    if len(pieces) > entry.repeats:
        key = "One value is read here. Right is for example {example}."
        if entry.repeats > 1:
            key = "At most {most} values have their mean here. Right is for example {example}."
        return _wrong(key, entry, most=entry.repeats)
    read: list[TypedValue] = []
    for piece in pieces:
        value = read_value(piece, entry)
        if isinstance(value, Sentence):
            return value
        if value.shown is None or value.bound is not Bound.EXACT:
            return _wrong("Only plain values have a mean. Right is for example {example}.", entry)
        read.append(value)
    step = min(value.step for value in read)
    shown = [value.shown for value in read if value.shown is not None]
    mean = sum(shown, Decimal(0)) / len(shown)
    even = mean.quantize(step)
    if even != mean:
        step /= 10
        even = mean.quantize(step)
    si = tuple(entry.unit.to_si(value) for value in shown)
    typed = f"{AGAIN} ".join(value.typed for value in read)
    return TypedValue(typed, entry.unit.to_si(even), even, entry.unit, step, repeats=si)


def typed_form(shown: Decimal | None, unit: Unit, bound: Bound = Bound.EXACT, mark: str = ".") -> str:
    """Text that reads back as the same value: to fill a field that is edited again."""
    if shown is None:
        return OPEN_WORDS[0]
    number = format(shown, "f").replace(".", mark)
    return f"{bound.value} {number} {unit.shown}".lstrip()


def _read_number(number: str, typed: str, entry: Entry) -> Decimal | Sentence:
    """The number in the shown unit, or what is wrong with it."""
    unit = entry.unit
    found = _NUMBER.match(number)
    assert found is not None  # it matches nothing, too
    sign, whole, mark, fraction = found.groups()
    rest = number[found.end() :]
    code = None if mark else _CODE.fullmatch(rest)
    if code is not None:
        letter, fraction, tail = code.groups()
        power = _code_power(letter, unit)
        if power is not None and tail and "".join(tail.split()) not in unit.spelt:
            power = None
    elif not whole and not fraction:
        return _not_read(typed, entry)
    elif mark and not fraction:
        return _wrong("Figures are missing after the decimal mark. Right is for example {example}.", entry)
    elif rest[:1] in (".", ",", "'") or (rest.lstrip()[:1].isdigit() and "/" not in rest):
        return _wrong("Figures are never grouped here: one decimal mark, no spaces, {example}.", entry)
    else:
        power = _tail_power("".join(rest.split()), unit)
        if power is None:
            key = "This is read in {unit}, not in {tail}. Right is for example {example}."
            return _wrong(key, entry, unit=unit.shown, tail=rest.strip())
    if isinstance(power, Sentence):
        return power
    if power is None:
        return _not_read(typed, entry)
    if len(whole) > WHOLE_FIGURES or len(fraction) > FRACTION_FIGURES:
        return _wrong("So many figures are no reading. Right is for example {example}.", entry)
    digits = Decimal(f"{whole or 0}.{fraction}" if fraction else whole)
    value = digits.scaleb(power - unit.power)
    return -value if sign in ("-", "\u2212") and value else value


def _code_power(letter: str, unit: Unit) -> int | Sentence | None:
    """Power of ten of the letter that stands for the decimal mark, counted from the unit without prefix."""
    if letter in unit.marks:
        return 0
    return _prefix_power(letter, unit)


def _tail_power(tail: str, unit: Unit) -> int | Sentence | None:
    """Power of ten of what stands behind the number; nothing means the unit shown."""
    if not tail or (not unit.prefixed and tail in unit.spelt):
        return unit.power
    if tail == "m" and unit.m_means is not None:
        return _two_ways(unit)
    if tail in unit.spelt:
        return 0
    if tail[1:] in unit.spelt:
        return PREFIXES.get(tail[0]) if unit.prefixed else None
    return _prefix_power(tail, unit)


def _prefix_power(prefix: str, unit: Unit) -> int | Sentence | None:
    """Power of ten of a prefix that stands alone."""
    if not unit.prefixed:
        return None
    if prefix == "m" and unit.m_means is not None:
        return _two_ways(unit)
    return PREFIXES.get(prefix)


def _wrong(key: str, entry: Entry, **values: Value) -> Sentence:
    return Sentence(key, {**values, "example": Measure(entry.example, entry.unit.shown)})


def _not_read(typed: str, entry: Entry) -> Sentence:
    return _wrong("{typed} is no value here. Right is for example {example}.", entry, typed=typed)


def _two_ways(unit: Unit) -> Sentence:
    return Sentence(
        "Here m could mean milli or {other}. Type the whole unit: {unit}.",
        {"other": unit.m_means or "", "unit": unit.shown},
    )


def _outside(shown: Decimal, entry: Entry, typed: str) -> Sentence:
    unit = entry.unit
    values: dict[str, Value] = {
        "value": unit.engineering(shown),
        "low": unit.engineering(entry.low.normalize()),
        "high": unit.engineering(entry.high.normalize()),
    }
    if "M" in typed and unit.prefixed:
        return Sentence(
            "{value} cannot be: {low} to {high} is possible. Large M is mega, small m is milli.", values
        )
    return Sentence("{value} cannot be: {low} to {high} is possible.", values)
