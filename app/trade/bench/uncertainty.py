"""Standard uncertainty of a reading (JCGM 100, the GUM): instrument, counting, repeatability, mean."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TypeAlias

from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence

COUNT_SECONDS = Decimal(10)  # least counting time of a counted quantity


@dataclass(frozen=True)
class Accuracy:
    """``percent`` of the reading, ``of_range`` (a share of the range, worked out to a size) and ``digits`` of
    ``step`` as half-width of a rectangle, and the step itself: u = sqrt((p/100 |y| + R + n d)^2 / 3 + d^2 / 12).
    ``step`` and ``of_range`` in the SI unit of the quantity."""

    percent: Decimal
    digits: Decimal
    step: Decimal
    of_range: Decimal = Decimal(0)


@dataclass(frozen=True)
class Fixed:
    """A standard uncertainty as it stands: a size in the SI unit and a share of the reading (0.01 is 1 %), one
    of them 0."""

    u: Decimal
    share: Decimal = Decimal(0)


@dataclass(frozen=True)
class Counted:
    """Events counted per second over T seconds, T at least 10: u = sqrt(C / T). Errors come in bursts, so
    this is a floor."""


@dataclass(frozen=True)
class Propagated:
    """Worked out from other readings, whose uncertainties decide."""


Model: TypeAlias = Accuracy | Fixed | Counted | Propagated


@dataclass(frozen=True)
class Repeatability:
    """What seating probe and disc anew does, where no repeats were taken: a share of the reading (0.02 is 2 %)
    and a size in the SI unit, one of them 0."""

    share: Decimal = Decimal("0.02")
    size: Decimal = Decimal(0)

    def at(self, value: Decimal) -> Decimal:
        """Its standard uncertainty at this value."""
        return abs(value) * self.share + self.size


@dataclass(frozen=True)
class Repeats:
    """Readings taken anew: their mean, the standard deviation s of one, and s / sqrt(n) of the mean."""

    mean: Decimal
    deviation: Decimal
    u_mean: Decimal
    count: int


@dataclass(frozen=True)
class Uncertainty:
    """Standard uncertainty ``u`` of a value and its two shares, all in the SI unit."""

    value: Decimal
    u: Decimal
    model: Decimal
    repeatability: Decimal


def combined(*parts: Decimal) -> Decimal:
    """Root sum square of independent standard uncertainties (JCGM 100, 5.1.2, sensitivities 1)."""
    return sum((part * part for part in parts), Decimal(0)).sqrt()


def model_u(model: Model, value: Decimal, seconds: Decimal | None = None) -> Decimal:
    """Standard uncertainty of one reading from its model alone, SI unit; ``seconds`` is the counting time.

    Counting for less than 10 s is a FieldRefusal. A propagated quantity has no model: ValueError.
    """
    if isinstance(model, Accuracy):
        half_width = model.percent / 100 * abs(value) + model.of_range + model.digits * model.step
        return (half_width * half_width / 3 + model.step * model.step / 12).sqrt()
    if isinstance(model, Fixed):
        return model.u + model.share * abs(value)
    if isinstance(model, Counted):
        time = COUNT_SECONDS if seconds is None else seconds
        if time < COUNT_SECONDS:
            raise FieldRefusal({"seconds": Sentence("Count for at least {n} seconds.", {"n": COUNT_SECONDS})})
        return (abs(value) / time).sqrt()
    raise ValueError("the uncertainty of a worked-out quantity comes from the readings behind it")


def mean_of(readings: Sequence[Decimal]) -> Repeats:
    """Mean of repeats; at least two, else ValueError. One set of three knows its deviation badly."""
    count = len(readings)
    if count < 2:
        raise ValueError("a mean with its spread needs at least two readings")
    mean = sum(readings, Decimal(0)) / count
    variance = sum(((r - mean) ** 2 for r in readings), Decimal(0)) / (count - 1)
    deviation = variance.sqrt()
    return Repeats(mean, deviation, deviation / Decimal(count).sqrt(), count)


def reading_u(
    model: Model, repeatability: Repeatability, value: Decimal, seconds: Decimal | None = None
) -> Uncertainty:
    """Uncertainty of one reading without repeats: model and usual repeatability in quadrature."""
    own, again = model_u(model, value, seconds), repeatability.at(value)
    return Uncertainty(value, combined(own, again), own, again)


def repeated_u(model: Model, readings: Sequence[Decimal], seconds: Decimal | None = None) -> Uncertainty:
    """Uncertainty of the mean of repeats: model at the mean, and s / sqrt(n)."""
    repeats = mean_of(readings)
    own = model_u(model, repeats.mean, seconds)
    return Uncertainty(repeats.mean, combined(own, repeats.u_mean), own, repeats.u_mean)


def ratio_u(value: Decimal, u: Decimal, reference: Decimal, u_reference: Decimal) -> tuple[Decimal, Decimal]:
    """Ratio of two independent readings with its standard uncertainty: the relative ones in quadrature.
    Neither may be 0 (ValueError): a relative uncertainty has no meaning there."""
    if not value or not reference:
        raise ValueError("a ratio needs two readings that are not 0")
    ratio = value / reference
    return ratio, abs(ratio) * combined(u / value, u_reference / reference)
