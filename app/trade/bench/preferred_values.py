"""Preferred values of resistors (IEC 60063, series E24), and a change designed backwards from a wanted ratio."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from app.trade.bench.effects import Part, RatioEffect, parallel
from app.trade.bench.figures import as_decimal, significant
from app.trade.bench.modifications import Law
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Measure, Sentence

# The list of IEC 60063 itself: it differs from the rounded formula at 27 30 33 36 39 43 47 82.
E24 = (10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91)


@dataclass(frozen=True)
class Designed:
    """``exact`` ohm would give the wanted ratio, ``preferred`` is the nearest value one can buy, ``effect`` what
    that really gives."""

    exact: Decimal
    preferred: Decimal
    effect: RatioEffect

    @property
    def summary(self) -> Sentence:
        """What to fit and what it gives."""
        return Sentence(
            "{exact} would give it; with {preferred}: {effect}",
            {
                "exact": Measure(significant(self.exact, 3), "Ω"),
                "preferred": Measure(self.preferred, "Ω"),
                "effect": self.effect.summary,
            },
        )


def nearest_e24(ohms: Decimal) -> Decimal:
    """The E24 value nearest to ``ohms`` by difference, the lower one of two equally near. Above 0, else
    FieldRefusal."""
    if not ohms.is_finite() or ohms <= 0:
        raise FieldRefusal({"ohms": Sentence("This has to be more than 0.")})
    decade = ohms.adjusted() - 1
    candidates = [Decimal(value).scaleb(decade) for value in (*E24, 100)]
    return min(candidates, key=lambda candidate: (abs(candidate - ohms), candidate))


def added_for(maker: Decimal, ratio: Decimal) -> Designed:
    """The resistor to put across ``maker`` (ohm) so that the current becomes ``ratio`` times the maker's:
    R1 = R / (k - 1), law `CURRENT`. A ratio of 1 or less needs none: FieldRefusal."""
    if not ratio.is_finite() or ratio <= 1:
        raise FieldRefusal({"ratio": Sentence("A resistor across the maker's only raises the current.")})
    exact = as_decimal(Fraction(maker) / (Fraction(ratio) - 1))
    preferred = nearest_e24(exact)
    effect = parallel(Law.CURRENT, Part(maker), Part(preferred)).effect
    assert effect is not None  # the law is CURRENT
    return Designed(exact, preferred, effect)
