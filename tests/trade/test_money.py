"""Money in minor units, with its currency."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.money import Money, decimals, total


def test_money_is_added_taken_off_and_compared_in_one_currency() -> None:
    assert Money(150, "EUR") + Money(50, "EUR") == Money(200, "EUR")
    assert Money(150, "EUR") - Money(200, "EUR") == Money(-50, "EUR")
    assert -Money(150, "EUR") == Money(-150, "EUR")
    assert Money(1, "EUR") < Money(2, "EUR")
    assert Money(2, "EUR") <= Money(2, "EUR")
    assert not Money(2, "EUR") < Money(2, "EUR")
    assert total([Money(1, "EUR"), Money(2, "EUR")], "EUR") == Money(3, "EUR")
    assert total([], "JPY") == Money(0, "JPY")


def test_two_currencies_are_never_mixed() -> None:
    euro, dollar = Money(1, "EUR"), Money(1, "USD")
    for mixed in (
        lambda: euro + dollar,
        lambda: euro - dollar,
        lambda: euro < dollar,
        lambda: euro <= dollar,
        lambda: total([euro], "USD"),
    ):
        with pytest.raises(ValueError, match="cannot mix EUR and USD"):
            mixed()


@pytest.mark.parametrize(
    ("currency", "places", "amount"),
    # Exponents as in ISO 4217 list one.
    [("EUR", 2, "1234.50"), ("JPY", 0, "123450"), ("KWD", 3, "123.450")],
)
def test_each_currency_has_its_own_decimals(currency: str, places: int, amount: str) -> None:
    assert decimals(currency) == places
    assert str(Money(123450, currency).amount) == amount


def test_half_a_cent_is_rounded_away_from_zero() -> None:
    assert Money.of(Decimal("0.005"), "EUR") == Money(1, "EUR")
    assert Money.of(Decimal("-0.005"), "EUR") == Money(-1, "EUR")
    assert Money.of(Decimal("0.0049"), "EUR") == Money(0, "EUR")
    assert Money.of(Decimal("0.5"), "JPY") == Money(1, "JPY")


@given(st.integers(-(10**15), 10**15), st.sampled_from(["EUR", "JPY", "KWD"]))
def test_every_amount_comes_back(minor: int, currency: str) -> None:
    money = Money(minor, currency)
    assert Money.of(money.amount, currency) == money
