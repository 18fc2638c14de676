"""Where a value stands on the small line that is drawn beside it, so that screen and paper draw the same picture."""

from __future__ import annotations

LOW_AT, HIGH_AT = 0.26, 0.74  # where the limits stand on the line


def on_scale(value: float, low: float | None, high: float | None) -> float:
    """Where ``value`` stands between the ends of the line, 0 and 1; below or above them where it is off the scale.

    With both limits the scale runs straight through them. With one only, zero (or twice the limit's size away
    from it) stands at the end of the line. Without any there is no scale: 0.5.
    """
    if low is not None and high is not None and high > low:
        return LOW_AT + (value - low) / (high - low) * (HIGH_AT - LOW_AT)
    if high is not None:
        return HIGH_AT + (value - high) / (abs(high) or 1.0) * HIGH_AT
    if low is not None:
        return LOW_AT + (value - low) / (abs(low) or 1.0) * HIGH_AT
    return 0.5
