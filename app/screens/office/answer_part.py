"""What the customer answered to an estimate, what the invoice takes over, and a declined player's way back."""

from __future__ import annotations

from functools import partial
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.bench.inline_form import Deed, InlineForm
from app.screens.bench.text_lines import TextLine, TextLines
from app.screens.counter.said_forms import WhenRow
from app.screens.counter.words_area import WordsArea
from app.screens.desk import Desk
from app.screens.kit.boxes import Column, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.choice import Choice
from app.screens.kit.fields import Field
from app.screens.kit.gates import GateFacts, GateRow
from app.screens.kit.label import Label
from app.screens.kit.tick import Tick
from app.screens.language import moment, money, say
from app.screens.office.estimate_lines import taken_words
from app.screens.office.form_place import FormPlace
from app.screens.office.link_line import inset, link_line
from app.trade.bench.stages import Way, said
from app.trade.office.estimate import Taken, WayStep
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.office.estimate_answers import AnswerEntry, record_answer, set_taken
from app.work.office.estimate_view import AnswerView, EstimateNow, EstimateView

NONE = "none"
# Where a step of the way back is done: a page, or the sheet of the job.
PAGES = {"invoice": "invoice", "hand back": "hand_back"}


class AnswerForm(InlineForm):
    """Which option, who said so, by which way, when, and in which words."""

    def __init__(
        self, desk: Desk, view: EstimateView, out: EstimateNow, parent: QWidget | None = None
    ) -> None:
        super().__init__(desk, f"estimate {view.job_id} answer", say("Record the answer"), parent=parent)
        self._out = out
        options = [
            (
                str(one.kept.id),
                f"{one.kept.option.letter}  {one.kept.option.entry.title}  {money(one.totals.due)}",
            )
            for one in out.options
        ]
        if len(options) == 1:
            options = [(options[0][0], say("yes, {amount}", amount=money(out.options[0].totals.due)))]
        no = say("no") if len(options) == 1 else say("none of them")
        self.option = self.add("option_id", Choice(say("Answer"), [*options, (NONE, no)], None))
        self.form.row(say("Answer"), self.option)
        self.said_by = self.add("said_by", Field("", text=view.customer))
        self.form.row(say("Said by"), self.said_by)
        ways = [(str(way), say(way.value)) for way in Way]
        self.way = self.add("way", Choice(say("By which way"), ways, str(Way.TELEPHONE)))
        self.form.row(say("By which way"), self.way)
        self.when = WhenRow(self, desk)
        self.words = self.add(
            "words", WordsArea(say("In the customer's own words"), hint=say("if they matter"), lines=2)
        )
        self.form.row(say("Own words"), self.words)
        self.yes_to: list[tuple[int, Tick]] = []
        for key, what in view.without_yes:
            tick = self.add(
                f"modification {key}", Tick(say("yes to this change, too: {what}", what=say(what)))
            )
            self.yes_to.append((key, tick))
            self.form.row("", tick)

    def deed(self, who: int) -> Deed:
        chosen = self.option.value()
        if chosen is None:
            raise FieldRefusal({"option_id": Sentence("Choose what the customer answered.")})
        entry = AnswerEntry(
            option_id=None if chosen == NONE else int(chosen),
            said_by=self.said_by.text(),
            way=Way(self.way.value() or Way.TELEPHONE),
            said_at=self.when.instant(),
            words=self.words.text(),
            modifications=tuple(key for key, tick in self.yes_to if tick.isChecked()),
        )
        return partial(record_answer, self.desk.book, who, self._out.id, entry)


