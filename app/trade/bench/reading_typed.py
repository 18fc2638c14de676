"""A reading as it is typed: a value in the quantity's unit, or turns a minute where a scanning speed is read."""

from __future__ import annotations

import re
from decimal import Decimal

from app.trade.bench.disc import speed_at
from app.trade.bench.figures import rounded
from app.trade.bench.quantities import Quantity
from app.trade.bench.typed_value import TypedValue, read_value
from app.trade.sentence import Measure, Sentence

SPEED = "speed"
SPEED_DECIMALS = 3
PLACED = frozenset({SPEED, "tilt_rad", "tilt_tan"})  # nothing follows from them without their place
_TURNS = re.compile(r"\s*(\d{2,4}(?:[.,]\d{1,2})?)\s*(?:rpm|r/min|/min|1/min|min-1|U/min)\s*")
_RADIUS = re.compile(r"\br\s*=?\s*(\d{1,2}(?:[.,]\d{1,2})?)\s*(?:mm)?\b")


def radius_in(place: str) -> Decimal | None:
    """The radius in metres that a note of the place tells, ``r 25 mm``; None where it tells none."""
    found = _RADIUS.search(place)
    metres = Decimal(found[1].replace(",", ".")) / 1000 if found is not None else Decimal(0)
    return metres or None


def read_reading(quantity: Quantity, text: str, place: str) -> TypedValue | Sentence:
    """The value typed, or what is wrong with it. A scanning speed may be typed as turns, ``500 rpm``; with the
    radius under place it is v = 2 pi r n / 60."""
    turns = _TURNS.fullmatch(text) if quantity.id == SPEED else None
    if turns is None:
        return read_value(text, quantity.entry)
    radius = radius_in(place)
    if radius is None:
        return Sentence("Turns need the radius: note it under place, such as r 25 mm.")
    speed = rounded(speed_at(radius, Decimal(turns[1].replace(",", "."))), SPEED_DECIMALS)
    if not quantity.low <= speed <= quantity.high:
        return Sentence(
            "At this radius that is {speed}, which cannot be: {low} to {high} is possible.",
            {"speed": _speed(speed), "low": _speed(quantity.low), "high": _speed(quantity.high)},
        )
    step = Decimal(1).scaleb(-SPEED_DECIMALS)
    return TypedValue(text.strip(), speed, speed, quantity.unit, step)


def _speed(value: Decimal) -> Measure:
    return Measure(value, "m/s")
