"""Springs, shims and screws: what a mechanical shift does. Common practice, no source."""

from __future__ import annotations

import math
from decimal import Decimal

from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence


def spring_force(rate: Decimal, travel: Decimal) -> Decimal:
    """Force of a linear spring that is not coil-bound, newton: c x, newton per millimetre and millimetre."""
    return rate * travel


def shim_tilt(thickness: Decimal, distance: Decimal) -> float:
    """Tilt by a shim of ``thickness`` at ``distance`` from the pivot (same unit), degrees: atan(t / b)."""
    _above_zero("distance", distance)
    return math.degrees(math.atan(float(thickness / distance)))


def screw_tilt(pitch: Decimal, turns: Decimal, distance: Decimal) -> float:
    """Tilt by a screw turned ``turns`` times, pitch and distance from the pivot in the same unit, degrees."""
    return shim_tilt(pitch * turns, distance)


def lines_shift(tilt: float, length: Decimal) -> float:
    """How far the two reflected lines move apart for a tilt in degrees, in the unit of ``length``, the distance
    that belongs to where they are read: d = L tan 2a."""
    return float(length) * math.tan(2 * math.radians(tilt))


def _above_zero(field: str, value: Decimal) -> None:
    if value <= 0:
        raise FieldRefusal({field: Sentence("This has to be more than 0.")})
