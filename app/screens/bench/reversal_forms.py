"""Putting a modification back, and assessing one that was found."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from app.screens.bench.inline_form import Deed, InlineForm, told
from app.screens.kit.fields import Field
from app.screens.kit.tick import Tick
from app.screens.language import say
from app.work.bench.modifications import assess_modification, reverse_modification

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class ReversalForm(InlineForm):
    """The maker's design is restored; the switch is tried after it where there is one."""

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("It is put back"))
        self.page = page
        self.hidden_values = {"row": 0, "what": ""}
        self._what = told("body")
        self.form.row("", self._what)
        self.note = self.add("note", Field("", hint=say("for a fuse: why it was wrong or blown")))
        self.form.row(say("Note"), self.note)
        self.tried = self.add("tried", Tick(say("the switch was tried after it")))
        self.form.row("", self.tried)
        self.waiting = page.waiting_trial()
        self.by_trial: Tick | None = None
        if self.waiting is not None:
            told_so = say(
                "it is what trial {number} changes: {words}",
                number=self.waiting.number,
                words=self.waiting.words,
            )
            self.by_trial = self.add("by_trial", Tick(told_so, True))
            self.form.row("", self.by_trial)

    def begin(self, row: int, what: str) -> None:
        """Put this one back."""
        self.hidden_values.update(row=row, what=what)
        self.changed()

    def changed(self) -> None:
        self._what.setText(say("Put back: {what}", what=self.hidden_values["what"]))

    def deed(self, who: int) -> Deed:
        return partial(
            reverse_modification,
            self.desk.book,
            who,
            self.hidden_values["row"],
            self.page.job_id,
            note=self.note.text(),
            tried=self.tried.isChecked(),
            trial_id=self._trial_id(),
        )

    def _trial_id(self) -> int | None:
        """The trial that waits, where putting it back is what it changes."""
        by = self.by_trial
        return self.waiting.id if self.waiting is not None and by is not None and by.isChecked() else None


class AssessmentForm(InlineForm):
    """What a found modification does, and why it stays."""

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("Assessed"))
        self.hidden_values = {"row": 0, "what": ""}
        self._what = told("body")
        self.form.row("", self._what)
        self.does = self.add("words", Field("", hint=say("what it does, and why it stays")))
        self.form.row(say("It does"), self.does)

    def begin(self, row: int, what: str) -> None:
        """Assess this one."""
        self.hidden_values.update(row=row, what=what)
        self.changed()

    def changed(self) -> None:
        self._what.setText(self.hidden_values["what"])

    def deed(self, who: int) -> Deed:
        words = self.does.text()
        return partial(assess_modification, self.desk.book, who, self.hidden_values["row"], words)
