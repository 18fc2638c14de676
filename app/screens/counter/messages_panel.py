"""What was said with the customer on one job, oldest first, and the two forms that add to it."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.bench.inline_form import InlineForm
from app.screens.bench.text_lines import TextLine, TextLines
from app.screens.counter.said_forms import AgreementForm, MessageForm
from app.screens.desk import Desk
from app.screens.kit.boxes import Column, Flow, Row, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.language import moment, money, say
from app.trade.bench.stages import said
from app.work.counter.messages import SaidLine, what_was_said


class MessagesPanel(QWidget):
    """Put it on a page and `load`. `failed` brings an error that belongs to no field and the call that tries
    again; ``customer`` and ``modifications`` are what the form of a yes or no proposes."""

    failed = Signal(object, object)

    def __init__(
        self,
        desk: Desk,
        job_id: int,
        *,
        customer: str = "",
        modifications: Sequence[tuple[int, str]] = (),
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.desk, self.job_id = desk, job_id
        self.customer, self.modifications = customer, tuple(modifications)
        self.open: InlineForm | None = None
        self.add_link = Button(
            say("Write down a call or message"), self.add_message, kind="quiet", key="Ctrl+Shift+C"
        )
        self.agree_link = Button(
            say("Record a yes or no"), self.add_agreement, kind="quiet", key="Ctrl+Shift+Y"
        )
        links = QWidget()
        Flow(links, gap=18, line_gap=2).add(self.add_link, self.agree_link)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        links.setSizePolicy(policy)
        head = Row(gap=18, margins=(9, 0, 9, 0))
        head.add(Label(say("Said with the customer"), "strong"))
        head.add(links, stretch=1)
        self.lines = TextLines(say("Said with the customer"))
        self._nothing = Label(say("Nothing was written down yet."), "soft")
        self._forms = Column()
        column = Column(self, gap=7)
        column.addLayout(head)
        column.addLayout(self._forms)
        column.add(self.lines, self._nothing)
        self._nothing.setContentsMargins(9, 0, 0, 0)
        set_shown(self.lines, False)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    def load(self) -> None:
        """Ask the book for the lines."""
        self.desk.doors.look_up(
            self,
            partial(what_was_said, self.desk.book, self.job_id),
            self.show_lines,
            lambda error: self.failed.emit(error, self.load),
        )

    def show_lines(self, lines: Sequence[SaidLine]) -> None:
        """Show what was said."""
        self.lines.set_lines([line_of(line) for line in lines])
        set_shown(self.lines, bool(lines))
        set_shown(self._nothing, not lines)

    def add_message(self) -> InlineForm:
        """Open the form of a call or message, its text in focus."""
        return self._open(lambda: MessageForm(self.desk, self.job_id, f"job {self.job_id} message"))

    def add_agreement(self, modification_id: int | None = None, what: str = "") -> InlineForm:
        """Open the form of a yes or no, about a modification where one is given."""

        def made() -> AgreementForm:
            return AgreementForm(
                self.desk,
                self.job_id,
                f"job {self.job_id} agreement",
                customer=self.customer,
                modifications=self.modifications,
            )

        form = self._open(made)
        if modification_id is not None and isinstance(form, AgreementForm):
            form.about(modification_id, what)
        return form

    def _open(self, make: Any) -> InlineForm:
        self._close()
        form: InlineForm = make()
        form.take_draft()
        form.saved.connect(self._saved)
        form.left.connect(self._left)
        form.failed.connect(self.failed)
        self._forms.addWidget(form)
        self.open = form
        form.show()  # the layout would show it later, and what is not in sight takes no focus
        form.focus_first()
        return form

    def _saved(self, done: Any) -> None:
        self._close()
        self.load()
        self.add_link.setFocus()

    def _left(self) -> None:
        self._close()
        self.add_link.setFocus()

    def _close(self) -> None:
        if self.open is not None:
            self._forms.removeWidget(self.open)
            self.open.hide()
            self.open.deleteLater()
            self.open = None


def line_of(line: SaidLine) -> TextLine:
    """One line: when, by which way and who wrote it down, then what was said."""
    before = say("{when}, {way}", when=moment(line.at, "d MMM y, HH:mm"), way=say(said(line.way)))
    if line.agreement is None:
        who = say("to the customer") if line.to_customer else say("from the customer")
        text = f"{line.text}"
        if line.with_whom:
            who = f"{who}, {line.with_whom}"
        return TextLine(line.id, before, f"{text}  ({who}; {line.by})")
    about = said(line.agreement)
    text = say("Yes to {what}", what=about) if line.yes else say("No to {what}", what=about)
    if line.amount is not None:
        text = say("{text}, up to {amount}", text=text, amount=money(line.amount))
    return TextLine(("agreement", line.id), before, f"{text}: {line.text}  ({line.with_whom}; {line.by})")
