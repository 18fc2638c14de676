"""Correcting a reading: the wrong one is struck out with a reason, the right one taken under the same conditions."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from app.screens.bench.inline_form import Deed, InlineForm, told
from app.screens.kit.fields import Field
from app.screens.language import say
from app.trade.bench.quantities import Quantity
from app.trade.bench.reading_typed import read_reading
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.bench.readings import correct_reading

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class CorrectionForm(InlineForm):
    """The right value and why the other was wrong."""

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("Correct it"))
        self.page = page
        self.hidden_values = {"row": 0, "quantity": "", "what": ""}
        self._what = told("body")
        self.form.row("", self._what)
        self.value = self.add("value", Field("", width=130))
        self.form.row(say("Right value"), self.value)
        self.reason = self.add(
            "reason", Field("", hint=say("Why? The wrong value stays legible with this reason."))
        )
        self.form.row(say("Reason"), self.reason)

    def begin(self, row: int, quantity: str, what: str) -> None:
        """Correct this reading."""
        self.hidden_values.update(row=row, quantity=quantity, what=what)
        self.changed()

    def changed(self) -> None:
        self._what.setText(say("Instead of: {what}", what=self.hidden_values["what"]))
        quantity = self._quantity()
        typed = self.value.text()
        read = read_reading(quantity, typed, self._place()) if quantity is not None and typed else None
        self.value.set_error("")
        self.value.set_echo("" if read is None or isinstance(read, Sentence) else say(read.echo))

    def deed(self, who: int) -> Deed:
        wrong: dict[str, Sentence] = {}
        quantity = self._quantity()
        if quantity is not None:
            read = read_reading(quantity, self.value.text(), self._place())
            if isinstance(read, Sentence):
                wrong["value"] = read
        if not self.reason.text():
            wrong["reason"] = Sentence("Say why it is struck out: it stays legible with the reason.")
        if wrong:
            raise FieldRefusal(wrong)
        row, value, reason = self.hidden_values["row"], self.value.text(), self.reason.text()
        return partial(correct_reading, self.desk.book, who, row, value, reason)

    def first_field(self) -> Field:
        return self.value  # type: ignore[no-any-return]

    def _place(self) -> str:
        """Where the wrong one was read: the right one is taken there as well."""
        row = self.hidden_values["row"]
        return next((line.conditions for line in self.page.facts.readings if line.id == row), "")

    def _quantity(self) -> Quantity | None:
        code = self.hidden_values["quantity"]
        return next((q for q in self.page.lists.quantities if q.id == code), None)
