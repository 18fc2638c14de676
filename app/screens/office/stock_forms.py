"""Moves of stock: bought, taken from a donor, sent back, scrapped, and counting what is there."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from functools import partial

from PySide6.QtWidgets import QWidget

from app.screens.bench.donor_field import DonorField
from app.screens.bench.inline_form import Deed, InlineForm, told
from app.screens.desk import Desk
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.language import day, number, say
from app.screens.office.charge_forms import read
from app.screens.office.setting_editors import decimal
from app.trade.office.stock import MoveKind
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.office.part_orders import OrderLine, receive_order
from app.work.office.stock import (
    Donor,
    count_part,
    donors,
    receive_part,
    scrap_part,
    send_back_part,
    take_from_donor,
)

VERBS = {
    MoveKind.RECEIVED: Sentence("Put them into stock"),
    MoveKind.FROM_DONOR: Sentence("Take them out of the donor"),
    MoveKind.SENT_BACK: Sentence("Send them back"),
    MoveKind.SCRAPPED: Sentence("Scrap them"),
    MoveKind.COUNTED: Sentence("Write the count down"),
}
HINTS = {
    MoveKind.RECEIVED: Sentence("from whom, which delivery note"),
    MoveKind.FROM_DONOR: Sentence("how it looks, how far it was run"),
    MoveKind.SENT_BACK: Sentence("why, which delivery note"),
    MoveKind.SCRAPPED: Sentence("why: gone hard, dropped, wrong from the maker"),
    MoveKind.COUNTED: Sentence("yearly count, after a mishap"),
}
DEEDS = {
    MoveKind.RECEIVED: receive_part,
    MoveKind.SENT_BACK: send_back_part,
    MoveKind.SCRAPPED: scrap_part,
    MoveKind.COUNTED: count_part,
}


class StockForm(InlineForm):
    """One move of a part; of a count the difference becomes the move.

    ``orders``: what is received is of one of them, ``chosen`` unless another is taken, or of none.
    """

    def __init__(
        self,
        desk: Desk,
        part_id: int,
        kind: MoveKind,
        parent: QWidget | None = None,
        *,
        orders: Sequence[OrderLine] = (),
        chosen: int | None = None,
    ) -> None:
        super().__init__(desk, f"{kind.value} part {part_id}", say(VERBS[kind]), parent=parent)
        self._part, self.kind = part_id, kind
        self.donor: DonorField | None = None
        if kind is MoveKind.FROM_DONOR:
            self.donor = self.add("unit", DonorField())
            self.form.row(say("Donor"), self.donor)
            self.none = told()
            self.none_row = [self.form.row("", self.none)]
            self.form.show_rows(self.none_row, False)
            desk.doors.look_up(self, partial(donors, desk.book), self._show_donors)
        self.order: Combo | None = None
        if orders:
            first = orders[0].id if chosen is None else chosen
            self.order = self.add("order", Combo("", _orders(orders), first, width=380))
            self.form.row(say("Of the order"), self.order)
        self.quantity = self.add("quantity", Field("", width=100))
        self.note = self.add("note", Field("", hint=say(HINTS[kind])))
        counted = kind is MoveKind.COUNTED
        self.form.row(say("There are") if counted else say("How many"), self.quantity)
        self.form.row(say("Why") if kind is MoveKind.SCRAPPED else say("Note"), self.note)

    def _show_donors(self, found: Sequence[Donor]) -> None:
        assert self.donor is not None
        there = self.donor.show_donors(found)
        self.form.show_rows(self.none_row, not there)
        if not there:
            self.none.setText(
                say("No player stays here as a donor. A job that ends as “kept as donor” makes one.")
            )

    def deed(self, who: int) -> Deed:
        quantity: Decimal = read("quantity", decimal, self.quantity.text())
        book, note = self.desk.book, self.note.text()
        if self.order is not None and self.order.value() is not None:
            return partial(receive_order, book, who, self.order.value(), quantity, note=note)
        if self.donor is None:
            return partial(DEEDS[self.kind], book, who, self._part, quantity, note=note)
        if self.donor.value() is None:
            raise FieldRefusal({"unit": Sentence("Choose the player that it was taken from.")})
        return partial(take_from_donor, book, who, self._part, self.donor.value(), quantity, note=note)


def _orders(orders: Sequence[OrderLine]) -> list[tuple[int | None, str]]:
    """Each with its day and what is still to come of it, and none of them last."""
    told: list[tuple[int | None, str]] = [
        (
            line.id,
            say(
                "{day}, {count} to come, {supplier}",
                day=day(line.ordered_on),
                count=number(line.ordered.to_come),
                supplier=line.supplier,
            )
            if line.supplier
            else say("{day}, {count} to come", day=day(line.ordered_on), count=number(line.ordered.to_come)),
        )
        for line in orders
    ]
    return [*told, (None, say("of none"))]
