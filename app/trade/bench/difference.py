"""Difference of two readings of one quantity, and whether it is a real change."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from app.trade.bench.uncertainty import Accuracy, Model, Repeatability, combined, model_u, ratio_u
from app.trade.sentence import Sentence, words

REAL = Decimal(2)  # |z| above which a change counts as real


class Between(StrEnum):
    """What happened to instrument, probe and disc between two readings.

    Same instrument: its gain and offset errors cancel. Left on: nothing was seated anew, so repeatability
    drops out as well.
    """

    OTHER_INSTRUMENT = words("another instrument")
    SEATED_ANEW = words("same instrument, seated anew")
    LEFT_ON = words("same instrument, left on")


@dataclass(frozen=True)
class Difference:
    """``d`` = after - before and its standard uncertainty, SI unit. ``z`` = d / u, None where u is 0."""

    before: Decimal
    after: Decimal
    d: Decimal
    u: Decimal

    @property
    def z(self) -> Decimal | None:
        """The difference in units of its uncertainty."""
        return self.d / self.u if self.u else None

    @property
    def real(self) -> bool:
        """A real change; otherwise no difference is shown."""
        return abs(self.d) > REAL * self.u

    @property
    def sentence(self) -> Sentence:
        """The word for it."""
        return Sentence("a real change") if self.real else Sentence("no difference shown")


def difference(before: Decimal, u_before: Decimal, after: Decimal, u_after: Decimal) -> Difference:
    """Difference of two independent readings with their standard uncertainties."""
    return Difference(before, after, after - before, combined(u_before, u_after))


def difference_by(
    model: Model,
    repeatability: Repeatability,
    before: Decimal,
    after: Decimal,
    between: Between,
    seconds: Decimal | None = None,
) -> Difference:
    """Difference of two single readings of one quantity; what one instrument adds to both cancels.

    With the same instrument the gain error acts on the difference alone and the fixed digits drop out; of the
    model the two steps stay. Counted and fixed models have nothing that cancels.
    """
    d = after - before
    if isinstance(model, Accuracy) and between is not Between.OTHER_INSTRUMENT:
        own = (
            (model.percent / 100 * d) ** 2 / 3 + model.step * model.step / 6  # two steps of d^2 / 12
        ).sqrt()
    else:
        own = combined(model_u(model, before, seconds), model_u(model, after, seconds))
    again = (
        Decimal(0)
        if between is Between.LEFT_ON
        else combined(repeatability.at(before), repeatability.at(after))
    )
    return Difference(before, after, d, combined(own, again))


def ratio_between(
    before: Decimal, u_before: Decimal, after: Decimal, u_after: Decimal
) -> tuple[Decimal, Decimal]:
    """Ratio after / before of two readings, with its standard uncertainty."""
    return ratio_u(after, u_after, before, u_before)
