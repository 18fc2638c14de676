"""The money of an invoice page: what was taken and given back, and what is still open."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import Column, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.language import say
from app.screens.office.form_place import FormPlace
from app.screens.office.link_line import inset, link_line
from app.screens.office.payment_form import PaymentForm, payment_row, payments_table
from app.work.office.invoice_view import InvoiceView


class PaymentsPart(QWidget):
    """A table of payments, what they come to, and the forms to take money and to give it back.

    `receipt_wanted` brings the payment whose receipt is to be printed: the marked one, else the last.
    """

    receipt_wanted = Signal(int)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.view: InvoiceView | None = None
        self.table = payments_table()
        self._none = Label(say("Nothing paid yet."), "soft")
        self.take = Button(say("Take a payment"), partial(self.open, back=False), kind="quiet", key="Ctrl+K")
        self.give = Button(say("Give money back"), partial(self.open, back=True), kind="quiet")
        self.receipt = Button(say("Receipt for the marked payment"), self.print_receipt, kind="quiet")
        self.place = FormPlace()
        column = Column(self, gap=5)
        column.addLayout(inset(Label(say("Payments"), "strong")))
        column.add(self.table)
        column.addLayout(inset(self._none, link_line(self.take, self.give, self.receipt)))
        column.add(self.place)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    def show_view(self, view: InvoiceView) -> None:
        """Show what was paid on the job."""
        first, before, self.view = self.view is None, self.view, view
        self.table.set_rows([payment_row(line) for line in view.payments])
        if view.payments and (before is None or view.payments[-1:] != before.payments[-1:]):
            self.table.mark(view.payments[-1].id)  # the receipt is mostly for the newest
        set_shown(self.table, bool(view.payments))
        set_shown(self._none, not view.payments)
        set_shown(self.receipt, bool(view.payments))
        self.receipt.setText(
            say("Receipt") if len(view.payments) == 1 else say("Receipt for the marked payment")
        )
        set_shown(self.give, self.too_much)
        if first:
            for name in ("payment", "refund"):
                if self._desk.drafts.read(f"{name} {view.job_id}"):
                    self.open(back=name == "refund", focus=False)
                    return

    @property
    def too_much(self) -> bool:
        """Whether there is money to give back."""
        view = self.view
        if view is None:
            return False
        return view.open.minor < 0 if view.invoice is not None else view.paid.minor > 0

    def print_receipt(self) -> None:
        """The receipt of the marked payment; of the last one where none is marked."""
        if self.view is not None and self.view.payments:
            key = self.table.marked_key()
            self.receipt_wanted.emit(self.view.payments[-1].id if key is None else key)

    def open(self, *, back: bool, focus: bool = True) -> None:
        """Open the form to take money or, with ``back``, to give it back."""
        if self.view is not None:
            form = PaymentForm(self._desk, self.view, back=back)
            self.place.open(form, self.give if back else self.take, focus=focus)
