"""Orders of parts: what is still to come, what became of one, when it is late, and what cannot be ordered."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest

from app.trade.office.part_orders import Ordered, OrderState, expected_refused, order_refused

TODAY = date(2026, 11, 25)


def ordered(quantity="20", came="0", expected=TODAY, given_up=False):
    return Ordered(Decimal(quantity), Decimal(came), expected, given_up)


@pytest.mark.parametrize(
    ("order", "to_come", "state"),
    [
        (ordered(), 20, OrderState.ON_ORDER),
        (ordered(came="12.5"), Decimal("7.5"), OrderState.PARTLY),
        (ordered(came="20"), 0, OrderState.HERE),
        (ordered(came="25"), 0, OrderState.HERE),
        (ordered(came="5", given_up=True), 0, OrderState.GIVEN_UP),
    ],
)
def test_what_became_of_an_order_follows_from_what_came(order, to_come, state):
    assert (order.to_come, order.state) == (to_come, state)


def test_an_order_is_late_from_the_day_after_it_was_expected_until_it_is_here():
    assert ordered().days_late(TODAY) == 0
    assert ordered().days_late(TODAY + timedelta(days=3)) == 3
    assert ordered(came="20").days_late(TODAY + timedelta(days=3)) == 0
    assert ordered(given_up=True).days_late(TODAY + timedelta(days=3)) == 0


def test_each_field_that_cannot_be_right_is_named():
    tomorrow, yesterday = TODAY + timedelta(days=1), TODAY - timedelta(days=1)
    assert order_refused(Decimal(1), TODAY, TODAY, TODAY) == {}
    assert set(order_refused(Decimal(0), tomorrow, TODAY, TODAY)) == {
        "quantity",
        "ordered_on",
        "expected_on",
    }
    assert set(order_refused(Decimal(1_000_001), yesterday, yesterday, TODAY)) == {"quantity"}


def test_no_order_is_expected_before_it_was_made_or_after_two_years():
    assert expected_refused(TODAY, TODAY + timedelta(days=730)) is None
    assert expected_refused(TODAY, TODAY + timedelta(days=731)).values == {"most": 730}
    assert "before" in expected_refused(TODAY, TODAY - timedelta(days=1)).key
