"""What a reading does by a change alone, so that it proves nothing of a mend."""

from __future__ import annotations

from decimal import Decimal

from app.trade.bench.difference import Difference, difference
from app.trade.bench.figures import rounded
from app.trade.bench.uncertainty import ratio_u
from app.trade.sentence import Measure, Sentence


def foretold(before: Decimal, ratio: Decimal) -> Decimal:
    """The drive that the change alone foretells under law `CURRENT`: before / k."""
    return before / ratio


def against_foretold(
    before: Decimal, u_before: Decimal, after: Decimal, u_after: Decimal, ratio: Decimal
) -> Difference:
    """The reading after a change of ratio k against before / k. Only this difference, the rung and the play time
    speak of a cure; the plain difference to ``before`` does not."""
    return difference(before / ratio, u_before / ratio, after, u_after)


def as_made(value: Decimal, u: Decimal, ratio: Decimal) -> tuple[Decimal, Decimal]:
    """A drive read while a change of ratio k is live, as it would be at the maker's value: y k with its
    uncertainty. This is what is judged against the maker's limit."""
    return value * ratio, u * ratio


def light_ratio(before: Decimal, after: Decimal, threshold: Decimal) -> Decimal:
    """Ratio of light for two laser currents above the threshold current: (I2 - I0) / (I1 - I0), ampere. Light is
    not proportional to current, so it is measured; this only shows by how much more it rises."""
    if before <= threshold or after <= threshold:
        raise ValueError("below its threshold a laser gives no light to compare")
    return (after - threshold) / (before - threshold)


def against_label(current: Decimal, u: Decimal, label: Decimal, u_label: Decimal) -> tuple[Decimal, Decimal]:
    """Laser current against its label as a ratio (1 is 100 %), with its standard uncertainty."""
    return ratio_u(current, u, label, u_label)


def drive_sentence(before: Measure, expected: Decimal, after: Measure, ratio: Decimal) -> Sentence:
    """That the drive falls by the change alone; ``expected`` in the unit shown, with one decimal."""
    return Sentence(
        "The drive falls to ×{share} by the change alone: {before} foretells {expected}, {after} was read. "
        "It proves nothing; seek time and rung speak.",
        {
            "share": rounded(1 / ratio, 3),
            "before": before,
            "expected": Measure(rounded(expected, 1), after.unit),
            "after": after,
        },
    )
