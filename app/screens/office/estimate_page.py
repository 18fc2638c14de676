"""The estimate of a job: options with their lines, issue, the answer, and the paper beside it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.counter.papers import paper_of, show_paper
from app.screens.desk import Desk, Paper
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.empty import EmptyPage
from app.screens.kit.flags import FlagBar, FlagFacts
from app.screens.kit.heading import Heading
from app.screens.language import day, say
from app.screens.office.answer_part import AnswerPart
from app.screens.office.estimate_options import OptionsPart
from app.screens.office.paper_beside import PaperBeside
from app.screens.page import Page
from app.trade.office.invoice import LineKind
from app.trade.refusal import Held
from app.work.office.estimate_view import EstimateNow, EstimateView, estimate_view
from app.work.office.estimates import begin_estimate, give_up, issue_estimate, preview_estimate
from app.work.papers.issuing import PaperFile, paper_pdf


class EstimatePage(Page):
    """Registered as ``estimate``; its key is the id of the job."""

    help_topic = "estimate"

    def __init__(self, desk: Desk, key: Any, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.job_id = int(key)
        self.view: EstimateView | None = None
        self._asked: Any = None
        self._fresh = True  # the focus goes where work begins once the answer is there
        self.head = Heading()
        self.issue = Button(say("Issue the estimate"), self._issue, kind="main")
        self.issue.held.connect(self._to_lines)
        self.print_button = Button(say("Print"), self._open_paper, kind="main", key="Ctrl+P")
        self.new_button = Button(say("Begin a new one"), self._begin, kind="quiet")
        self.copy_button = Button(say("Show a copy"), self._show_copy, kind="quiet")
        self.draft_button = Button(say("Look at the draft"), self._open_draft, kind="quiet")
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
        self.heading.add(self.head, 5, self.flags)
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
            part.asked.connect(self._do)
            part.place.failed.connect(partial(tell, self.trouble))
            part.place.saved.connect(lambda _: self.trouble.clear())
        self.sheet.set_margins((18, 9, 18, 18))
        self.sheet.add(self.empty, self.answers, self.options)
        self.paper = PaperBeside(desk, say("The paper"))
        self.set_margin(self.paper, QWidget(self))
        for shown in (self.empty, self.options, self.answers, self.flags):
            set_shown(shown, False)
        self._show_buttons()

    # what pages do

    def reload(self, changes: Any = None) -> None:
        """Ask for the job's estimates anew."""
        if changes is not None and self.job_id not in changes.jobs and "settings" not in changes.kinds:
            return
        if self._asked is not None:
            self._asked.cancel()
        self._asked = self.desk.doors.look_up(
            self, partial(estimate_view, self.desk.book, self.job_id), self._show, partial(tell, self.trouble)
        )

    def arrive(self) -> None:
        form = self.options.place.form or self.answers.place.form
        if form is not None:
            form.focus_first()
            return
        now = self._now
        target: QWidget | None
        if now is None:
            target = self.empty.findChild(Button)
        elif not now.issued:
            target = self.options.time_link
        else:
            target = (
                self.answers.record_link
                if not now.answers and self.answers.isVisible()
                else self.print_button
            )
        if target is not None:
            target.setFocus(Qt.FocusReason.OtherFocusReason)

    def put_away(self) -> None:
        if self._asked is not None:
            self._asked.cancel()
        self.paper.put_away()

    def commands(self) -> Mapping[str, Callable[[], object]]:
        served: dict[str, Callable[[], object]] = {"leave": self._leave}
        if self._now is not None and self._now.issued:
            served["print"] = served["save_paper"] = self._open_paper
        if self.options.writes:
            served["strike"] = self.options.take_line_out
            served["add_labour"] = partial(self.options.add_line, LineKind.LABOUR)
            served["add_part"] = partial(self.options.add_line, LineKind.PART)
            served["add_charge"] = partial(self.options.add_line, LineKind.FIXED_CHARGE)
        if self.view is not None and self.view.out is not None and self.view.changes:
            served["add_agreement"] = self.answers.record
        return served

    def narrowed(self, narrow: bool) -> None:
        self._show_buttons()

    @property
    def _now(self) -> EstimateNow | None:
        return self.view.now if self.view is not None else None

    # showing

    def _show(self, view: EstimateView) -> None:
        self.view = view
        now = view.now
        set_shown(self.empty, now is None and view.changes)
        set_shown(self.options, now is not None)
        set_shown(self.answers, view.out is not None)
        self.options.show_view(view)
        if view.out is not None:
            self.answers.show_view(view)
        self._show_heading(view)  # the menus ask anew what is served when a page has its title
        wrong = now.wrong if now is not None and view.changes else ()
        self.flags.set_flags([FlagFacts("note", say("Missing"), say(sentence)) for sentence in wrong])
        set_shown(self.flags, bool(wrong))
        if wrong:
            self.issue.block(say("something is missing"), "gate")
        else:
            self.issue.free()
        self._show_buttons()
        self._show_paper(now)
        if self._fresh and self.isVisible():
            self.arrive()
        self._fresh = False

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

    def _show_paper(self, now: EstimateNow | None) -> None:
        set_shown(self.paper, now is not None and not self.narrow)
        if now is None:
            return
        book = self.desk.book
        if now.paper_id is not None:
            paper_id = now.paper_id
            self.paper.ask(say("As it is filed"), lambda: paper_pdf(book, paper_id).pdf)
        elif now.options:
            self.paper.ask(say("As it would be printed now"), partial(preview_estimate, book, now.id))

    # doing

    def _do(self, deed: Callable[[Any, int], Callable[[], Any]]) -> None:
        """Run a deed of app.work by who works now."""
        staff = self.desk.staff
        if staff is None:
            self.trouble.show_trouble(say("Say first who works here now, with Ctrl+U."))
            return
        self.desk.change(self, deed(self.desk.book, staff.id), self._done, partial(self._failed, deed))

    def _done(self, _: Any) -> None:
        self.trouble.clear()

    def _failed(self, deed: Callable[[Any, int], Callable[[], Any]], error: Exception) -> None:
        tell(self.trouble, error, None if isinstance(error, Held) else partial(self._do, deed))
        self.reload()

    def _begin(self) -> None:
        self._fresh = True
        self._do(lambda book, who: partial(begin_estimate, book, who, self.job_id))

    def _issue(self) -> None:
        if self._now is not None:
            estimate = self._now.id
            self._fresh = True
            self._do(lambda book, who: partial(issue_estimate, book, who, estimate))

    def _to_lines(self) -> None:
        """What is missing is written among the lines."""
        self.options.time_link.setFocus(Qt.FocusReason.OtherFocusReason)

    def _give_up(self) -> None:
        if self._now is not None:
            estimate = self._now.id
            self._fresh = True
            self._do(lambda book, who: partial(give_up, book, who, estimate))

    # the paper

    def _open_paper(self) -> None:
        if self._now is not None and self._now.paper_id is not None:
            show_paper(self, self._now.paper_id)

    def _show_copy(self) -> None:
        if self._now is None or self._now.paper_id is None:
            return

        def shown(file: PaperFile) -> None:
            self.desk.show_paper(paper_of(file))

        work = partial(paper_pdf, self.desk.book, self._now.paper_id, copy=True)
        self.desk.change(self, work, shown, partial(tell, self.trouble))

    def _open_draft(self) -> None:
        if self.view is None or self._now is None:
            return
        title = say("Draft of the estimate of job {number}", number=str(self.view.number))

        def shown(pdf: bytes) -> None:
            self.desk.show_paper(Paper(title, pdf, "estimate", f"{title}.pdf"))

        work = partial(preview_estimate, self.desk.book, self._now.id)
        self.desk.doors.look_up(self, work, shown, partial(tell, self.trouble))

    def _leave(self) -> None:
        for place in (self.options.place, self.answers.place):
            if place.form is not None:
                place.close_form()
                return
        self.desk.back()
