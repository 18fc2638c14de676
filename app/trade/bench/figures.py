"""How worked-out figures are rounded before they are said."""

from __future__ import annotations

from collections.abc import Sequence
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


def shown_u(u: Decimal | None) -> Decimal | None:
    """A standard uncertainty as it is said: one figure, two where the first is a 1 or a 2; nothing for none."""
    if not u:
        return None
    figures = 2 if u.normalize().as_tuple().digits[0] in (1, 2) else 1
    return rounded(u, max(0, figures - 1 - u.adjusted()))


def alike(ends: Sequence[Decimal]) -> list[Decimal]:
    """Limits with as many decimals as the one that needs most: 0.8 and 1.4, 0.80 and 1.25."""
    places = max((max(0, -_exponent(end.normalize())) for end in ends), default=0)
    return [end.quantize(Decimal(1).scaleb(-places)) for end in ends]


def _exponent(value: Decimal) -> int:
    exponent = value.as_tuple().exponent
    assert isinstance(exponent, int)  # finite
    return exponent
