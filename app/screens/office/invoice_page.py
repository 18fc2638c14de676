"""The invoice of a job: lines without typing again, sums, what holds it, issue, payment."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.counter.papers import paper_of, show_paper, with_staff
from app.screens.desk import Desk, Paper
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.flags import FlagBar
from app.screens.kit.heading import Heading
from app.screens.language import say
from app.screens.office.credit_part import CreditPart
from app.screens.office.e_invoice_saving import save_e_invoice
from app.screens.office.form_place import FormPlace
from app.screens.office.guarantee_part import GuaranteePart
from app.screens.office.invoice_holds import CANNOT, flags_of, held_words
from app.screens.office.issue_strip import IssueStrip
from app.screens.office.lines_part import LinesPart
from app.screens.office.paper_beside import PaperBeside
from app.screens.office.payments_part import PaymentsPart
from app.screens.page import Page
from app.trade.refusal import FieldRefusal, Held
from app.work.office.credit_notes import preview_credit_note
from app.work.office.guarantees import GuaranteeView, guarantee_view
from app.work.office.invoice_view import InvoiceView, invoice_view
from app.work.office.invoices import issue_invoice, preview_invoice
from app.work.office.receipts import issue_receipt
from app.work.papers.issuing import PaperFile, paper_pdf
from app.work.shop_book import Book


class InvoicePage(Page):
    """Registered as ``invoice``; its key is the id of the job."""

    help_topic = "invoice"

    def __init__(self, desk: Desk, key: Any, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.job_id = int(key)
        self.view: InvoiceView | None = None
        self._asked: Any = None
        self._fresh = False
        self.head = Heading()
        self.issue = Button(say("Issue the invoice"), self._ask_to_issue, kind="main")
        self.issue.held.connect(self._to_first_hold)
        self.print_button = Button(say("Print"), self._open_paper, kind="main", key="Ctrl+P")
        self.copy_button = Button(say("Show a copy"), self._show_copy, kind="quiet")
        self.e_button = Button(say("Save as e-invoice…"), self._save_e_invoice, kind="quiet")
        self.draft_button = Button(say("Look at the draft"), self._open_draft, kind="quiet")
        self.head.set_buttons(
            self.draft_button, self.copy_button, self.e_button, self.issue, self.print_button
        )
        self.flags = FlagBar(say("What holds this invoice"))
        self.flags.acted.connect(self._act)
        self.strip = IssueStrip(self._issue, self._do_not_issue, desk.today)
        self.strip.dated.connect(self._show_dated)
        self.heading.add(self.head, 5, self.flags, self.strip)
        self.lines = LinesPart(desk)
        self.lines.not_here.connect(self._of_the_bench)
        self.credit = CreditPart(desk)
        self.credit.paper_wanted.connect(partial(show_paper, self))
        self.credit.e_invoice_wanted.connect(self._save_note)
        self.credit.marked.connect(self._show_note)
        self.credit.thought.connect(self._show_credit)
        self.money = PaymentsPart(desk)
        self.money.receipt_wanted.connect(self._receipt)
        self.guarantee = GuaranteePart(desk, self.job_id)
        for place in self._places():
            place.failed.connect(partial(tell, self.trouble))
            place.saved.connect(lambda _: self.trouble.clear())
        self.sheet.set_margins((18, 0, 18, 18))
        self.sheet.add(self.guarantee, self.lines, self.credit, self.money)
        self.paper = PaperBeside(desk, say("The paper"))
        self.set_margin(self.paper, QWidget(self))
        for part in (
            self.guarantee,
            self.lines,
            self.credit,
            self.money,
            self.issue,
            self.print_button,
            self.copy_button,
            self.e_button,
        ):
            set_shown(part, False)

    # what pages do

    def reload(self, changes: Any = None) -> None:
        """Ask for the job's invoice anew."""
        if changes is not None and self.job_id not in changes.jobs and "settings" not in changes.kinds:
            return
        if self._asked is not None:
            self._asked.cancel()
        self._asked = self.desk.doors.look_up(
            self, partial(_asked, self.desk.book, self.job_id), self._show_both, partial(tell, self.trouble)
        )

    def arrive(self) -> None:
        form = next((place.form for place in self._places() if place.form), None)
        if form is not None:
            form.focus_first()
        else:
            target = self.print_button if self._issued else self.issue
            target.setFocus(Qt.FocusReason.OtherFocusReason)

    def put_away(self) -> None:
        if self._asked is not None:
            self._asked.cancel()
        self.paper.put_away()

    def commands(self) -> Mapping[str, Callable[[], object]]:
        served: dict[str, Callable[[], object]] = {"leave": self._leave}
        served["estimate"] = self._open_estimate
        served["save_e_invoice"] = self._save_e_invoice
        if self._issued:
            served["print"] = served["save_paper"] = self._open_paper
        else:
            served["strike"] = self.lines.strike
        return served

    def _places(self) -> tuple[FormPlace, ...]:
        """Where forms open, in their order on the page."""
        return self.guarantee.place, self.lines.place, self.credit.place, self.money.place

    @property
    def _issued(self) -> bool:
        return self.view is not None and self.view.invoice is not None

    def narrowed(self, narrow: bool) -> None:
        self._show_buttons()

    # showing

    def _show_both(self, found: tuple[InvoiceView, GuaranteeView | None]) -> None:
        view, guarantee = found
        self.guarantee.show_view(guarantee)
        self._show(view)

    def _show(self, view: InvoiceView) -> None:
        first, self.view = self.view is None, view
        self._show_heading(view)
        self.flags.set_flags(flags_of(view))
        self._show_paper(view)
        for part in (self.lines, self.credit, self.money):
            part.show_view(view)
            set_shown(part, True)
        set_shown(self.credit, view.invoice is not None or bool(view.notes))
        if (first or self._fresh) and self.isVisible():
            self.arrive()
        self._fresh = False

    def _show_heading(self, view: InvoiceView) -> None:
        who = ", ".join(filter(None, (view.customer, view.player, view.serial)))
        if view.invoice is not None:
            issued = say(
                "Issued {day} by {name}. Job {job}.",
                day=view.invoice.issued_on,
                name=view.invoice.issued_by,
                job=str(view.number),
            )
            self.head.set_words(who, number=view.invoice.number, above=say("Invoice"), below=issued)
            self.set_title(say("Invoice {number}", number=view.invoice.number))
        else:
            self.head.set_words(who, number=str(view.number), above=say("Invoice of job"))
            self.set_title(say("Invoice of job {number}", number=str(view.number)))
        held = held_words(view)
        if held:
            self.issue.block(held, "stop" if view.draft.held else "gate")
        else:
            self.issue.free()
        if view.invoice is not None or held:
            self.strip.fold()
        self._show_buttons()

    def _show_buttons(self) -> None:
        """One main button at a time: the verb stands in the strip while that is open."""
        issued = self._issued
        set_shown(self.print_button, issued)
        set_shown(self.copy_button, issued)
        set_shown(self.e_button, issued)
        set_shown(self.issue, self.view is not None and not issued and not self.strip.is_open)
        set_shown(self.draft_button, self.view is not None and not issued and self.narrow)

    def _show_paper(self, view: InvoiceView) -> None:
        book = self.desk.book
        if view.invoice is not None:
            paper_id = view.invoice.paper_id
            self.paper.ask(say("As it is filed"), lambda: paper_pdf(book, paper_id).pdf)
        else:
            self.paper.ask(say("As it would be printed now"), partial(preview_invoice, book, self.job_id))

    def _show_dated(self, on: date) -> None:
        """The draft bears the date that stands in the strip."""
        self.paper.ask(
            say("As it would be printed now"), partial(preview_invoice, self.desk.book, self.job_id, on)
        )

    def _show_credit(self, wanted: Mapping[int, int], reason: str, on: date | None) -> None:
        """While a credit note is being written its paper stands in the margin."""
        view = self.view
        if view is None:
            return
        if not wanted or view.credit is None:
            self._show_paper(view)
            return
        draw = partial(preview_credit_note, self.desk.book, view.credit.invoice_id, wanted, reason, on)
        self.paper.ask(say("The credit note as it would be printed now"), draw)

    def _show_note(self, paper_id: int) -> None:
        """The paper of a credit note, as it is filed, where its invoice stood."""
        book = self.desk.book
        self.paper.ask(say("The credit note as it is filed"), lambda: paper_pdf(book, paper_id).pdf)

    # issuing

    def _ask_to_issue(self) -> None:
        if self.view is not None:
            self.strip.unfold(self.view)
            self._show_buttons()

    def _do_not_issue(self) -> None:
        self.strip.fold()
        self._show_buttons()
        self.issue.setFocus(Qt.FocusReason.OtherFocusReason)

    def _issue(self, on: date) -> None:
        staff = self.desk.staff
        if staff is None:
            self.trouble.show_trouble(say("Say first who works here now, with Ctrl+U."))
            return
        self.strip.wait(True)
        self.desk.change(
            self,
            partial(issue_invoice, self.desk.book, staff.id, self.job_id, on=on),
            self._was_issued,
            partial(self._not_issued, on),
        )

    def _was_issued(self, _: Any) -> None:
        self.strip.wait(False)
        self.strip.fold()
        self.trouble.clear()
        self._fresh = True  # the answer that is on its way shows the issued invoice

    def _not_issued(self, on: date, error: Exception) -> None:
        self.strip.wait(False)
        if isinstance(error, FieldRefusal) and "on" in error.fields:  # somebody else issued one in between
            self.strip.refuse(error.fields["on"])
            self.reload()
            return
        again = None if isinstance(error, Held | FieldRefusal) else partial(self._issue, on)
        if again is None:
            self.strip.fold()
        tell(self.trouble, error, again)
        self.reload()

    def _to_first_hold(self) -> None:
        link = next((button for button in self.flags.findChildren(Button) if button.isVisible()), None)
        (link or self.lines.table).setFocus(Qt.FocusReason.OtherFocusReason)

    def _act(self, target: Any) -> None:
        kind, key = target
        if kind == CANNOT:
            self.lines.table.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.desk.open(kind, key)

    def _of_the_bench(self) -> None:
        self.trouble.show_trouble(
            say("Working time and parts are struck out or put back on the bench."),
            say("What is taken over from an estimate is chosen on its page; here only charges and fees go."),
            [
                (say("Open the job"), partial(self.desk.open_job, self.job_id)),
                (say("Open the estimate"), self._open_estimate),
            ],
        )

    def _open_estimate(self) -> None:
        self.desk.open("estimate", self.job_id)

    # the paper

    def _open_paper(self) -> None:
        if self.view is not None and self.view.invoice is not None:
            show_paper(self, self.view.invoice.paper_id)

    def _save_e_invoice(self) -> None:
        if self.view is not None and self.view.invoice is not None:
            save_e_invoice(self, self.view.invoice.paper_id, self._saved)
        else:
            self.trouble.show_trouble(say("An e-invoice is made of an issued invoice. Issue it first."))

    def _save_note(self, paper_id: int) -> None:
        save_e_invoice(self, paper_id, self._saved)

    def _saved(self, path: str) -> None:
        self.head.set_below(say("Saved as {path}", path=path))

    def _receipt(self, payment_id: int) -> None:
        with_staff(self.desk, self, partial(self._print_receipt, payment_id))

    def _print_receipt(self, payment_id: int, who: int) -> None:
        self.desk.change(
            self,
            partial(issue_receipt, self.desk.book, who, payment_id),
            lambda done: show_paper(self, done.value),
            partial(tell, self.trouble),
        )

    def _show_copy(self) -> None:
        if self.view is None or self.view.invoice is None:
            return

        def shown(file: PaperFile) -> None:
            self.desk.show_paper(paper_of(file))

        work = partial(paper_pdf, self.desk.book, self.view.invoice.paper_id, copy=True)
        self.desk.change(self, work, shown, partial(tell, self.trouble))

    def _open_draft(self) -> None:
        if self.view is None:
            return
        title = say("Draft of the invoice of job {number}", number=str(self.view.number))

        def shown(pdf: bytes) -> None:
            self.desk.show_paper(Paper(title, pdf, "invoice", f"{title}.pdf"))

        work = partial(preview_invoice, self.desk.book, self.job_id)
        self.desk.doors.look_up(self, work, shown, partial(tell, self.trouble))

    def _leave(self) -> None:
        for place in self._places():
            if place.form is not None:
                place.close_form()
                return
        if self.strip.is_open:
            self._do_not_issue()
        else:
            self.desk.back()


def _asked(book: Book, job_id: int) -> tuple[InvoiceView, GuaranteeView | None]:
    return invoice_view(book, job_id), guarantee_view(book, job_id)
