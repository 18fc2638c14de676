"""Striking a record out: it stays legible, with the reason."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from app.screens.bench.inline_form import Deed, InlineForm, told
from app.screens.kit.fields import Field
from app.screens.language import say
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.bench.strike_out import strike_out

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class StrikeForm(InlineForm):
    """Strikes out one record: ``kind`` as app.work.bench.strike_out names it, ``row`` its id, ``what`` in words."""

    def __init__(self, page: JobSheetPage, key: str, kind: str = "", row: int = 0, what: str = "") -> None:
        super().__init__(page.desk, key, say("Strike out"))
        self.hidden_values = {"kind": kind, "row": row, "what": what}
        self._what = told("body")
        self.form.row("", self._what)
        self.reason = self.add("reason", Field("", hint=say("Why? It stays legible with this reason.")))
        self.form.row(say("Reason"), self.reason)
        self.changed()

    def changed(self) -> None:
        self._what.setText(say("Strike out: {what}", what=self.hidden_values["what"]))

    def deed(self, who: int) -> Deed:
        reason = self.reason.text()
        if not reason:
            raise FieldRefusal(
                {"reason": Sentence("Say why it is struck out: it stays legible with the reason.")}
            )
        kind, row = self.hidden_values["kind"], self.hidden_values["row"]
        return partial(strike_out, self.desk.book, who, kind, row, reason)

    def first_field(self) -> Field:
        return self.reason  # type: ignore[no-any-return]
