"""Writing down that the reorder list was sent to a supplier: all its parts in one action, as many as it says."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from functools import partial

from PySide6.QtWidgets import QWidget

from app.screens.bench.inline_form import Deed, InlineForm, told
from app.screens.bench.order_form import NO_DAY
from app.screens.desk import Desk
from app.screens.kit.combo import Combo
from app.screens.kit.day_field import DayField
from app.screens.kit.fields import Field
from app.screens.language import number, say
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.office.part_orders import OrderEntry, order_parts
from app.work.office.reorder_list import ReorderLine


class OrderListForm(InlineForm):
    """``lines``: what is to order now. A part without a supplier is ordered on its own page."""

    def __init__(self, desk: Desk, lines: Sequence[ReorderLine], parent: QWidget | None = None) -> None:
        super().__init__(desk, "reorder-list", say("Write the orders down"), parent=parent)
        self._lines = tuple(line for line in lines if line.found.order and line.part.supplier)
        names = list(dict.fromkeys(line.part.supplier for line in self._lines))
        options = [(name, name) for name in names]
        self.supplier = self.add("supplier", Combo("", options, names[0], width=300))
        self.form.row(say("Supplier"), self.supplier)
        self.what = told()
        self.form.row("", self.what)
        self.ordered = self.add("ordered_on", DayField("", desk.today, day=desk.today()))
        self.expected = self.add("expected_on", DayField("", desk.today))
        empty = told()
        empty.setText(say("empty: after each part's own time"))
        self.form.row(say("Ordered on"), self.ordered, say("expected"), self.expected)
        self.form.row("", empty)
        self.note = self.add("note", Field("", hint=say("order number, by telephone, price agreed")))
        self.form.row(say("Note"), self.note)
        self.changed()

    def chosen(self) -> list[ReorderLine]:
        """The lines of the supplier that is chosen."""
        return [line for line in self._lines if line.part.supplier == self.supplier.value()]

    def changed(self) -> None:
        parts = [f"{number(line.found.order)} × {line.part.code}" for line in self.chosen()]
        self.what.setText(", ".join(parts))

    def deed(self, who: int) -> Deed:
        wrong: dict[str, Sentence] = {}
        for name, field in (("ordered_on", self.ordered), ("expected_on", self.expected)):
            if field.is_wrong:
                wrong[name] = NO_DAY
        if wrong:
            raise FieldRefusal(wrong)
        entries = [
            OrderEntry(
                part_id=line.part.id,
                quantity=Decimal(line.found.order),
                supplier=line.part.supplier,
                ordered_on=self.ordered.day(),
                expected_on=self.expected.day(),
                note=self.note.text(),
            )
            for line in self.chosen()
        ]
        return partial(order_parts, self.desk.book, who, entries)
