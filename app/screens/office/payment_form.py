"""Taking money on a job and giving it back."""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QWidget

from app.screens.bench.inline_form import Deed, InlineForm, told
from app.screens.counter.money_field import MoneyField
from app.screens.desk import Desk
from app.screens.kit.boxes import set_shown
from app.screens.kit.cells import Column, Figure, Row, Words
from app.screens.kit.choice import Choice
from app.screens.kit.fields import Field
from app.screens.kit.table import SmallTable
from app.screens.language import moment, number, say
from app.trade.bench.kinds import Means
from app.trade.money import Money
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.office.invoice_view import InvoiceView, PaymentLine
from app.work.office.payments import give_back, take_payment

KINDS = {
    "deposit": Sentence("deposit"),
    "payment": Sentence("payment"),
    "refund": Sentence("given back"),
}


class PaymentForm(InlineForm):
    """Money taken, filled in with what is open; with ``back`` money given back, at most what is too much."""

    def __init__(
        self, desk: Desk, view: InvoiceView, *, back: bool = False, parent: QWidget | None = None
    ) -> None:
        verb = say("Give it back") if back else say("Take the payment")
        super().__init__(desk, f"{'refund' if back else 'payment'} {view.job_id}", verb, parent=parent)
        self._job, self._back, self._view = view.job_id, back, view
        self.amount: MoneyField = self.add("amount", MoneyField("", view.currency, width=110))
        self.means = self.add(
            "means", Choice("", [(means.value, say(means.value)) for means in Means], "cash")
        )
        self.note = self.add("note", Field("", hint=say("if there is anything to note")))
        self.form.row(say("Amount"), self.amount, say(view.currency))
        self.form.row(say("How"), self.means)
        self.form.row(say("Note"), self.note)
        self.beyond = told()
        self.form.row("", self.beyond)
        set_shown(self.beyond, False)
        wanted = _too_much(view) if back else view.open
        if wanted.minor > 0:
            self._filling = True  # what is proposed is not typed: it makes no draft
            self.amount.set_amount(wanted)
            self._filling = False

    def deed(self, who: int) -> Deed:
        self.amount.settle()
        amount = self.amount.amount()
        if amount is None:
            why = self.amount.error() or say("Write the amount.")
            raise FieldRefusal({"amount": Sentence("{why}", {"why": why})})
        call = give_back if self._back else take_payment
        means = Means(self.means.value())
        return partial(call, self.desk.book, who, self._job, amount, means, note=self.note.text())

    def changed(self) -> None:
        """More than is open is taken, but not without a word; less leaves something open."""
        amount, view = self.amount.amount(), self._view
        words = ""
        if amount is not None and not self._back and view.invoice is not None:
            left = view.open - amount
            if left.minor < 0:
                words = say("{sum} more than is open: it can be given back.", sum=-left)
            elif left.minor > 0:
                words = say("Then {sum} is still open.", sum=left)
        self.beyond.setText(words)
        set_shown(self.beyond, bool(words))

    def first_field(self) -> QWidget:
        return self.amount.edit


def _too_much(view: InvoiceView) -> Money:
    return -view.open if view.invoice is not None else view.paid


def payments_table() -> SmallTable:
    """An empty table of money taken and given back."""
    return SmallTable(
        say("Payments"),
        (
            Column("when", say("When"), 168),
            Column("what", say("What"), 150),
            Column("note", say("Note"), 0, least=80),
            Column("by", say("Taken by"), 130),
            Column("amount", say("Amount"), 100, number=True),
        ),
    )


def payment_row(line: PaymentLine) -> Row:
    """One payment."""
    return Row(
        line.id,
        (
            Words(moment(line.at)),
            Words(say(KINDS[line.kind]), say(line.means.value)),
            Words(line.note, soft=True),
            Words(line.by, soft=True),
            Figure(number(line.amount.amount, grouped=True)),
        ),
    )
