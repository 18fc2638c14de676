"""What is measured: the quantities that ship, to be read, and the shop's own."""

from __future__ import annotations

from typing import Any

from app.screens.kit.cells import Column, Group, Leave, Row, Words
from app.screens.language import number, say
from app.screens.office.list_page import ListPage
from app.trade.bench.kinds import Arrangement
from app.trade.bench.quantities import Quantity
from app.trade.sentence import Sentence
from app.work.office.quantity_list import own_quantities, quantity_list

ARRANGEMENTS = {
    Arrangement.SWING_ARM: Sentence("swing arm only"),
    Arrangement.SLED: Sentence("sled only"),
}


class QuantitiesPage(ListPage):
    """Registered as ``quantities``; the shop's own stand first."""

    help_topic = "quantities"
    record = "quantity"
    words = Sentence("Quantities")
    add_words = Sentence("Add a quantity")
    empty_words = (Sentence("Quantities that are measured stand here"), Sentence(""))
    leaving = (Leave("instrument"), Leave("fits"), Leave("range"))
    kinds = frozenset({"quantities"})
    has_former = False

    def columns(self) -> tuple[Column, ...]:
        return (
            Column("words", say("Quantity"), 0, least=190),
            Column("unit", say("Unit"), 70),
            Column(
                "range",
                say("Typed from, to"),
                150,
                tip=say("Beyond it a value is taken for a slip of the hand"),
            ),
            Column("usual", say("Usual"), 270),
            Column(
                "needs", say("From rung"), 90, tip=say("The rung that must be reached before it can be read")
            ),
            Column("fits", say("Exists on"), 130),
            Column("instrument", say("Read with"), 200),
        )

    def fetch(self) -> Any:
        return quantity_list(self.desk.book), own_quantities(self.desk.book)

    def rows(self, found: Any) -> list[Row | Group]:
        quantities, own = found
        ours = [q for q in quantities if q.id in own and not own[q.id].shipped]
        changed = [q for q in quantities if q.id in own and own[q.id].shipped]
        rest = [q for q in quantities if q.id not in own]
        rows: list[Row | Group] = []
        for words, some in (
            (say("The shop's own"), ours),
            (say("Changed by the shop"), changed),
            (say("As they ship"), rest),
        ):
            if some:
                rows.append(Group(words, say("to be read here") if some is rest else ""))
                rows += [_row(quantity) for quantity in some]
        return rows


def range_words(quantity: Quantity) -> str:
    """The range that refuses slips, in the unit shown."""
    return say("{low} to {high}", low=number(quantity.low), high=number(quantity.high))


def fits_words(quantity: Quantity) -> str:
    """On which arrangement it exists."""
    return say(ARRANGEMENTS[quantity.arrangement]) if quantity.arrangement is not None else say("both")


def _row(quantity: Quantity) -> Row:
    return Row(
        quantity.id,
        (
            Words(say(quantity.words)),
            Words(quantity.unit.shown, soft=True),
            Words(range_words(quantity), soft=True),
            Words(say(quantity.usual) if quantity.usual else ""),
            Words(str(quantity.needs) if quantity.needs else say("any"), soft=not quantity.needs),
            Words(fits_words(quantity), soft=quantity.arrangement is None),
            Words(say(quantity.instrument) if quantity.instrument else "", soft=True),
        ),
    )
