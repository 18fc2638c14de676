"""Whether the fault of an earlier job came back, in the technician's word, with the usual reasons at hand."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QWidget

from app.screens.bench.inline_form import Deed, InlineForm, told
from app.screens.kit.boxes import Flow
from app.screens.kit.buttons import Button
from app.screens.kit.choice import Choice
from app.screens.kit.fields import Field
from app.screens.language import say
from app.trade.bench.comeback import USUAL_REASONS
from app.trade.bench.kinds import ComebackStanding
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.bench.comeback_word import confirm_comeback, deny_comeback

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class ComebackForm(InlineForm):
    """It is one, or it is none and why. A usual reason is put into the field, where it can be gone on with."""

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("Keep it"))
        self.page = page
        about = told("body")
        about.setText(
            say("Is it the fault of job {number} that came back?", number=str(page.facts.comeback_of))
        )
        self.form.row("", about)
        self.standing = self.add(
            "standing",
            Choice(
                "",
                [
                    (ComebackStanding.CONFIRMED, say("the same fault")),
                    (ComebackStanding.DENIED, say("another fault")),
                ],
            ),
        )
        self.form.row(say("It is"), self.standing)
        self.reason = self.add("reason", Field("", hint=say("needed where it is another fault")))
        self.form.row(say("Reason"), self.reason)
        self.usual = [Button(say(words), partial(self._take, words), kind="quiet") for words in USUAL_REASONS]
        offered = QWidget()
        Flow(offered, gap=14).add(*self.usual)
        self.form.row(say("Usual ones"), offered)

    def begin(self, standing: ComebackStanding) -> None:
        """Open with this answer, unless a draft says otherwise."""
        if self.standing.value() is None:
            self.standing.set_value(standing)

    def first_field(self) -> QWidget | None:
        denied = self.standing.value() == ComebackStanding.DENIED
        return self.reason if denied else None

    def _take(self, words: str) -> None:
        self.standing.set_value(ComebackStanding.DENIED)
        self.reason.set_text(say(words))
        self.keep_draft()
        self.save_button.setFocus()

    def deed(self, who: int) -> Deed:
        standing = self.standing.value()
        if standing is None:
            raise FieldRefusal({"standing": Sentence("Say whether it is one.")})
        typed = self.reason.text().strip()
        reason = next((words for words in USUAL_REASONS if say(words) == typed), typed)
        decide = confirm_comeback if standing == ComebackStanding.CONFIRMED else deny_comeback
        return partial(decide, self.desk.book, who, self.page.job_id, reason, version=self.page.facts.version)
