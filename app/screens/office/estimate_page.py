"""The estimate of a job: options with their lines, issue, the answer, and the paper beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.counter.papers import show_paper
from app.screens.desk import Desk
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.empty import EmptyPage
from app.screens.kit.flags import FlagBar, FlagFacts
from app.screens.language import day, say
from app.screens.office.answer_part import AnswerPart
from app.screens.office.estimate_options import OptionsPart
from app.screens.office.form_place import FormPlace
from app.screens.office.former_papers import FormerPapers
from app.screens.office.job_paper_page import JobPaperPage
from app.trade.office.invoice import LineKind
from app.work.office.estimate_view import EstimateNow, EstimateView, estimate_view
from app.work.office.estimates import begin_estimate, give_up, issue_estimate, preview_estimate


class EstimatePage(JobPaperPage):
    """Registered as ``estimate``; its key is the id of the job."""

    help_topic = "estimate"
    kind = "estimate"

    def __init__(self, desk: Desk, key: Any, parent: QWidget | None = None) -> None:
        super().__init__(desk, key, parent)
        self.view: EstimateView | None = None
        self.issue = Button(say("Issue the estimate"), self._issue, kind="main")
        self.issue.held.connect(self._to_lines)
        self.new_button = Button(say("Begin a new one"), self._begin, kind="quiet")
        self.give_up_button = Button(say("Give it up"), self._give_up, kind="quiet")
        self.head.set_buttons(
            self.draft_button,
            self.give_up_button,
            self.copy_button,
            self.new_button,
            self.issue,
            self.print_button,
        )
        self.flags = FlagBar(say("What is missing"))
        self.empty = EmptyPage(
            say("What it costs to mend this player, before anything is done"),
            say(
                "Working time, parts and fixed charges in up to three options, printed for the customer to choose."
            ),
            (Button(say("Begin the estimate"), self._begin, kind="main"),),
        )
        self.options = OptionsPart(desk)
        self.answers = AnswerPart(desk)
        self.answers.opened.connect(lambda page: self.desk.open(page, self.job_id))
        for part in (self.options, self.answers):
            part.asked.connect(self.do)
        self.hear(*self.places())
        self.sheet.set_margins((18, 9, 18, 18))
        self.former = FormerPapers(say("Earlier estimates"))
        self.former.wanted.connect(partial(show_paper, self))
        self.sheet.add(self.flags, self.empty, self.answers, self.options, self.former)
        for shown in (self.empty, self.options, self.answers, self.flags):
            set_shown(shown, False)
        self._show_buttons()

    # what pages do

    def fetch(self) -> EstimateView:
        return estimate_view(self.desk.book, self.job_id)

    def places(self) -> Iterable[FormPlace]:
        return self.options.place, self.answers.place

    def begin_at(self) -> QWidget | None:
        now = self._now
        if now is None:
            return self.empty.findChild(Button)
        if not now.issued:
            return self.options.time_link
        waits = not now.answers and self.answers.isVisible()
        return self.answers.record_link if waits else self.print_button

    def commands(self) -> Mapping[str, Callable[[], object]]:
        served: dict[str, Callable[[], object]] = {"leave": self.leave_form_or_page, "save": self.save_form}
        if self.paper_id is not None:
            served["print"] = served["save_paper"] = self.open_paper
        if self.options.writes:
            served["issue"] = self.issue.click
            served["strike"] = self.options.take_line_out
            served["add_labour"] = partial(self.options.add_line, LineKind.LABOUR)
            served["add_part"] = partial(self.options.add_line, LineKind.PART)
            served["add_charge"] = partial(self.options.add_line, LineKind.FIXED_CHARGE)
            served["add_text"] = partial(self.options.add_line, LineKind.TEXT)
            served["add_option"] = self.options.add_option
            served["give_up"] = self._give_up
        elif self.view is not None and self.view.changes:
            served["begin_estimate"] = self._begin
        if self.view is not None and self.view.out is not None and self.view.changes:
            served["add_agreement"] = self.answers.record
        return served

    def narrowed(self, narrow: bool) -> None:
        self._show_buttons()

    @property
    def _now(self) -> EstimateNow | None:
        return self.view.now if self.view is not None else None

    @property
    def paper_id(self) -> int | None:
        return self._now.paper_id if self._now is not None else None

    def draft(self) -> tuple[str, Callable[[], bytes]] | None:
        if self.view is None or self._now is None or not self._now.options:
            return None
        title = say("Draft of the estimate of job {number}", number=str(self.view.number))
        return title, partial(preview_estimate, self.desk.book, self._now.id)

    # showing

    def show_view(self, found: EstimateView) -> None:
        self.view = view = found
        now = view.now
        set_shown(self.empty, now is None and view.changes)
        set_shown(self.options, now is not None)
        set_shown(self.answers, view.out is not None)
        self.options.show_view(view)
        if view.out is not None:
            self.answers.show_view(view)
        wrong = now.wrong if now is not None and view.changes else ()
        self.flags.set_flags([FlagFacts("note", say("Missing"), say(sentence)) for sentence in wrong])
        set_shown(self.flags, bool(wrong))
        if wrong:
            self.issue.block(say("something is missing"), "gate")
        else:
            self.issue.free()
        self._show_buttons()
        with_customer = ((view.out.number, view.out.paper_id),) if view.writing and view.out else ()
        self.former.show_papers([(n, key) for n, key in (*view.former, *with_customer) if key is not None])
        set_shown(self.paper, now is not None and not self.narrow)
        self.show_beside()
        self._show_heading(view)

    def _show_heading(self, view: EstimateView) -> None:
        who = ", ".join(filter(None, (view.customer, view.player, view.serial)))
        now = view.now
        if now is None or not now.issued:
            below = ""
            if view.out is not None:
                below = say("Estimate {number} is with the customer.", number=view.out.number)
            self.head.set_words(who, number=str(view.number), above=say("Estimate of job"), below=below)
            self.set_title(say("Estimate of job {number}", number=str(view.number)))
            return
        assert now.issued_on is not None
        below = say(
            "Issued {day} by {name}. Job {job}.",
            day=day(now.issued_on),
            name=now.issued_by,
            job=str(view.number),
        )
        self.head.set_words(who, number=now.number, above=say("Estimate"), below=below)
        self.set_title(say("Estimate {number}", number=now.number))

    def _show_buttons(self) -> None:
        now, changes = self._now, self.view is not None and self.view.changes
        writing = now is not None and not now.issued
        issued = now is not None and now.issued
        set_shown(self.issue, writing and changes)
        set_shown(self.give_up_button, writing and changes)
        set_shown(self.draft_button, writing and self.narrow)
        set_shown(self.print_button, issued)
        set_shown(self.copy_button, issued)
        set_shown(self.new_button, issued and changes)

    # doing

    def _begin(self) -> None:
        self._fresh = True
        self.do(lambda book, who: partial(begin_estimate, book, who, self.job_id))

    def _issue(self) -> None:
        if self._now is not None:
            estimate = self._now.id
            self._fresh = True
            self.do(lambda book, who: partial(issue_estimate, book, who, estimate))

    def _to_lines(self) -> None:
        """What is missing is written among the lines."""
        self.options.time_link.setFocus(Qt.FocusReason.OtherFocusReason)

    def _give_up(self) -> None:
        if self._now is not None:
            estimate = self._now.id
            self._fresh = True
            self.do(lambda book, who: partial(give_up, book, who, estimate))
