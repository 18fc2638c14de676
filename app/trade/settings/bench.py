"""Settings of the bench: the safety standard as entered, and the numbers at which flags rise."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from typing import Any

from app.trade.bench.safety_limits import CordRule, SafetyLimits
from app.trade.bench.thresholds import DEFAULTS, thresholds_refused
from app.trade.sentence import Sentence
from app.trade.settings.setting import (
    DECIMAL,
    WHOLE,
    Group,
    Kind,
    Setting,
    Shape,
    at_most,
    finite,
)

_FIGURES = ("insulation_class_i", "insulation_class_ii", "protective_conductor_current", "touch_current")
_CORD = ("base_ohm", "base_metres", "more_ohm", "more_metres", "most_ohm")


def _pack(limits: SafetyLimits) -> dict[str, Any]:
    cord = limits.protective_conductor
    plain: dict[str, Any] = {"standard": limits.standard, "edition": limits.edition}
    plain["protective_conductor"] = None if cord is None else [str(getattr(cord, name)) for name in _CORD]
    for name in _FIGURES:
        figure = getattr(limits, name)
        plain[name] = None if figure is None else str(figure)
    return plain


def _unpack(plain: Any) -> SafetyLimits:
    cord = plain["protective_conductor"]
    figures = {name: None if plain[name] is None else finite(plain[name]) for name in _FIGURES}
    return SafetyLimits(
        standard=str(plain["standard"]),
        edition=str(plain["edition"]),
        protective_conductor=None if cord is None else CordRule(*(finite(figure) for figure in cord)),
        **figures,
    )


def _standard(limits: SafetyLimits) -> Sentence | None:
    name = at_most(40)
    if wrong := name(limits.standard) or name(limits.edition):
        return wrong
    figures = [getattr(limits, figure) for figure in _FIGURES]
    if any(figure is not None and figure <= 0 for figure in figures):
        return Sentence("A limit is above zero.")
    entered = limits.protective_conductor is not None or any(figure is not None for figure in figures)
    if entered and not limits.named:
        return Sentence("Enter the standard and its edition: they are printed beside the limits.")
    return None


SAFETY: Shape[SafetyLimits] = Shape(Kind.SAFETY_STANDARD, _pack, _unpack)

SAFETY_STANDARD = Setting(
    "safety_standard",
    SAFETY,
    SafetyLimits("", ""),
    Sentence("Standard, edition and limits of the safety test"),
    Group.SAFETY,
    rule=_standard,
    hint=Sentence("Copied from your own edition. With nothing entered, no test passes."),
)


def _rule(field: str) -> Callable[[Any], Sentence | None]:
    """A rule: what the thresholds themselves say of this number (where safety is meant: stricter only)."""
    return lambda value: thresholds_refused(replace(DEFAULTS, **{field: value})).get(field)


def _number(field: str, label: Sentence, unit: str = "") -> Setting[Decimal]:
    default: Decimal = getattr(DEFAULTS, field)
    return Setting(
        f"flag_{field}",
        DECIMAL,
        default,
        label,
        Group.BENCH,
        rule=_rule(field),
        unit=Sentence(unit) if unit else None,
    )


def _count(field: str, label: Sentence, unit: Sentence | None = None) -> Setting[int]:
    default: int = getattr(DEFAULTS, field)
    return Setting(f"flag_{field}", WHOLE, default, label, Group.BENCH, rule=_rule(field), unit=unit)


FLAG_COIL_UP = _number("coil_up", Sentence("Coil current raised: caution above this ratio"))
FLAG_COIL_UP_BIG = _number("coil_up_big", Sentence("Coil current raised: the owner sees it above this ratio"))
FLAG_COIL_HOT = _number("coil_hot", Sentence("Coil warming: caution above"), "K")
FLAG_LASER_UP = _number("laser_up", Sentence("Laser current against its label: caution above"), "%")
FLAG_LASER_UP_BIG = _number(
    "laser_up_big", Sentence("Laser current against its label: the owner sees it above"), "%"
)
FLAG_PART_WARM = _number("part_warm", Sentence("Added part: caution above this share of its rating"), "%")
FLAG_SUPPLY = _number("supply_changed", Sentence("Supply rail moved: caution above"), "%")
FLAG_SUPPLY_BIG = _number("supply_changed_big", Sentence("Supply rail moved: the owner sees it above"), "%")
FLAG_AGREED_FROM = _number("beyond_agreed_from", Sentence("Agreed amount: caution from this share on"), "%")
FLAG_CLOSE_BELOW = _number(
    "close_below",
    Sentence("Final reading too close to call: noted below this chance of being within (0 to 1)"),
)
FLAG_PILE = _count("pile", Sentence("The owner sees a job with this many open cautions"))
CALIBRATION_GRACE = _count(
    "calibration_grace_days",
    Sentence("An instrument counts as due this long after its date (never for a safety test)"),
    Sentence("days"),
)

SAFETY_SETTINGS = (SAFETY_STANDARD,)
# By the name of the number in Thresholds.
THRESHOLD_SETTINGS: dict[str, Setting[Any]] = {
    setting.key.removeprefix("flag_"): setting
    for setting in (
        FLAG_COIL_UP,
        FLAG_COIL_UP_BIG,
        FLAG_COIL_HOT,
        FLAG_LASER_UP,
        FLAG_LASER_UP_BIG,
        FLAG_PART_WARM,
        FLAG_SUPPLY,
        FLAG_SUPPLY_BIG,
        FLAG_AGREED_FROM,
        FLAG_CLOSE_BELOW,
        FLAG_PILE,
        CALIBRATION_GRACE,
    )
}
# Of each pair the first may not be above the second.
ORDERED = (
    (FLAG_COIL_UP, FLAG_COIL_UP_BIG),
    (FLAG_LASER_UP, FLAG_LASER_UP_BIG),
    (FLAG_SUPPLY, FLAG_SUPPLY_BIG),
)
