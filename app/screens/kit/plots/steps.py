"""Step functions as lines: corners put in, and no more of them than there are columns of pixels."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from typing import Any

from app.trade.statistics.picture import Curve


def stepped(x: Sequence[float], y: Sequence[float], until: float) -> tuple[Any, Any]:
    """Corners of the steps from (x[0], y[0]) to ``until``: two arrays of 2 n numbers."""
    import numpy as np

    xs = np.append(np.repeat(np.asarray(x, float), 2)[1:], max(until, x[-1]))
    return xs, np.repeat(np.asarray(y, float), 2)


def thinned(
    x: Sequence[float], *rows: Sequence[float], least: float, most: float, columns: int
) -> tuple[Any, ...]:
    """``x`` and ``rows`` with at most three places in each of ``columns`` columns between ``least`` and ``most``: the
    least, the greatest and the last of each row, so that nothing seen is lost. Short ones stay as they are."""
    import numpy as np

    xs = np.asarray(x, float)
    all_rows = [np.asarray(row, float) for row in rows]
    if len(xs) <= 3 * columns or most <= least:
        return (xs, *all_rows)
    column = np.floor((xs - least) / (most - least) * columns)
    starts = np.flatnonzero(np.r_[True, np.diff(column) != 0])
    lasts = np.r_[starts[1:] - 1, len(xs) - 1]
    made = [np.repeat(xs[lasts], 3)]
    made[0][:3] = xs[0]  # the curve begins where it begins
    for row in all_rows:
        kept = np.empty(3 * len(starts))
        kept[0::3] = np.minimum.reduceat(row, starts)
        kept[1::3] = np.maximum.reduceat(row, starts)
        kept[2::3] = row[lasts]
        made.append(kept)
    return tuple(made)


def band_of(curve: Curve) -> tuple[Any, Any] | None:
    """The lower and the upper end of a band, closed on the curve where they are not known; None without a band."""
    import numpy as np

    if len(curve.low) != len(curve.x) or len(curve.high) != len(curve.x):
        return None
    y = np.asarray(curve.y, float)
    ends = [np.asarray(row, float) for row in (curve.low, curve.high)]
    low, high = (np.where(np.isfinite(row), row, y) for row in ends)
    return low, high


def end_of(curve: Curve, most: float) -> tuple[float, float]:
    """Where a curve is last seen on an axis that ends at ``most``, and its value there."""
    x = min(max(curve.until, curve.x[-1]), most)
    return x, curve.y[max(bisect_right(curve.x, x) - 1, 0)]


def step_at(curve: Curve, x: float) -> int:
    """The place of the step that holds at ``x``, -1 before the curve begins or after it ends."""
    if not curve.x or x < curve.x[0] or x > max(curve.until, curve.x[-1]):
        return -1
    return bisect_right(curve.x, x) - 1
