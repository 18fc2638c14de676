"""What the book proposes for the invoice of a comeback within the guarantee, and the form where a person decides."""

from __future__ import annotations

from functools import partial
from typing import Any

from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.bench.inline_form import Deed, InlineForm
from app.screens.desk import Desk
from app.screens.kit.boxes import Column, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.choice import Choice
from app.screens.kit.fields import Field
from app.screens.kit.label import Label
from app.screens.language import moment, say
from app.screens.office.form_place import FormPlace
from app.screens.office.link_line import inset, link_line
from app.trade.office.guarantee import Answer
from app.work.office.guarantees import GuaranteeView, answer_guarantee


class GuaranteeForm(InlineForm):
    """The decision, filled in with what is proposed; another one needs its reason."""

    def __init__(self, desk: Desk, job_id: int, view: GuaranteeView, parent: QWidget | None = None) -> None:
        super().__init__(desk, f"guarantee {job_id}", say("Decide it so"), parent=parent)
        self._job = job_id
        answers = [(answer.value, say(answer.value)) for answer in Answer]
        self.answer = self.add("answer", Choice("", answers, view.proposal.answer.value))
        self.reason = self.add("reason", Field("", hint=say("needed where it is not as proposed")))
        self.form.row(say("The invoice"), self.answer)
        self.form.row(say("Reason"), self.reason)

    def deed(self, who: int) -> Deed:
        answer = Answer(self.answer.value())
        return partial(answer_guarantee, self.desk.book, who, self._job, answer, self.reason.text())


class GuaranteePart(QWidget):
    """The proposal with its reason, what was decided, and the form. Hidden where no guarantee ran."""

    def __init__(self, desk: Desk, job_id: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk, self._job = desk, job_id
        self.view: GuaranteeView | None = None
        self.title = Label(say("Comeback within the guarantee"), "strong")
        self.reason = Label("", wrap=True)
        self.decided = Label("", "soft", wrap=True)
        self.decide = Button(say("Decide"), self.open, kind="quiet")
        self.place = FormPlace()
        column = Column(self, gap=5, margins=(0, 9, 0, 14))
        column.addLayout(inset(self.title, self.reason, self.decided, link_line(self.decide)))
        column.add(self.place)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    def show_view(self, view: GuaranteeView | None) -> None:
        """Show what is proposed and was decided."""
        first, self.view = self.view is None, view
        set_shown(self, view is not None)
        if view is None:
            return
        proposed = say("Proposed: {answer}.", answer=say(view.proposal.answer.value))
        self.reason.setText(f"{say(view.proposal.reason)} {proposed}")
        self.decided.setText(_decided(view))
        self.decide.setText(say("Decide anew") if view.answered else say("Decide"))
        set_shown(self.decide, view.open)
        if first and view.open and self._desk.drafts.read(f"guarantee {self._job}"):
            self.open(focus=False)

    def open(self, *_: Any, focus: bool = True) -> None:
        """Open the form of the decision."""
        if self.view is not None and self.view.open:
            self.place.open(GuaranteeForm(self._desk, self._job, self.view), self.decide, focus=focus)


def _decided(view: GuaranteeView) -> str:
    if view.answered is None:
        return say("Nothing is decided yet: it is charged as it stands below.")
    words = say(
        "Decided: {answer}, {when}, {name}.",
        answer=say(view.answered.answer.value),
        when=moment(view.answered.at),
        name=view.answered.by,
    )
    if not view.answered.reason:
        return words
    return f"{words} {say('Reason: {reason}', reason=view.answered.reason)}"
