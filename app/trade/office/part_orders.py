"""Parts that were ordered from a supplier: what is still to come, whether it is late, and what cannot be ordered."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from enum import StrEnum

from app.trade.office.stock import MOST
from app.trade.sentence import Sentence, words

LONGEST = timedelta(days=730)  # as long as a supplier's time may be


class OrderState(StrEnum):
    """What became of an order. It follows from its moves and from whether it was given up; nothing keeps it."""

    ON_ORDER = words("on order")
    PARTLY = words("partly here")
    HERE = words("here")
    GIVEN_UP = words("given up")


@dataclass(frozen=True, slots=True)
class Ordered:
    """One order: how many, how many of them came, when they are expected, and whether the rest was given up."""

    quantity: Decimal
    came: Decimal
    expected_on: date
    given_up: bool = False

    @property
    def to_come(self) -> Decimal:
        """How many are still on their way. More than was ordered leaves nothing to come."""
        return Decimal(0) if self.given_up else max(self.quantity - self.came, Decimal(0))

    @property
    def state(self) -> OrderState:
        """What became of it."""
        if self.given_up:
            return OrderState.GIVEN_UP
        if not self.to_come:
            return OrderState.HERE
        return OrderState.PARTLY if self.came else OrderState.ON_ORDER

    def days_late(self, today: date) -> int:
        """Days since it should have been here; 0 while it is not late, and when nothing is to come."""
        return max((today - self.expected_on).days, 0) if self.to_come else 0


def order_refused(quantity: Decimal, ordered_on: date, expected_on: date, today: date) -> dict[str, Sentence]:
    """What cannot be right about an order, by field."""
    wrong: dict[str, Sentence] = {}
    if not 0 < quantity <= MOST:
        wrong["quantity"] = Sentence("Say how many, more than 0.")
    if ordered_on > today:
        wrong["ordered_on"] = Sentence("What was ordered was ordered today or before.")
    if why := expected_refused(ordered_on, expected_on):
        wrong["expected_on"] = why
    return wrong


def expected_refused(ordered_on: date, expected_on: date) -> Sentence | None:
    """Why an order of this day cannot be expected on that one, or None."""
    if expected_on < ordered_on:
        return Sentence("It cannot come before it was ordered.")
    if expected_on - ordered_on > LONGEST:
        return Sentence("A supplier takes at most {most} days.", {"most": LONGEST.days})
    return None
