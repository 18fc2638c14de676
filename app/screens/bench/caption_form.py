"""What a photo or file shows, in a line under it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from app.screens.bench.inline_form import Deed, InlineForm, told
from app.screens.kit.fields import Field
from app.screens.language import say
from app.work.bench.files import caption_file

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class CaptionForm(InlineForm):
    """The former words stand in the field; empty takes them away."""

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("Keep the caption"))
        self.hidden_values = {"row": 0, "what": ""}
        self._what = told("body")
        self.form.row("", self._what)
        self.caption = self.add("caption", Field("", hint=say("what it shows: flex torn at the fold")))
        self.form.row(say("Caption"), self.caption)

    def begin(self, row: int, name: str, caption: str) -> None:
        """Write under this file."""
        self.hidden_values.update(row=row, what=name)
        self.caption.set_text(caption)
        self.changed()

    def changed(self) -> None:
        self._what.setText(self.hidden_values["what"])

    def deed(self, who: int) -> Deed:
        return partial(caption_file, self.desk.book, who, self.hidden_values["row"], self.caption.text())

    def first_field(self) -> Field:
        return self.caption  # type: ignore[no-any-return]
