"""How worked-out figures are rounded before they are said."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction


def rounded(value: Decimal, places: int) -> Decimal:
    """``value`` to ``places`` decimals, half away from zero; places below 0 round to tens, hundreds."""
    return value.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP)


def significant(value: Decimal, figures: int) -> Decimal:
    """``value`` to so many significant figures, at least its whole part."""
    if not value:
        return Decimal(0)
    return rounded(value, max(0, figures - 1 - value.adjusted()))


def as_decimal(fraction: Fraction) -> Decimal:
    """A fraction as decimal number of the context's precision; exact where it ends within that."""
    return Decimal(fraction.numerator) / Decimal(fraction.denominator)
