"""The invoice of a job: lines without typing again, sums, what holds it, issue, payment."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import date
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QWidget

from app.screens.bench.failures import tell
from app.screens.counter.papers import show_paper
from app.screens.desk import Desk
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.flags import FlagBar
from app.screens.language import say
from app.screens.office.credit_part import CreditPart
from app.screens.office.e_invoice_saving import save_e_invoice
from app.screens.office.form_place import FormPlace
from app.screens.office.former_papers import FormerPapers
from app.screens.office.guarantee_part import GuaranteePart
from app.screens.office.invoice_holds import CANNOT, flags_of, held_words
from app.screens.office.issue_strip import IssueStrip
from app.screens.office.job_paper_page import JobPaperPage
from app.screens.office.lines_part import LinesPart
from app.screens.office.payments_part import PaymentsPart
from app.trade.office.invoice import LineKind
from app.trade.refusal import FieldRefusal, Held
from app.work.office.credit_notes import preview_credit_note
from app.work.office.guarantees import GuaranteeView, guarantee_view
from app.work.office.invoice_view import InvoiceView, invoice_view
from app.work.office.invoices import issue_invoice, preview_invoice
from app.work.office.receipts import issue_receipt
from app.work.papers.issuing import paper_pdf


class InvoicePage(JobPaperPage):
    """Registered as ``invoice``; its key is the id of the job."""

    help_topic = "invoice"
    kind = "invoice"

    def __init__(self, desk: Desk, key: Any, parent: QWidget | None = None) -> None:
        super().__init__(desk, key, parent)
        self.view: InvoiceView | None = None
        self.issue = Button(say("Issue the invoice"), self._ask_to_issue, kind="main")
        self.issue.held.connect(self._to_first_hold)
        self.e_button = Button(say("Save as e-invoice…"), self._save_e_invoice, kind="quiet")
        self.head.set_buttons(
            self.draft_button, self.copy_button, self.e_button, self.issue, self.print_button
        )
        self.flags = FlagBar(say("What holds this invoice"))
        self.flags.acted.connect(self._act)
        self.strip = IssueStrip(self._issue, self._do_not_issue, desk.today)
        self.strip.dated.connect(self._show_dated)
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
        self.hear(*self.places())
        self.sheet.set_margins((18, 9, 18, 18))
        self.former = FormerPapers(say("Earlier invoices"))
        self.former.wanted.connect(partial(show_paper, self))
        self.sheet.add(
            self.flags, self.strip, self.guarantee, self.lines, self.credit, self.money, self.former
        )
        for part in (
            self.guarantee,
            self.lines,
            self.credit,
            self.money,
            self.issue,
            self.draft_button,
            self.print_button,
            self.copy_button,
            self.e_button,
        ):
            set_shown(part, False)

    # what pages do

    def fetch(self) -> tuple[InvoiceView, GuaranteeView | None]:
        book = self.desk.book
        return invoice_view(book, self.job_id), guarantee_view(book, self.job_id)

    def places(self) -> Iterable[FormPlace]:
        return self.guarantee.place, self.lines.place, self.credit.place, self.money.place

    def begin_at(self) -> QWidget:
        return self.print_button if self._issued else self.issue

    def commands(self) -> Mapping[str, Callable[[], object]]:
        served: dict[str, Callable[[], object]] = {"leave": self._leave, "save": self.save_form}
        served["estimate"] = self._open_estimate
        served["save_e_invoice"] = self._save_e_invoice
        view = self.view
        if view is None:
            return served
        served["take_payment"] = partial(self.money.open, back=False)
        if self.money.too_much:
            served["give_back"] = partial(self.money.open, back=True)
        if view.payments:
            served["payment_receipt"] = self.money.print_receipt
        if self.guarantee.view is not None and self.guarantee.view.open:
            served["guarantee"] = self.guarantee.open
        if self._issued:
            served["print"] = served["save_paper"] = self.open_paper
            if self.credit.can_credit:
                served["credit_note"] = self.credit.open
        elif not self.strip.is_open:
            served["issue"] = self.issue.click
        if view.changes:
            served["strike"] = self.lines.strike
            served["add_charge"] = partial(self.lines.add, LineKind.FIXED_CHARGE)
            served["add_fee"] = partial(self.lines.add, LineKind.FEE)
            served["add_text"] = partial(self.lines.add, LineKind.TEXT)
            served["discount"] = self.lines.discount
            served["line_discount"] = self.lines.line_discount
            served["surcharge"] = partial(self.lines.discount, on_top=True)
            served["no_vat"] = self.lines.no_vat
        return served

    @property
    def _issued(self) -> bool:
        return self.view is not None and self.view.invoice is not None

    @property
    def paper_id(self) -> int | None:
        return self.view.invoice.paper_id if self.view is not None and self.view.invoice is not None else None

    def draft(self) -> tuple[str, Callable[[], bytes]] | None:
        if self.view is None:
            return None
        title = say("Draft of the invoice of job {number}", number=str(self.view.number))
        return title, partial(preview_invoice, self.desk.book, self.job_id)

    def save_form(self) -> None:
        if self.strip.isAncestorOf(QApplication.focusWidget() or self):
            self.strip.issue.click()
        else:
            super().save_form()

    def narrowed(self, narrow: bool) -> None:
        self._show_buttons()

    # showing

    def show_view(self, found: tuple[InvoiceView, GuaranteeView | None]) -> None:
        view, guarantee = found
        self.view = view
        self.guarantee.show_view(guarantee)
        self.flags.set_flags(flags_of(view))
        for part in (self.lines, self.credit, self.money):
            part.show_view(view)
            set_shown(part, True)
        set_shown(self.credit, view.invoice is not None or bool(view.notes))
        self.former.show_papers([(one.number, one.paper_id) for one in view.credited])
        if not self.credit.shows_paper:
            self.show_beside()
        self._show_heading(view)

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
            self.show_beside()
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

    def _save_e_invoice(self) -> None:
        """The e-invoice of the credit note that is marked and has the focus, else of the invoice."""
        focus = QApplication.focusWidget()
        if focus is not None and self.credit.isAncestorOf(focus) and self.credit.table.marked_key():
            self._save_note(self.credit.table.marked_key())
        elif self.paper_id is not None:
            save_e_invoice(self, self.paper_id, self._saved)
        else:
            self.trouble.show_trouble(say("An e-invoice is made of an issued invoice. Issue it first."))

    def _save_note(self, paper_id: int) -> None:
        save_e_invoice(self, paper_id, self._saved)

    def _saved(self, path: str) -> None:
        self.head.set_below(say("Saved as {path}", path=path))

    def _receipt(self, payment_id: int) -> None:
        self.do(
            lambda book, who: partial(issue_receipt, book, who, payment_id),
            lambda done: show_paper(self, done.value),
        )

    def _leave(self) -> None:
        if self.strip.is_open and not any(place.form for place in self.places()):
            self._do_not_issue()
        else:
            self.leave_form_or_page()
