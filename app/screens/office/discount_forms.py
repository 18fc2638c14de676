"""Forms of the invoice page: a discount or charge on the whole, a discount on a line, and leaving VAT out."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from app.screens.bench.inline_form import Deed, InlineForm, told
from app.screens.desk import Desk
from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.language import money, say
from app.screens.office.charge_forms import rate_options, read
from app.trade.money import MICRO, Money, decimals
from app.trade.office.amounts import parse_amount, parse_percent
from app.trade.office.invoice import Adjustment, Draft, share_of
from app.trade.office.on_the_bill import LineOf, without_vat
from app.trade.office.vat import WORDS, VatCategory, VatRate
from app.trade.refusal import FieldRefusal
from app.work.office.charges import discount_line, give_discount, leave_vat_out, put_on_top
from app.work.office.invoice_view import InvoiceView

WITHOUT = (VatCategory.REVERSE_CHARGE, VatCategory.EXEMPT, VatCategory.OUTSIDE, VatCategory.ZERO)


def micro_of(amount: Money) -> int:
    """An amount in millionths, as prices are kept."""
    coin: int = 10 ** decimals(amount.currency)
    return amount.minor * MICRO // coin


class AmountForm(InlineForm):
    """A net amount with its reason, typed as money or as a percentage of ``base()``.

    `thought` brings what it would make of the draft, or None.
    """

    thought = Signal(object)

    def __init__(
        self, desk: Desk, view: InvoiceView, key: str, verb: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(desk, key, verb, parent=parent)
        self.view = view
        self.amount = self.add("amount", Field("", width=110, hint=say("10 or 10 %")))
        self.reason = self.add("reason", Field("", hint=say("printed on the invoice")))

    def base(self) -> Money:
        """What a percentage is taken of."""
        raise NotImplementedError

    def with_it(self, draft: Draft, amount: Money) -> Draft:
        """The draft with the amount on it."""
        raise NotImplementedError

    def typed(self) -> Money:
        """The amount meant. Raises FieldRefusal."""
        text, currency = self.amount.text(), self.view.currency
        if not text.endswith("%"):
            return read("amount", lambda words: parse_amount(words, currency), text)
        share = read("amount", parse_percent, text)
        return Money(share_of(self.base().minor, share), currency)

    def changed(self) -> None:
        try:
            amount = self.typed()
        except FieldRefusal:
            self.amount.set_echo("")
            self.thought.emit(None)
            return
        on_base = self.amount.text().endswith("%")
        self.amount.set_echo(
            say("{off} off {base}", off=amount, base=self.base()) if on_base else money(amount)
        )
        self.thought.emit((lambda draft: self.with_it(draft, amount)) if amount.minor else None)


class DiscountForm(AmountForm):
    """A discount on the whole, or with ``on_top`` a charge on it, in one VAT rate."""

    def __init__(
        self, desk: Desk, view: InvoiceView, *, on_top: bool = False, parent: QWidget | None = None
    ) -> None:
        key = f"{'surcharge' if on_top else 'discount'} {view.job_id}"
        verb = say("Put it on top") if on_top else say("Give the discount")
        super().__init__(desk, view, key, verb, parent)
        self._on_top = on_top
        self.rate = self.add("vat_rate", Combo("", rate_options(view.rates), 0))
        label = say("On top, without VAT") if on_top else say("Off, without VAT")
        self.form.row(label, self.amount, say("VAT"), self.rate)
        self.form.row(say("Reason"), self.reason)

    def deed(self, who: int) -> Deed:
        call = put_on_top if self._on_top else give_discount
        micro = micro_of(self.typed())
        return partial(call, self.desk.book, who, self.view.job_id, self.reason.text(), micro, self._vat())

    def with_it(self, draft: Draft, amount: Money) -> Draft:
        vat = self._vat()
        wanted = Adjustment(amount.minor, self.reason.text(), vat.rate, vat.category, vat.reason)
        if self._on_top:
            return replace(draft, charges=(*draft.charges, wanted))
        return replace(draft, discounts=(*draft.discounts, wanted))

    def base(self) -> Money:
        vat = self._vat()
        for group in self.view.draft.totals.groups:
            if (group.rate, group.category) == (vat.rate, vat.category):
                return group.base
        return Money(0, self.view.currency)

    def _vat(self) -> VatRate:
        return self.view.rates[self.rate.value() or 0]


class LineDiscountForm(AmountForm):
    """A discount on one line, remembered by where the line comes from."""

    def __init__(
        self, desk: Desk, view: InvoiceView, line: int | None = None, parent: QWidget | None = None
    ) -> None:
        super().__init__(desk, view, f"line discount {view.job_id}", say("Give the discount"), parent)
        of, key = ("", 0) if line is None else view.draft.source(line)
        self.hidden_values = {"of": str(of), "id": key}
        self._what = told("body")
        self.form.row("", self._what)
        self.form.row(say("Off, without VAT"), self.amount)
        self.form.row(say("Reason"), self.reason)
        self.changed()

    @property
    def line(self) -> int | None:
        """The place of the line on the draft; None when it is there no more."""
        wanted = (self.hidden_values["of"], self.hidden_values["id"])
        sources = self.view.draft.behind.sources
        return next((at for at, (of, key) in enumerate(sources) if (of.value, key) == wanted), None)

    def deed(self, who: int) -> Deed:
        source = (LineOf(self.hidden_values["of"]), int(self.hidden_values["id"]))
        micro = micro_of(self.typed())
        return partial(
            discount_line, self.desk.book, who, self.view.job_id, source, self.reason.text(), micro
        )

    def changed(self) -> None:
        at = self.line
        what = self.view.draft.draft.lines[at].words if at is not None else say("a line that is gone")
        self._what.setText(say("Discount on: {what}", what=what))
        super().changed()

    def with_it(self, draft: Draft, amount: Money) -> Draft:
        if (at := self.line) is None:
            return draft
        lines = list(draft.lines)
        lines[at] = replace(lines[at], discount=amount.minor, discount_reason=self.reason.text())
        return replace(draft, lines=tuple(lines))

    def base(self) -> Money:
        at = self.line
        return Money(0, self.view.currency) if at is None else self.view.draft.totals.line_nets[at]


class NoVatForm(InlineForm):
    """No VAT on the whole invoice, and why. `thought` brings what it would make of the draft."""

    thought = Signal(object)

    def __init__(self, desk: Desk, view: InvoiceView, parent: QWidget | None = None) -> None:
        super().__init__(desk, f"no vat {view.job_id}", say("Leave VAT out"), parent=parent)
        self._view = view
        kinds = [(kind.value, say(WORDS[kind])) for kind in WITHOUT]
        self.category = self.add("category", Choice("", kinds, WITHOUT[0].value))
        self.reason = self.add("reason", Field("", hint=say("as the law of your country wants it said")))
        self.form.row(say("Why"), self.category)
        self.form.row(say("Reason"), self.reason)
        about = told()
        about.setText(
            say("All lines go out at their price without VAT. Struck out, the entry brings VAT back.")
        )
        self.form.row("", about)

    def deed(self, who: int) -> Deed:
        category = VatCategory(self.category.value())
        return partial(leave_vat_out, self.desk.book, who, self._view.job_id, category, self.reason.text())

    def changed(self) -> None:
        category, reason = VatCategory(self.category.value()), self.reason.text()
        self.thought.emit(lambda draft: without_vat(draft, category, reason))

    def first_field(self) -> QWidget | None:
        edit: QWidget = self.reason.edit
        return edit
