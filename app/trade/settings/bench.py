"""Settings of the bench: the safety standard as entered, and the numbers at which flags rise."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Any

from app.trade.bench.safety_limits import CordRule, SafetyLimits
from app.trade.sentence import Measure, Sentence
from app.trade.settings.setting import (
    DECIMAL,
    WHOLE,
    Group,
    Kind,
    Setting,
    Shape,
    at_most,
    between,
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


def _stricter(above: str, most: str) -> Callable[[Decimal], Sentence | None]:
    """A rule: over ``above``, and not over ``most``, the shipped figure: stricter only, never laxer."""
    low, high = Decimal(above), Decimal(most)

    def rule(value: Decimal) -> Sentence | None:
        if value > high:
            return Sentence("This may be made stricter than {most}, not laxer.", {"most": Measure(high)})
        if value <= low:
            return Sentence("This has to be above {least}.", {"least": Measure(low)})
        return None

    return rule


def _threshold(key: str, default: str, above: str, label: Sentence, unit: str = "") -> Setting[Decimal]:
    return Setting(
        key,
        DECIMAL,
        Decimal(default),
        label,
        Group.BENCH,
        rule=_stricter(above, default),
        unit=Sentence(unit) if unit else None,
    )


# Figures of the shop's rules (common practice, no source); safety may be tightened, not loosened.
FLAG_COIL_UP = _threshold(
    "flag_coil_up", "1.10", "1", Sentence("Coil current raised: caution above this ratio")
)
FLAG_COIL_UP_BIG = _threshold(
    "flag_coil_up_big", "1.50", "1", Sentence("Coil current raised: the owner sees it above this ratio")
)
FLAG_COIL_HOT = _threshold("flag_coil_hot", "40", "0", Sentence("Coil warming: caution above"), "K")
FLAG_LASER_UP = _threshold(
    "flag_laser_up", "110", "100", Sentence("Laser current against its label: caution above"), "%"
)
FLAG_LASER_UP_BIG = _threshold(
    "flag_laser_up_big",
    "120",
    "100",
    Sentence("Laser current against its label: the owner sees it above"),
    "%",
)
FLAG_PART_WARM = _threshold(
    "flag_part_warm", "50", "0", Sentence("Added part: caution above this share of its rating"), "%"
)
FLAG_SUPPLY = _threshold("flag_supply", "5", "0", Sentence("Supply rail moved: caution above"), "%")
FLAG_SUPPLY_BIG = _threshold(
    "flag_supply_big", "10", "0", Sentence("Supply rail moved: the owner sees it above"), "%"
)
FLAG_AGREED_SHARE = Setting(
    "flag_agreed_share",
    DECIMAL,
    Decimal(80),
    Sentence("Agreed amount: caution from this share on"),
    Group.BENCH,
    rule=_stricter("0", "100"),
    unit=Sentence("%"),
)
FLAG_PILE = Setting(
    "flag_pile",
    WHOLE,
    3,
    Sentence("The owner sees a job with this many open cautions"),
    Group.BENCH,
    rule=between(1, 3),
)
CALIBRATION_GRACE = Setting(
    "calibration_grace",
    WHOLE,
    0,
    Sentence("An instrument counts as due after its date by"),
    Group.BENCH,
    rule=between(0, 90),
    hint=Sentence("Never for the electrical safety test."),
    unit=Sentence("days"),
)

SAFETY_SETTINGS = (SAFETY_STANDARD,)
BENCH_SETTINGS = (
    FLAG_COIL_UP,
    FLAG_COIL_UP_BIG,
    FLAG_COIL_HOT,
    FLAG_LASER_UP,
    FLAG_LASER_UP_BIG,
    FLAG_PART_WARM,
    FLAG_SUPPLY,
    FLAG_SUPPLY_BIG,
    FLAG_AGREED_SHARE,
    FLAG_PILE,
    CALIBRATION_GRACE,
)
# Of each pair the first may not be above the second.
ORDERED = (
    (FLAG_COIL_UP, FLAG_COIL_UP_BIG),
    (FLAG_LASER_UP, FLAG_LASER_UP_BIG),
    (FLAG_SUPPLY, FLAG_SUPPLY_BIG),
)
