"""What a trial did, as the technician decides it, and what became of the change."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from app.screens.bench.failures import tell
from app.screens.bench.inline_form import Deed, InlineForm, beside, told
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.choice import Choice
from app.screens.kit.fields import Field
from app.screens.kit.measure import fix
from app.screens.kit.tick import Tick
from app.screens.language import say
from app.trade.bench.stages import Left, TrialOutcome
from app.trade.bench.trial_proposal import Proposal
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.bench.sheet_lines import TrialTile
from app.work.bench.trial_proposals import proposal_of
from app.work.bench.trials import judge_trial

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage

MEANS = {
    Left.PUT_BACK: Sentence("It is out again."),
    Left.LEFT_SO: Sentence("Nothing outside the maker’s design stays."),
    Left.LEFT_INSIDE: Sentence(
        "It departs from the maker’s design and stays: its modification is recorded next. "
        "It establishes no cause."
    ),
    Left.RAISED_PUT_BACK: Sentence(
        "More current, light, gain or supply than the maker’s data, out again. "
        "It overcomes what it does not mend, so it establishes no cause."
    ),
}


class JudgementForm(InlineForm):
    """Cured, better, no difference or worse, and what became of the change."""

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("Judge it"))
        self.page = page
        self.hidden_values = {"row": 0, "what": ""}
        self._what = told("body")
        self.form.row("", self._what)
        self.book_word, self.book_says = beside("strong"), told()
        self.take_link = Button(say("Take that"), self._take, kind="quiet")
        set_shown(self.take_link, False)
        fix(self.take_link, min_height=32)
        self.form.row(say("The book works out"), self.book_word, self.take_link)
        self.form.row("", self.book_says)
        self.proposal: Proposal | None = None
        self._asked_for = 0
        self.outcome = self.add("outcome", Choice("", [(o, say(o.value)) for o in TrialOutcome]))
        self.form.row(say("What it did"), self.outcome)
        self.left_field = self.add("left", Choice("", [(left, say(left.value)) for left in MEANS]))
        self.form.row(say("What became of it"), self.left_field)
        self._means = told()
        self.form.row("", self._means)
        self.came_back = self.add("came_back", Tick(say("the fault came back with the change undone")))
        self.form.row("", self.came_back)
        self.note = self.add("note", Field(""))
        self.form.row(say("Note"), self.note)

    def begin(self, trial: TrialTile) -> None:
        """Judge this trial; judged anew, its former judgement stands in the fields. A draft of it is kept."""
        draft = self.hidden_values["row"] == trial.id
        what = say("Trial {number}: {words}", number=trial.number, words=trial.words)
        self.hidden_values.update(row=trial.id, what=what)
        if not draft:
            self._filling = True
            self.outcome.set_value(trial.outcome)
            self.left_field.set_value(trial.left if trial.left in MEANS else None)
            self.came_back.setChecked(trial.came_back)
            self.note.set_text(trial.note)
            self._filling = False
        self.changed()

    @property
    def left_inside(self) -> bool:
        """Whether the change stays as a modification, which is recorded next."""
        return bool(self.left_field.value() == Left.LEFT_INSIDE)

    def changed(self) -> None:
        self._what.setText(self.hidden_values["what"])
        left = self.left_field.value()
        self._means.setText("" if left is None else say(MEANS[Left(left)]))
        set_shown(self._means, left is not None)
        set_shown(self.came_back, self.outcome.value() == TrialOutcome.CURED)
        row = self.hidden_values["row"]
        if row and row != self._asked_for:
            self._asked_for = row
            work = partial(proposal_of, self.desk.book, row)
            self.desk.doors.look_up(self, work, self._show_proposal, partial(tell, self.page.trouble))

    def _show_proposal(self, proposal: Proposal) -> None:
        """What the book makes of it, with its reasons; deciding is left to the technician."""
        self.proposal = proposal
        word = say("nothing yet") if proposal.outcome is None else say(proposal.outcome.value)
        self.book_word.setText(word)
        self.book_says.setText(lines_of(proposal))
        set_shown(self.take_link, proposal.outcome is not None)

    def _take(self) -> None:
        if self.proposal is not None and self.proposal.outcome is not None:
            self.outcome.set_value(self.proposal.outcome)
            self.keep_draft()

    def deed(self, who: int) -> Deed:
        outcome = self.outcome.value()
        if outcome is None:
            raise FieldRefusal({"outcome": Sentence("Say what it did.")})
        left = self.left_field.value()
        return partial(
            judge_trial,
            self.desk.book,
            who,
            self.hidden_values["row"],
            TrialOutcome(outcome),
            left=Left.NOT_SAID if left is None else Left(left),
            came_back=outcome == TrialOutcome.CURED and self.came_back.isChecked(),
            note=self.note.text(),
        )


def lines_of(proposal: Proposal) -> str:
    """What the book works out, a line for each reason."""
    return "\n".join(_begun(say(reason)) for reason in proposal.reasons)


def _begun(sentence: str) -> str:
    """With a capital, as it begins a line; a symbol such as z keeps its letter."""
    if sentence[1:2] == " ":
        return sentence
    return f"{sentence[:1].upper()}{sentence[1:]}"
