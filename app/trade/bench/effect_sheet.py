"""The sentences of an effect sheet: what a change does besides its plain ratio, worked out from the numbers that are
there. Common practice, no source."""

from __future__ import annotations

from decimal import Decimal

from app.trade.bench.effects import non_inverting_ratio, voltage_driven_ratio
from app.trade.bench.figures import rounded, significant
from app.trade.bench.heat import dissipation, regulator_power, supply_change
from app.trade.bench.mechanics import lines_shift, shim_tilt, spring_force
from app.trade.bench.preferred_values import added_for
from app.trade.bench.trimmer import trimmer_effect
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Measure, Sentence, Value

LINES_AT = Decimal(300)  # mm, the usual distance of the light bar


def driver_words(
    supply: Decimal, current: Decimal, coil: Decimal, maker: Decimal, now: Decimal
) -> tuple[Sentence, ...]:
    """Heat in the driver and the voltage that coil and resistor need, before and after, where the current goes as
    1/R; volt, ampere, ohm. Without voltage left for the driver the law does not hold, and that is said."""
    try:
        before = dissipation(supply, current, coil, maker)
        after = dissipation(supply, current * maker / now, coil, now)
    except FieldRefusal as refusal:
        return tuple(refusal.fields.values())
    return (
        Sentence(
            "The driver takes {after} instead of {before}, steady current. Coil and resistor need {needed} of "
            "{supply}; the driver's own loss comes on top.",
            {
                "before": _milliwatt(before.driver),
                "after": _milliwatt(after.driver),
                "needed": Measure(rounded(after.needed, 2), "V"),
                "supply": Measure(supply, "V"),
            },
        ),
        Sentence(
            "Listen and watch for ringing; read driver temperature, coil cold and warm, dropout passed."
        ),
    )


def design_words(maker: Decimal, wanted: Decimal) -> Sentence:
    """What to put across the maker's resistor for a wanted ratio, nearest value of IEC 60063."""
    try:
        return added_for(maker, wanted).summary
    except FieldRefusal as refusal:
        return next(iter(refusal.fields.values()))


def voltage_driven_words(maker: Decimal, now: Decimal, coil: Decimal) -> Sentence:
    """Why 1/R does not hold for a resistor in series with a coil that a voltage drives."""
    k = voltage_driven_ratio(maker, now, coil)
    return Sentence(
        "If a voltage drives coil and resistor together, the current is ×{k}, not ×{plain}: take readings.",
        {"k": rounded(k, 3), "plain": rounded(maker / now, 3)},
    )


def non_inverting_words(maker: Decimal, now: Decimal, to_ground: Decimal) -> Sentence:
    """Why the gain of a non-inverting stage does not go as its feedback resistor."""
    k = non_inverting_ratio(maker, now, to_ground)
    return Sentence(
        "A non-inverting stage changes by ×{k}, not ×{plain}: take readings.",
        {"k": rounded(k, 3), "plain": rounded(now / maker, 3)},
    )


def supply_words(
    maker: Decimal,
    now: Decimal,
    output: Decimal | None = None,
    current: Decimal | None = None,
    lowest: Decimal | None = None,
) -> tuple[Sentence, ...]:
    """A rail moved: heat in a resistive load, in a linear regulator behind it (``output`` volt at ``current``
    ampere), the rail against the ``lowest`` voltage that a capacitor on it is rated for, and what is to be looked
    at."""
    try:
        words = [supply_change(maker, now).summary]
    except FieldRefusal as refusal:
        return tuple(refusal.fields.values())
    if output is not None and current is not None:
        before, after = (regulator_power(rail, output, current) for rail in (maker, now))
        if after <= 0 or before <= 0:
            words.append(Sentence("A linear regulator needs more at its input than it gives."))
        else:
            percent = Measure(rounded((after / before - 1) * 100, 0), "%", signed=True)
            words.append(
                Sentence(
                    "A linear regulator takes {after} instead of {before} ({percent}).",
                    {"before": _milliwatt(before), "after": _milliwatt(after), "percent": percent},
                )
            )
    if lowest is not None:
        words.append(_rating_words(abs(now), lowest))
        words.append(Sentence("Says nothing of switching regulators."))
        return tuple(words)
    words.append(
        Sentence("Compare the voltage rating of every capacitor on it. Says nothing of switching regulators.")
    )
    return tuple(words)


