"""Asks for the symptom words one by one: said, denied, or not asked."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import TYPE_CHECKING

from app.screens.bench.inline_form import Deed, InlineForm
from app.screens.kit.choice import Choice
from app.screens.kit.tips import plain_tip
from app.screens.language import say
from app.trade.bench.evidence import Asked
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.bench.symptoms import answer_symptoms, symptom_answers

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage

LABELS = 280


class SymptomsForm(InlineForm):
    """A row for each symptom word of the shop, as it was answered so far."""

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("Keep the answers"), label_width=LABELS)
        self.page = page
        self._read = False
        options = [(answer, say(answer.value)) for answer in Asked]
        for symptom in page.lists.symptoms:
            name = say(symptom.words)
            choice = Choice(name, options, Asked.NOT_ASKED)
            choice.setToolTip(plain_tip(say(symptom.why)))
            self.add(symptom.id, choice)
            self.form.row(name, choice)
        self._ask()

    def _ask(self) -> None:
        self.desk.doors.look_up(
            self, partial(symptom_answers, self.desk.book, self.page.job_id), self._show, self._not_read
        )

    def _not_read(self, error: Exception) -> None:
        self.failed.emit(error, self._ask)

    def _show(self, answers: Mapping[str, Asked]) -> None:
        self._read = True
        if not self.desk.drafts.read(self.key):
            self.fill(dict(answers))

    def deed(self, who: int) -> Deed:
        if not self._read:
            raise FieldRefusal({"": Sentence("One moment: the answers so far are still being read.")})
        answers = {word: Asked(choice.value()) for word, choice in self.named.items()}
        return partial(answer_symptoms, self.desk.book, who, self.page.job_id, answers)
