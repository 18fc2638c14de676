"""Tilt by two reflected lines. A mirror turned by a turns the ray by 2a, hence d = L tan 2a. Common practice, no
source; geometry checked by a ray trace."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from decimal import Decimal

from app.trade.sentence import Measure, Sentence, Value

# How well a distance is known that was taken with a ruler, metres. Bench practice, no source.
U_LENGTH = Decimal("0.010")
_LENGTH = re.compile(r"\b([LBE])\s*=?\s*(\d{2,4})(?:[.,]\d+)?\s*(?:mm)?\b")


@dataclass(frozen=True)
class Tilt:
    """An angle and its standard uncertainty, degrees."""

    degrees: float
    u: float


def tilt_of(offset: Decimal, u_offset: Decimal, length: Decimal, u_length: Decimal = U_LENGTH) -> Tilt:
    """Tilt for lines ``offset`` apart, with the length that belongs to where they are read (one unit for all):
    a = atan(d / L) / 2; u_a = sqrt((u_d / 2L)^2 + (d u_L / 2L^2)^2)."""
    d, span = float(offset), float(length)
    u = math.hypot(float(u_offset) / (2 * span), d * float(u_length) / (2 * span * span))
    return Tilt(math.degrees(math.atan2(d, span)) / 2, math.degrees(u))


def on_the_disc(eye: Decimal, bar: Decimal) -> Decimal:
    """The length that belongs to an offset read with a ruler on the disc: E B / (E + B). On the scale of the bar
    it is B itself."""
    return eye * bar / (eye + bar)


def total(radial: float, tangential: float) -> float:
    """Both directions together, for small angles."""
    return math.hypot(radial, tangential)


def length_in(place: str) -> Decimal | None:
    """The length L in metres that a note of the geometry tells, None where it tells none: ``L 300``; ``scale, B
    300``; ``on the disc, B 300, E 250``, all in mm. B alone is a reading on the scale."""
    told = {name: Decimal(value) / 1000 for name, value in _LENGTH.findall(place)}
    if "L" in told:
        length = told["L"]
    elif "B" not in told:
        return None
    else:
        length = on_the_disc(told["E"], told["B"]) if told.get("E") else told["B"]
    return length or None


def tilt_words(offset: Decimal, u_offset: Decimal, place: str, most: Decimal | None) -> Sentence:
    """The angle of an offset in metres, with the limit as an angle too; without the geometry, what is missing."""
    length = length_in(place)
    if length is None:
        return Sentence("No angle without the geometry: note L under place, such as L 300 mm.")
    tilt = tilt_of(offset, u_offset, length)
    values: dict[str, Value] = {
        "angle": _degrees(tilt.degrees),
        "u": _degrees(2 * tilt.u),
        "length": Measure((length * 1000).quantize(Decimal(1)), "mm"),
    }
    if most is None:
        return Sentence("Tilt {angle} ± {u} at L {length}.", values)
    limit = _degrees(tilt_of(most, Decimal(0), length).degrees)
    return Sentence("Tilt {angle} ± {u} at L {length}; the limit is {limit}.", {**values, "limit": limit})


def _degrees(angle: float) -> Measure:
    return Measure(Decimal(repr(angle)).quantize(Decimal("0.001")), "°")
