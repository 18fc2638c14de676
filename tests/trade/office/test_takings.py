"""The takings of a day, by means."""

from __future__ import annotations

import pytest

from app.trade.bench.kinds import Means
from app.trade.money import Money
from app.trade.office.takings import by_means


def euro(minor: int) -> Money:
    return Money(minor, "EUR")


def test_each_means_says_what_came_in_went_out_and_is_left() -> None:
    cash, card, transfer = by_means(
        [(Means.CASH, euro(5000)), (Means.CARD, euro(199)), (Means.CASH, euro(-1250)), (Means.CASH, euro(1))],
        "EUR",
    )
    assert (cash.means, cash.count, cash.taken, cash.back, cash.sum) == (
        Means.CASH,
        3,
        euro(5001),
        euro(1250),
        euro(3751),
    )
    assert (card.count, card.sum) == (1, euro(199))
    assert (transfer.means, transfer.count, transfer.sum) == (Means.TRANSFER, 0, euro(0))


def test_two_currencies_are_never_added_up() -> None:
    with pytest.raises(ValueError, match="cannot mix"):
        by_means([(Means.CASH, Money(1, "GBP"))], "EUR")
