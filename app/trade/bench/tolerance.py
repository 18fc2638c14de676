"""Spread of a worked-out figure from the tolerances of its parts: worst case and independent."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from app.trade.bench.figures import as_decimal


@dataclass(frozen=True)
class Spread:
    """``low`` and ``high`` when all parts lie at their worst ends together; ``likely_percent`` is the root sum
    square of the independent shares (plus and minus per cent of the figure itself)."""

    low: Decimal
    high: Decimal
    likely_percent: Decimal
    likely_low: Decimal
    likely_high: Decimal


def spread(
    figure: Fraction,
    sensitivities: Sequence[Fraction],
    percents: Sequence[Decimal],
    ends: tuple[Fraction, Fraction],
) -> Spread:
    """Spread of ``figure``. ``sensitivities`` are relative (per cent of figure per per cent of part), one for
    each part with its tolerance in ``percents``; ``ends`` are the figure at its two worst corners."""
    squares = sum(
        ((share * Fraction(percent)) ** 2 for share, percent in zip(sensitivities, percents, strict=True)),
        Fraction(0),
    )
    likely = as_decimal(squares).sqrt()
    middle = as_decimal(figure)
    return Spread(
        low=as_decimal(min(ends)),
        high=as_decimal(max(ends)),
        likely_percent=likely,
        likely_low=middle * (1 - likely / 100),
        likely_high=middle * (1 + likely / 100),
    )
