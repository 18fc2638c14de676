"""Taking money at the counter."""

from __future__ import annotations

from functools import partial

from app.screens.bench.inline_form import Deed, InlineForm
from app.screens.counter.money_field import MoneyField
from app.screens.desk import Desk
from app.screens.kit.choice import Choice
from app.screens.kit.fields import Field
from app.screens.language import say
from app.trade.bench.kinds import Means
from app.trade.money import Money
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.office.payments import take_payment


class PaymentForm(InlineForm):
    """Amount, means and a note. ``balance`` is what is open and proposed."""

    def __init__(self, desk: Desk, job_id: int, balance: Money | None) -> None:
        super().__init__(desk, f"job {job_id} payment", say("Take the money"))
        self.job_id = job_id
        self.amount = self.add("amount", MoneyField(say("Amount"), desk.shop.currency, width=100))
        if balance is not None and balance.minor > 0:
            self.amount.set_amount(balance)
        means = [(str(one), say(one.value)) for one in Means]
        self.means = self.add("means", Choice(say("Paid by"), means, str(Means.CASH)))
        self.form.row(say("Amount"), self.amount, desk.shop.currency, say("paid by"), self.means)
        self.note = self.add("note", Field(say("Note")))
        self.form.row(say("Note"), self.note)

    def deed(self, who: int) -> Deed:
        self.amount.settle()
        amount = self.amount.amount()
        if amount is None:
            why = self.amount.error() or say("Write the amount.")
            raise FieldRefusal({"amount": Sentence("{why}", {"why": why})})
        means = Means(self.means.value() or Means.CASH)
        return partial(take_payment, self.desk.book, who, self.job_id, amount, means, note=self.note.text())
