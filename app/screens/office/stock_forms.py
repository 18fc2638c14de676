"""Receiving parts, and counting what is there."""

from __future__ import annotations

from decimal import Decimal
from functools import partial

from PySide6.QtWidgets import QWidget

from app.screens.bench.inline_form import Deed, InlineForm
from app.screens.desk import Desk
from app.screens.kit.fields import Field
from app.screens.language import say
from app.screens.office.charge_forms import read
from app.screens.office.setting_editors import decimal
from app.work.office.stock import count_part, receive_part


class StockForm(InlineForm):
    """Parts received, or with ``counted`` how many there are: the difference becomes a move of its own."""

    def __init__(
        self, desk: Desk, part_id: int, *, counted: bool = False, parent: QWidget | None = None
    ) -> None:
        name = "count" if counted else "receive"
        verb = say("Write the count down") if counted else say("Put them into stock")
        super().__init__(desk, f"{name} part {part_id}", verb, parent=parent)
        self._part, self._counted = part_id, counted
        self.quantity = self.add("quantity", Field("", width=100))
        hint = say("yearly count, after a mishap") if counted else say("from whom, which delivery note")
        self.note = self.add("note", Field("", hint=hint))
        self.form.row(say("There are") if counted else say("How many"), self.quantity)
        self.form.row(say("Note"), self.note)

    def deed(self, who: int) -> Deed:
        quantity: Decimal = read("quantity", decimal, self.quantity.text())
        call = count_part if self._counted else receive_part
        return partial(call, self.desk.book, who, self._part, quantity, note=self.note.text())
