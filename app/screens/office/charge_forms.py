"""Forms of the invoice page: a charge, a fee or a text line, and striking an entry out."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from typing import TypeVar

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from app.screens.bench.inline_form import Deed, InlineForm
from app.screens.desk import Desk
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.kit.label import Label
from app.screens.language import say
from app.screens.office.invoice_lines import rate_words
from app.trade.office.amounts import parse_price, parse_quantity
from app.trade.office.invoice import Line, LineKind, line_net, net_of
from app.trade.office.vat import VatRate
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.work.bench.strike_out import strike_out
from app.work.office.charges import ChargeEntry, add_charge
from app.work.office.invoice_view import InvoiceView

T = TypeVar("T")
TITLES = {
    LineKind.FIXED_CHARGE: Sentence("Add the charge"),
    LineKind.FEE: Sentence("Add the fee"),
    LineKind.TEXT: Sentence("Add the text line"),
}


def read(field: str, parse: Callable[[str], T], text: str) -> T:
    """What was typed, or a FieldRefusal under the field's name."""
    try:
        return parse(text)
    except Refusal as refusal:
        raise FieldRefusal({field: refusal.sentence}) from refusal


def rate_options(rates: Sequence[VatRate]) -> list[tuple[int, str]]:
    """The shop's VAT rates for a combo box, by their place in the settings."""
    return [(at, rate_words(rate.rate, rate.category)) for at, rate in enumerate(rates)]


class ChargeForm(InlineForm):
    """A fixed charge, a fee or a text line. `thought` brings what it would make of the draft, or None."""

    thought = Signal(object)

    def __init__(self, desk: Desk, view: InvoiceView, kind: LineKind, parent: QWidget | None = None) -> None:
        super().__init__(desk, f"{kind.value} {view.job_id}", say(TITLES[kind]), parent=parent)
        self._view, self.kind = view, kind
        hint = {
            LineKind.FIXED_CHARGE: say("packing, a copy, collecting it"),
            LineKind.FEE: say("diagnosis, estimate, storage"),
            LineKind.TEXT: say("printed as it stands, charges nothing"),
        }[kind]
        self.what = self.add("words", Field("", hint=hint))
        self.form.row(say("What"), self.what)
        self.quantity = self.price = self.rate = None
        if kind is not LineKind.TEXT:
            each = say("Each, with VAT") if view.prices_with_vat else say("Each, without VAT")
            self.quantity = self.add("quantity", Field("", text="1", width=60))
            self.price = self.add("price", Field("", width=90))
            self.rate = self.add("vat_rate", Combo("", rate_options(view.rates), 0))
            self.form.row(say("How much"), self.quantity, each, self.price, say("VAT"), self.rate)

    def entry(self) -> ChargeEntry:
        """What stands in the form. Raises FieldRefusal for what cannot be read."""
        if self.price is None or self.quantity is None or self.rate is None:
            return ChargeEntry(kind=self.kind, words=self.what.text(), vat=self._view.rates[0])
        currency = self._view.currency
        return ChargeEntry(
            kind=self.kind,
            words=self.what.text(),
            quantity=read("quantity", parse_quantity, self.quantity.text()),
            price=read("price", lambda text: parse_price(text, currency), self.price.text()),
            vat=self._view.rates[self.rate.value() or 0],
        )

    def deed(self, who: int) -> Deed:
        return partial(add_charge, self.desk.book, who, self._view.job_id, self.entry())

    def changed(self) -> None:
        if self.price is None:
            return
        try:
            entry = self.entry()
        except FieldRefusal:
            self.price.set_echo("")
            self.thought.emit(None)
            return
        gross = entry.price if self._view.prices_with_vat and entry.vat.rate else None
        price = entry.price if gross is None else net_of(gross, entry.vat.rate)
        line = Line(
            entry.words,
            entry.kind,
            entry.quantity,
            "C62",
            price,
            entry.vat.rate,
            entry.vat.category,
            entry.vat.reason,
            price_with_vat=gross,
        )
        net = line_net(line, self._view.currency)
        self.price.set_echo(say("{net} net", net=net))
        self.thought.emit(lambda draft: replace(draft, lines=(*draft.lines, line)))


class StrikeCharge(InlineForm):
    """Strikes out what was put on the bill; it stays in the book with the reason."""

    def __init__(
        self, desk: Desk, job_id: int, row_id: int, what: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(desk, f"strike charge {job_id}", say("Strike out"), parent=parent)
        self.hidden_values = {"row": row_id}
        self.form.row("", Label(say("Strike out: {what}", what=what), wrap=True))
        self.reason = self.add("reason", Field("", hint=say("Why? It stays legible with this reason.")))
        self.form.row(say("Reason"), self.reason)

    def deed(self, who: int) -> Deed:
        return partial(
            strike_out, self.desk.book, who, "charge", int(self.hidden_values["row"]), self.reason.text()
        )
