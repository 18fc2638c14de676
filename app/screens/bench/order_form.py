"""Writing down that a part was ordered: of a part that is in sight, or for a job, where the part is still to be named."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from functools import partial
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.bench.inline_form import Deed, InlineForm, beside, told
from app.screens.bench.part_field import PartField
from app.screens.desk import Desk
from app.screens.kit.day_field import DayField
from app.screens.kit.fields import Field
from app.screens.language import say
from app.trade.money import MICRO
from app.trade.office.amounts import parse_quantity
from app.trade.office.invoice import unit_words
from app.trade.office.numbers import read_job_number
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.trade.settings.parts import LEAD_DAYS
from app.work.office.part_orders import OrderEntry, order_part
from app.work.office.parts import PartLine, parts, suppliers
from app.work.office.settings import shop_settings

NO_JOB = 0  # a number that no job has
NO_DAY = Sentence("No day can be read from this. Write 27 Nov, +8 or Fri.")


class OrderForm(InlineForm):
    """``part`` None: it is chosen here. ``job``: the number of the job that waits for it; None: asked for.

    The day follows from the supplier's time until somebody writes another.
    """

    def __init__(
        self,
        desk: Desk,
        key: str,
        *,
        part: PartLine | None = None,
        job: int | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(desk, key, say("Write the order down"), parent=parent)
        self._part, self._job, self._lead = part, job, 0
        self._seen: int | None = None  # the part whose supplier and time stand in the form
        self.part: PartField | None = None
        if part is None:
            self.part = self.add("part", PartField())
            self.form.row(say("Part"), self.part)
            self.about = told()
            self.form.row("", self.about)
        self.quantity = self.add("quantity", Field("", width=90))
        self.unit = beside()
        self.form.row(say("How many"), self.quantity, self.unit)
        self.supplier = self.add("supplier", Field("", width=260))
        self.form.row(say("Supplier"), self.supplier)
        self.ordered = self.add("ordered_on", DayField("", desk.today, day=desk.today()))
        self.expected = self.add("expected_on", DayField("", desk.today))
        self.form.row(say("Ordered on"), self.ordered, say("expected"), self.expected)
        self.job: Field | None = None
        if job is None:
            self.job = self.add("job", Field("", width=150, hint=say("its number")))
            self.form.row(say("For the job"), self.job)
        self.note = self.add("note", Field("", hint=say("order number, by telephone, price agreed")))
        self.form.row(say("Note"), self.note)
        self._proposed: date | None = None
        desk.doors.look_up(self, self._ask, self._show)

    def _ask(self) -> tuple[Any, Any, int]:
        book = self.desk.book
        return parts(book), suppliers(book), shop_settings(book)[LEAD_DAYS]

    def _show(self, found: tuple[Any, Any, int]) -> None:
        lines, names, self._lead = found
        self.supplier.set_seen(names)
        if self.part is not None:
            self.part.show_parts(lines)
        self.changed()

    def chosen(self) -> PartLine | None:
        """The part that is ordered."""
        return self._part if self.part is None else self.part.chosen()

    def changed(self) -> None:
        line = self.chosen()
        if self.part is not None:
            self.about.setText(self.part.about())
        if line is None or not self._lead:
            return
        self.unit.setText(say(unit_words(line.unit, Decimal(2))))
        if self._seen != line.id:
            self._seen = line.id
            if not self.supplier.text():
                self.supplier.set_text(line.supplier)
        ordered = self.ordered.day()
        if ordered is None or ordered > self.desk.today() or not self._may_propose():
            return  # of a day to come it is said on saving that it cannot be
        self._proposed = ordered + timedelta(days=line.lead_days or self._lead)
        if self.expected.day() != self._proposed:
            self.expected.set_day(self._proposed)

    def _may_propose(self) -> bool:
        """Whether no day was written by somebody."""
        return not self.expected.text() or (
            self._proposed is not None and self.expected.day() == self._proposed
        )

    def deed(self, who: int) -> Deed:
        wrong: dict[str, Sentence] = {}
        line = self.chosen()
        if line is None:
            wrong["part"] = Sentence("Choose a part from the list.")
        quantity = Decimal(0)
        try:
            quantity = Decimal(parse_quantity(self.quantity.text())) / MICRO
        except Refusal as refusal:
            wrong["quantity"] = refusal.sentence
        for name, field in (("ordered_on", self.ordered), ("expected_on", self.expected)):
            if field.is_wrong:
                wrong[name] = NO_DAY
        job = self._job
        if self.job is not None and self.job.text():
            job = read_job_number(self.job.text()) or NO_JOB
        if wrong or line is None:
            raise FieldRefusal(wrong)
        entry = OrderEntry(
            part_id=line.id,
            quantity=quantity,
            supplier=self.supplier.text(),
            ordered_on=self.ordered.day(),
            expected_on=self.expected.day(),
            job=job,
            note=self.note.text(),
        )
        return partial(order_part, self.desk.book, who, entry)