class AnswerPart(QWidget):
    """`asked` brings a deed that needs no form; `opened` the page where a step of the way back is done."""

    asked = Signal(object)
    opened = Signal(object)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.view: EstimateView | None = None
        self._title = Label(say("The answer"), "strong")
        self._told = Label("", "soft", wrap=True)
        self.lines = TextLines(say("The answer"))
        self.record_link = Button(say("Record the answer"), self.record, kind="quiet", key="Ctrl+Shift+Y")
        self._links = link_line(self.record_link)
        self.place = FormPlace()
        self._taken_words = Label(say("The invoice takes over"), "soft")
        self._taking = QWidget()
        self._taking_column = Column(self._taking, gap=2)
        self._taking_column.add(self._taken_words)
        self.taken: Choice | None = None
        self.way = GateRow(say("Back as it came"))
        self.way.acted.connect(self.opened)
        column = Column(self, gap=7)
        column.addLayout(inset(self._title, self._told))
        column.add(self.lines)
        column.addLayout(inset(self._links))
        column.add(self.place)
        column.addLayout(inset(self._taking, self.way, gap=9))
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    def show_view(self, view: EstimateView) -> None:
        """Show the answers to the estimate that went out last."""
        first, self.view = self.view is None, view
        out = view.out
        answers = out.answers if out is not None else ()
        several = out is not None and len(out.options) > 1
        self.lines.set_lines([_line(answer, several=several) for answer in answers])
        set_shown(self.lines, bool(answers))
        self._told.setText(_standing(out))
        set_shown(self._told, bool(self._told.text()))
        self.record_link.setText(say("Record another answer") if answers else say("Record the answer"))
        set_shown(self._links, view.changes)
        self._show_taken(view)
        self.way.set_gates([_gate(step) for step in view.way_back])
        if (
            first
            and view.changes
            and out is not None
            and self._desk.drafts.read(f"estimate {view.job_id} answer")
        ):
            self.record(focus=False)

    def record(self, *, focus: bool = True) -> None:
        """Open the form of an answer."""
        view = self.view
        if view is not None and view.changes and view.out is not None:
            self.place.open(AnswerForm(self._desk, view, view.out), self.record_link, focus=focus)

    def _show_taken(self, view: EstimateView) -> None:
        if self.taken is not None:
            self._taking_column.removeWidget(self.taken)
            self.taken.hide()
            self.taken.deleteLater()
            self.taken = None
        set_shown(self._taking, view.taken is not None and view.changes)
        if view.taken is None or view.out is None:
            return
        chosen = bool(view.out.answers) and bool(view.out.answers[-1].letter)
        offered = [(str(one), taken_words(one)) for one in Taken if chosen or one is not Taken.AS_ESTIMATED]
        self.taken = Choice(say("The invoice takes over"), offered, str(view.taken))
        self.taken.changed.connect(self._take)
        self._taking_column.addWidget(self.taken)
        self.taken.show()

    def _take(self, taken: Any) -> None:
        view = self.view
        if view is not None and taken is not None and taken != view.taken:
            job = view.job_id
            self.asked.emit(lambda book, who: partial(set_taken, book, who, job, Taken(taken)))


def _standing(out: EstimateNow | None) -> str:
    if out is None or out.answers:
        return ""
    if out.unanswered is not None:
        return say("No answer for {n} days: ring, or write a line.", n=out.unanswered)
    return say("It waits for the answer.")


def _line(answer: AnswerView, *, several: bool) -> TextLine:
    before = say("{when}, {way}", when=moment(answer.said_at, "d MMM y, HH:mm"), way=say(said(answer.way)))
    if answer.amount is not None and not several:
        text = say("Yes, up to {amount}", amount=money(answer.amount))
    elif answer.letter and answer.amount is not None:
        text = say(
            "Yes to option {letter}, {title}, up to {amount}",
            letter=answer.letter,
            title=answer.title,
            amount=money(answer.amount),
        )
    else:
        text = say("No: return it unrepaired")
    if answer.words:
        text = say("{text}: “{words}”", text=text, words=answer.words)
    return TextLine(answer.id, before, f"{text}  ({answer.said_by}; {answer.by})")


def _gate(step: WayStep) -> GateFacts:
    action = {
        "invoice": say("Open the invoice"),
        "hand back": say("Hand it back"),
    }.get(step.where, say("Open the job"))
    return GateFacts(say(step.words), step.done, action=action, target=PAGES.get(step.where, "job"))
