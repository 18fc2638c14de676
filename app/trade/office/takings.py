"""The takings of a day: what came in and went out, by means."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from app.trade.bench.kinds import Means
from app.trade.money import Money


@dataclass(frozen=True, slots=True)
class Taken:
    """What one means came to: ``taken`` and ``back`` both at or above zero."""

    means: Means
    count: int
    taken: Money
    back: Money

    @property
    def sum(self) -> Money:
        """What is left in the till or on the account."""
        return self.taken - self.back


def by_means(payments: Iterable[tuple[Means, Money]], currency: str) -> tuple[Taken, ...]:
    """The takings of every means that there is, in their order; amounts given back are below zero."""
    sums = {means: [0, 0, 0] for means in Means}
    for means, amount in payments:
        if amount.currency != currency:
            raise ValueError(f"cannot mix {amount.currency} and {currency}")
        one = sums[means]
        one[0] += 1
        one[1 if amount.minor > 0 else 2] += abs(amount.minor)
    return tuple(
        Taken(means, count, Money(taken, currency), Money(back, currency))
        for means, (count, taken, back) in sums.items()
    )
