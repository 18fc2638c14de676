"""The numbers at which the rules speak. Where safety is meant the shop may only make them stricter."""

from __future__ import annotations

from dataclasses import dataclass, fields
from decimal import Decimal

from app.trade.sentence import Sentence

_STRICTER_ONLY = {
    "coil_up",
    "coil_up_big",
    "coil_hot",
    "laser_up",
    "laser_up_big",
    "part_warm",
    "supply_changed",
    "supply_changed_big",
    "beyond_agreed_from",
    "pile",
}
_LEAST: dict[str, Decimal | int] = {
    # Below these a rule would speak of a player as its maker built it.
    "coil_up": 1,
    "coil_up_big": 1,
    "coil_hot": 0,
    "laser_up": 100,
    "laser_up_big": 100,
    "part_warm": 0,
    "supply_changed": 0,
    "supply_changed_big": 0,
    "beyond_agreed_from": 0,
    "pile": 2,
    "comeback_days": 1,
    "calibration_grace_days": 0,
    "close_below": 0,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Thresholds:
    """Defaults are common practice, no source."""

    coil_up: Decimal = Decimal("1.10")  # ratio of coil current
    coil_up_big: Decimal = Decimal("1.50")
    coil_hot: Decimal = Decimal(40)  # kelvin
    laser_up: Decimal = Decimal(110)  # per cent of label
    laser_up_big: Decimal = Decimal(120)
    part_warm: Decimal = Decimal(50)  # per cent of the part's rating
    supply_changed: Decimal = Decimal(5)  # per cent from the maker's voltage
    supply_changed_big: Decimal = Decimal(10)
    beyond_agreed_from: Decimal = Decimal(80)  # per cent of the agreed amount
    pile: int = 3  # open cautions on one job
    comeback_days: int = 180
    calibration_grace_days: int = 0  # never for a safety test
    close_below: Decimal = Decimal(
        1
    )  # a final too close to call is noted below this probability of conforming


DEFAULTS = Thresholds()


def thresholds_refused(thresholds: Thresholds) -> dict[str, Sentence]:
    """A sentence under the name of each number that is looser than the program's or makes no sense."""
    refused: dict[str, Sentence] = {}
    for field in fields(Thresholds):
        value: Decimal | int = getattr(thresholds, field.name)
        default: Decimal | int = getattr(DEFAULTS, field.name)
        if field.name in _STRICTER_ONLY and value > default:
            refused[field.name] = Sentence(
                "This can be made stricter than {default}, not looser: it guards people and players.",
                {"default": default},
            )
        elif value < _LEAST[field.name]:
            refused[field.name] = Sentence("This has to be at least {least}.", {"least": _LEAST[field.name]})
    return refused


def loosened(thresholds: Thresholds) -> Sentence | None:
    """The first thing wrong with these numbers, or None."""
    return next(iter(thresholds_refused(thresholds).values()), None)
