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


def trimmed(value: Decimal, places: int) -> Decimal:
    """``value`` without zeros at its end beyond ``places`` decimals: 2.000000 becomes 2.0, 0.125 stays."""
    needed = value.normalize().as_tuple().exponent
    assert isinstance(needed, int)  # finite
    short = rounded(value, max(places, -needed))
    return short if len(format(short, "f")) < len(format(value, "f")) else value


def as_decimal(fraction: Fraction) -> Decimal:
    """A fraction as decimal number of the context's precision; exact where it ends within that."""
    return Decimal(fraction.numerator) / Decimal(fraction.denominator)