def _rating_words(rail: Decimal, lowest: Decimal) -> Sentence:
    values: dict[str, Value] = {
        "rail": Measure(rail, "V"),
        "lowest": Measure(lowest, "V"),
        "percent": Measure(rounded(rail / lowest * 100, 0), "%"),
    }
    if rail > lowest:
        return Sentence(
            "The rail, {rail}, is over what a capacitor on it is rated for, {lowest} ({percent}): fit others first.",
            values,
        )
    return Sentence("The rail is {percent} of the lowest capacitor rating, {lowest}.", values)


def gain_words() -> Sentence:
    """What a changed gain is judged by."""
    return Sentence("Judge it by the loop: overshoot, noise, dropout passed. It tells nothing of heat.")


def trimmer_words(
    name: Sentence, before: Measure, u_before: Decimal, after: Measure, u_after: Decimal
) -> Sentence:
    """A trimmer by its readings before and after, in one unit, with their standard uncertainties."""
    return Sentence(
        "{quantity} {before} to {after}: {effect}.",
        {
            "quantity": name,
            "before": before,
            "after": after,
            "effect": trimmer_effect(before.value, u_before, after.value, u_after).summary,
        },
    )


def trimmer_law_words(*, laser: bool) -> Sentence:
    """What a turned trimmer is judged by; at a laser the light, which does not go as the current."""
    if laser:
        return Sentence(
            "No law holds for a trimmer, only readings. Light does not go as the current: measure the light after the lens."
        )
    return Sentence("No law holds for a trimmer: readings before and after tell what it did.")


def label_words(label: Measure, before: Measure, after: Measure, u_after: Decimal) -> Sentence:
    """A laser current before and after in per cent of its label, all in one unit; the latter with its standard
    uncertainty."""
    percent = 100 / label.value
    return Sentence(
        "Of the label, {label}: {before} before, {after} ± {u} after.",
        {
            "label": label,
            "before": Measure(rounded(before.value * percent, 1), "%"),
            "after": Measure(rounded(after.value * percent, 1), "%"),
            "u": Measure(rounded(u_after * percent, 1), "%"),
        },
    )


def rating_words(voltage: Decimal, rated: Decimal) -> Sentence:
    """A capacitor of another type by the voltage on it against what it is rated for, volt."""
    values: dict[str, Value] = {
        "voltage": Measure(abs(voltage), "V"),
        "rated": Measure(rated, "V"),
        "percent": Measure(rounded(abs(voltage) / rated * 100, 0), "%"),
    }
    if abs(voltage) > rated:
        return Sentence(
            "With {voltage} on it a capacitor rated for {rated} is over its rating ({percent}): fit another.",
            values,
        )
    return Sentence(
        "With {voltage} on it a capacitor rated for {rated} stands at {percent} of its rating.", values
    )


def shim_words(thickness: Decimal, distance: Decimal) -> Sentence:
    """A shim, or a screw by its pitch and turns, at a distance from the pivot, millimetres."""
    tilt = shim_tilt(thickness, distance)
    return Sentence(
        "Tilts by {angle}; the two lines move {shift} at L {length}.",
        {
            "angle": Measure(Decimal(repr(tilt)).quantize(Decimal("0.001")), "°"),
            "shift": Measure(Decimal(repr(lines_shift(tilt, LINES_AT))).quantize(Decimal("0.01")), "mm"),
            "length": Measure(LINES_AT, "mm"),
        },
    )


def spring_words(rate: Decimal, travel: Decimal, more: Decimal) -> Sentence:
    """A linear spring pressed further: newton per millimetre, millimetres."""
    before, after = spring_force(rate, travel), spring_force(rate, travel + more)
    return Sentence(
        "Spring {before} to {after} (×{k}), while it is linear and not bound.",
        {
            "before": Measure(rounded(before, 2), "N"),
            "after": Measure(rounded(after, 2), "N"),
            "k": rounded(after / before, 2),
        },
    )


def lawless_words() -> Sentence:
    """What is asked where no formula helps: a part of another type, firmware, a jumper."""
    return Sentence("No formula: say what differs, which limits no longer apply, which readings stand in.")


def _milliwatt(watt: Decimal) -> Measure:
    return Measure(significant(watt * 1000, 3), "mW")
