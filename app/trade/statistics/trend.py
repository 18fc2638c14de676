"""A straight line through readings in time, what it allows to say of the next one, and where it meets a limit."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

FEWEST_POINTS = 3  # below, nothing is left over to tell how far readings lie from their line
CONFIDENCE = 0.95


def student_quantile(degrees: int, confidence: float = CONFIDENCE) -> float:
    """t such that Student's t with ``degrees`` of freedom lies within ±t with this probability, 0 to 1."""
    from scipy.special import stdtrit

    if degrees < 1 or not 0 < confidence < 1:
        raise ValueError(f"no quantile for {degrees} degrees of freedom at {confidence}")
    return float(stdtrit(degrees, (1 + confidence) / 2))


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line by least squares. x and y carry whatever units the readings came in.

    ``slope`` is y per x, ``middle`` the mean of x, ``height`` the mean of y (the line goes through both), ``spread``
    the sum of squared distances of x from ``middle``, ``scatter`` the standard deviation of the residuals with
    count - 2 degrees of freedom; ``first`` and ``last`` are the least and the greatest x.
    """

    count: int
    slope: float
    middle: float
    height: float
    spread: float
    scatter: float
    first: float
    last: float

    @property
    def degrees(self) -> int:
        """Degrees of freedom of the residuals."""
        return self.count - 2

    @property
    def intercept(self) -> float:
        """y at x = 0."""
        return self.height - self.slope * self.middle

    @property
    def slope_error(self) -> float:
        """Standard error of the slope: scatter / sqrt(spread)."""
        return self.scatter / math.sqrt(self.spread)

    @property
    def intercept_error(self) -> float:
        """Standard error of the intercept."""
        return self.scatter * math.sqrt(1 / self.count + self.middle**2 / self.spread)

    def at(self, x: float) -> float:
        """y of the line at x."""
        return self.height + self.slope * (x - self.middle)

    def slope_interval(self, confidence: float = CONFIDENCE) -> tuple[float, float]:
        """Between which two slopes the true one lies with this probability (Student's t, count - 2 degrees)."""
        half = student_quantile(self.degrees, confidence) * self.slope_error
        return (self.slope - half, self.slope + half)

    def rises_or_falls(self, confidence: float = CONFIDENCE) -> bool:
        """Whether the slope's interval leaves out zero: otherwise the readings may as well lie level."""
        low, high = self.slope_interval(confidence)
        return low > 0 or high < 0

    def band(self, x: float, confidence: float = CONFIDENCE) -> tuple[float, float]:
        """Between which two values one further reading at x lies with this probability.

        Prediction band of simple linear regression: at(x) ± t s sqrt(1 + 1/n + (x - mean)² / Sxx), Student's t
        with n - 2 degrees (N. R. Draper, H. Smith, Applied Regression Analysis, chapter 1; from memory). It knows
        the scatter of the readings only, and takes them as independent and equally uncertain.
        """
        half = student_quantile(self.degrees, confidence) * self.scatter
        half *= math.sqrt(1 + 1 / self.count + (x - self.middle) ** 2 / self.spread)
        return (self.at(x) - half, self.at(x) + half)

    def meets(self, limit: float, confidence: float = CONFIDENCE) -> Crossing | None:
        """Where line and band reach ``limit``; None when no trend is shown, as then the band never leaves it.

        The ends are where the edges of `band` equal the limit: the roots d of
        (height + slope d - limit)² = t² s² (1 + 1/n + d² / Sxx). Exactly when the slope's interval leaves out zero
        the leading coefficient slope² - t² s² / Sxx is above 0 and both roots are real (E. C. Fieller, J. R. Stat.
        Soc. B 16 (1954) 175, inverse prediction; from memory).
        """
        if not self.rises_or_falls(confidence):
            return None
        t_s = student_quantile(self.degrees, confidence) * self.scatter
        away = self.height - limit
        square = self.slope**2 - t_s**2 / self.spread
        half = self.slope * away
        rest = away**2 - t_s**2 * (1 + 1 / self.count)
        # half² - square rest, written so that it stays above zero in floating point as it does on paper
        inner = t_s**2 * (away**2 / self.spread + square * (1 + 1 / self.count))
        reach = math.sqrt(inner)
        far = -(half + math.copysign(reach, half))
        near = rest / far if far else 0.0
        low, high = sorted((far / square, near))
        return Crossing(self.middle - away / self.slope, self.middle + low, self.middle + high)


@dataclass(frozen=True, slots=True)
class Crossing:
    """Where a line meets a limit, as x, and between which x its band does."""

    at: float
    earliest: float
    latest: float


def fit_line(x: Sequence[float], y: Sequence[float]) -> Line:
    """The straight line with the least sum of squared distances in y; ``x`` and ``y`` are equally long, in order.

    Raises ValueError for fewer than three points, for unequal lengths, for anything not finite and where all x are
    the same. Both are centred first, so that dates far from zero cost no digits (normal equations; C. F. Gauss).
    """
    import numpy as np

    if len(x) != len(y):
        raise ValueError(f"{len(x)} places for {len(y)} values")
    if len(x) < FEWEST_POINTS:
        raise ValueError(f"a line with its scatter needs {FEWEST_POINTS} points, not {len(x)}")
    xs, ys = np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64)
    if not (np.isfinite(xs).all() and np.isfinite(ys).all()):
        raise ValueError("only finite numbers lie on a line")
    middle, height = float(xs.mean()), float(ys.mean())
    dx, dy = xs - middle, ys - height
    spread = float(dx @ dx)
    if spread == 0:
        raise ValueError("points at one x have no slope")
    slope = float(dx @ dy) / spread
    left = dy - slope * dx
    scatter = math.sqrt(float(left @ left) / (len(xs) - 2))
    return Line(len(xs), slope, middle, height, spread, scatter, float(xs.min()), float(xs.max()))
