"""Something unsafe that the customer asked for: noted, and refused, the only way in which it is closed."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from app.screens.bench.inline_form import Deed, InlineForm, told
from app.screens.kit.fields import TextArea
from app.screens.language import say
from app.work.counter.requests import note_unsafe_request

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class RequestForm(InlineForm):
    """What was asked for, in the customer's words. It stops the job until it is refused."""

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("Note the request"))
        self.page = page
        about = told()
        about.setText(say("It stops the job until somebody refuses it; it cannot be closed otherwise."))
        self.form.row("", about)
        self.what = self.add("what", TextArea("", lines=2))
        self.form.row(say("Asked for"), self.what)

    def deed(self, who: int) -> Deed:
        return partial(note_unsafe_request, self.desk.book, who, self.page.job_id, self.what.text())
