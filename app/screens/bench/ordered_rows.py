"""What became of orders of parts, in words, and the rows of those for one job."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from app.screens.kit.cells import Column, Figure, Row, Words
from app.screens.language import near_day, number, say
from app.trade.office.invoice import unit_words
from app.trade.office.part_orders import Ordered, OrderState
from app.work.bench.sheet_lines import OrderedPart


def ordered_columns() -> tuple[Column, ...]:
    """Part, how many, what became of it, and of whom it was ordered."""
    return (
        Column("part", say("Ordered for this job"), least=160, short=say("Ordered")),
        Column("much", say("How many"), 110, number=True),
        Column("state", say("Where it is"), 300),
        Column("supplier", say("Supplier"), 200),
    )


def ordered_row(at: int, part: OrderedPart, today: date) -> Row:
    """One part that was ordered for the job."""
    here = part.ordered.state is OrderState.HERE
    where = say("bin {name}", name=part.bin) if here and part.bin else ""
    return Row(
        at,
        (
            Words(part.code, part.words, strong=True, tip=part.words),
            Figure(number(part.ordered.quantity), say(unit_words(part.unit, Decimal(part.ordered.quantity)))),
            state_cell(part.ordered, today, where),
            Words(part.supplier, soft=True, tip=part.supplier),
        ),
    )


def state_cell(ordered: Ordered, today: date, second: str = "") -> Words:
    """Here, given up, or when it is expected; a late one stands out."""
    if not ordered.to_come:
        return Words(say(ordered.state.value), second, soft=ordered.state is OrderState.GIVEN_UP)
    if ordered.came:
        second = say("{n} still to come", n=ordered.to_come)
    late = ordered.days_late(today)
    if late:
        words = say("1 day late") if late == 1 else say("{n} days late", n=late)
        expected = say("expected {day}", day=near_day(ordered.expected_on, today))
        return Words(words, second or expected, strong=True, before="caution")
    return Words(say("expected {day}", day=near_day(ordered.expected_on, today)), second)
