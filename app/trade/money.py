"""Money as integer minor units with its ISO 4217 currency, and unit prices as integers of one millionth."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

# ISO 4217 exponents that are not 2 (the currencies a shop can choose; source: ISO 4217 list one).
DECIMALS = {"JPY": 0, "ISK": 0, "KRW": 0, "BHD": 3, "KWD": 3, "TND": 3}
MICRO = 1_000_000


def decimals(currency: str) -> int:
    """Number of decimals of an ISO 4217 currency."""
    return DECIMALS.get(currency, 2)


@dataclass(frozen=True, slots=True, order=False)
class Money:
    """An amount: ``minor`` in the currency's smallest unit (cents), ``currency`` by its ISO 4217 code."""

    minor: int
    currency: str

    def _same(self, other: Money) -> None:
        if self.currency != other.currency:
            raise ValueError(f"cannot mix {self.currency} and {other.currency}")

    def __add__(self, other: Money) -> Money:
        self._same(other)
        return Money(self.minor + other.minor, self.currency)

    def __sub__(self, other: Money) -> Money:
        self._same(other)
        return Money(self.minor - other.minor, self.currency)

    def __neg__(self) -> Money:
        return Money(-self.minor, self.currency)

    def __lt__(self, other: Money) -> bool:
        self._same(other)
        return self.minor < other.minor

    def __le__(self, other: Money) -> bool:
        self._same(other)
        return self.minor <= other.minor

    @property
    def amount(self) -> Decimal:
        """The amount in whole units, e.g. ``Decimal("12.50")``."""
        return Decimal(self.minor).scaleb(-decimals(self.currency))

    @classmethod
    def of(cls, amount: Decimal, currency: str) -> Money:
        """``amount`` in whole units, rounded half away from zero to the currency's decimals."""
        places = decimals(currency)
        scaled = amount.scaleb(places).quantize(Decimal(1), rounding=ROUND_HALF_UP)
        return cls(int(scaled), currency)


def total(amounts: list[Money], currency: str) -> Money:
    """Sum of amounts of one currency; zero for an empty list."""
    return Money(sum((_checked(a, currency) for a in amounts), 0), currency)


def _checked(amount: Money, currency: str) -> int:
    if amount.currency != currency:
        raise ValueError(f"cannot mix {amount.currency} and {currency}")
    return amount.minor
