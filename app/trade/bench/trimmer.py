"""A trimmer that was turned: no law holds for it, only readings before and after."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from app.trade.bench.difference import Difference, difference
from app.trade.bench.figures import rounded
from app.trade.bench.uncertainty import ratio_u
from app.trade.sentence import Sentence


@dataclass(frozen=True)
class TrimmerEffect:
    """The difference of the two readings, and their ratio with its standard uncertainty; the ratio is None where
    one of them is 0."""

    difference: Difference
    ratio: Decimal | None
    u_ratio: Decimal | None

    @property
    def summary(self) -> Sentence:
        """The effect in one line."""
        real = self.difference.sentence
        if self.ratio is None or self.u_ratio is None:
            return Sentence("Reading: {real}", {"real": real})
        return Sentence(
            "Reading ×{ratio} ± {u}: {real}",
            {"ratio": rounded(self.ratio, 3), "u": rounded(self.u_ratio, 3), "real": real},
        )


def trimmer_effect(before: Decimal, u_before: Decimal, after: Decimal, u_after: Decimal) -> TrimmerEffect:
    """Effect from two readings with their standard uncertainties. A trimmer turned without a reading before has
    none, and its way back is not known."""
    found = difference(before, u_before, after, u_after)
    if not before or not after:
        return TrimmerEffect(found, None, None)
    return TrimmerEffect(found, *ratio_u(after, u_after, before, u_before))
