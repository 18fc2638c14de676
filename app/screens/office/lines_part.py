"""The lines of an invoice page: what is charged, what can be put on it, and the sums."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import Column, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.language import say
from app.screens.office.charge_forms import ChargeForm, StrikeCharge
from app.screens.office.discount_forms import AmountForm, DiscountForm, LineDiscountForm, NoVatForm
from app.screens.office.estimate_lines import taken_words
from app.screens.office.form_place import FormPlace
from app.screens.office.invoice_lines import (
    SumsView,
    issued_sums,
    line_rows,
    lines_table,
    sum_lines,
)
from app.screens.office.link_line import inset, link_line
from app.trade.office.invoice import Draft, LineKind, work_out
from app.trade.office.on_the_bill import OnBill
from app.work.office.invoice_view import InvoiceView

KINDS = (LineKind.FIXED_CHARGE, LineKind.FEE, LineKind.TEXT)


class LinesPart(QWidget):
    """`not_here` tells that a line was to be struck out that belongs to the bench."""

    not_here = Signal()

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.view: InvoiceView | None = None
        self.table = lines_table()
        self._nothing = Label(
            say("Nothing is charged on this job yet: working time and parts come from the bench."),
            "soft",
            wrap=True,
        )
        self.add_charge = Button(
            say("Add a fixed charge"), partial(self.add, LineKind.FIXED_CHARGE), kind="quiet"
        )
        self._strike = Button(say("Strike the marked line out"), self.strike, kind="quiet", key="Ctrl+Del")
        self._line_discount = Button(say("Discount on the marked line"), self.line_discount, kind="quiet")
        self._no_vat = Button(say("Leave VAT out"), self.no_vat, kind="quiet")
        self._taken = Label("", "soft", wrap=True)
        self._estimate = Button(say("Open the estimate"), self._open_estimate, kind="quiet", key="Ctrl+E")
        self._links = link_line(
            self.add_charge,
            Button(say("Add a fee"), partial(self.add, LineKind.FEE), kind="quiet"),
            Button(say("Add a text line"), partial(self.add, LineKind.TEXT), kind="quiet"),
            Button(say("Give a discount"), self.discount, kind="quiet"),
            self._line_discount,
            Button(say("Charge on the whole"), partial(self.discount, on_top=True), kind="quiet"),
            self._no_vat,
            self._estimate,
            self._strike,
        )
        self.place = FormPlace()
        self.place.closed.connect(lambda: self._think(None))
        self.sums = SumsView()
        column = Column(self, gap=7)
        column.add(self.table)
        column.addLayout(inset(self._taken, self._nothing, self._links))
        column.add(self.place, self.sums)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    def show_view(self, view: InvoiceView) -> None:
        """Show the draft; of an issued invoice only its sums, since its lines stand on the paper."""
        first, self.view = self.view is None, view
        issued = view.invoice is not None
        self.table.set_rows(line_rows(view.draft))
        there = bool(view.draft.draft.lines or view.draft.draft.discounts)
        set_shown(self.table, there and not issued)
        set_shown(self._nothing, not there and not issued)
        set_shown(self._links, view.changes)
        from_estimate = view.changes and view.taken is not None
        self._taken.setText(
            say("From the estimate: {what}.", what=taken_words(view.taken)) if view.taken else ""
        )
        for shown in (self._taken, self._estimate):
            set_shown(shown, from_estimate)
        set_shown(self._strike, view.draft.can_strike)
        set_shown(self._line_discount, bool(view.draft.totals.groups))
        set_shown(self._no_vat, view.draft.behind.no_vat_id is None and any(rate.rate for rate in view.rates))
        self._think(None)
        if first and view.changes:
            self._take_draft(view)

    def _open_estimate(self) -> None:
        if self.view is not None:
            self._desk.open("estimate", self.view.job_id)

    def add(self, kind: LineKind, *, focus: bool = True) -> None:
        """Open the form of a charge, a fee or a text line."""
        if self.view is not None and self.view.changes:
            self._open(ChargeForm(self._desk, self.view, kind), focus)

    def discount(self, *, on_top: bool = False, focus: bool = True) -> None:
        """Open the form of a discount on the whole, or of a charge on it."""
        if self.view is not None and self.view.changes:
            self._open(DiscountForm(self._desk, self.view, on_top=on_top), focus)

    def line_discount(self) -> None:
        """Open the form of a discount on the marked line; without one, the first that charges something."""
        view, key = self.view, self.table.marked_key()
        if view is not None and view.changes:
            charging = [at for at, net in enumerate(view.draft.totals.line_nets) if net.minor]
            line = key if key in charging else next(iter(charging), None)
            if line is not None:
                self._open(LineDiscountForm(self._desk, view, line))

    def no_vat(self, *, focus: bool = True) -> None:
        """Open the form that leaves VAT out of the whole invoice."""
        if self.view is not None and self.view.changes:
            self._open(NoVatForm(self._desk, self.view), focus)

    def _open(self, form: ChargeForm | AmountForm | NoVatForm, focus: bool = True) -> None:
        form.thought.connect(self._think)
        self.place.open(form, self.add_charge, focus=focus)
        form.changed()

    def strike(self) -> None:
        """Ask for the reason why the marked charge or discount is struck out."""
        view, key = self.view, self.table.marked_key()
        if view is None or key is None or not view.changes:
            return
        row_id, what = _charge_behind(view, key)
        if row_id is None:
            self.not_here.emit()
        else:
            self.place.open(StrikeCharge(self._desk, view.job_id, row_id, what), self.table)

    def _take_draft(self, view: InvoiceView) -> None:
        """What was half typed before stands open again."""
        kept = self._desk.drafts.read
        for kind in KINDS:
            if kept(f"{kind.value} {view.job_id}"):
                self.add(kind, focus=False)
                return
        if kept(f"discount {view.job_id}"):
            self.discount(focus=False)
        elif kept(f"surcharge {view.job_id}"):
            self.discount(on_top=True, focus=False)
        elif kept(f"line discount {view.job_id}"):
            self._open(LineDiscountForm(self._desk, view), focus=False)
        elif kept(f"no vat {view.job_id}"):
            self.no_vat(focus=False)

    def _think(self, wanted: Callable[[Draft], Draft] | None) -> None:
        """Show the sums, with what is being typed where there is something."""
        view = self.view
        if view is None:
            return
        if view.invoice is not None:
            self.sums.set_sums(issued_sums(view.invoice.gross, view.credited_sum, view.paid, view.open))
            return
        draft = view.draft.draft if wanted is None else wanted(view.draft.draft)
        self.sums.set_sums(sum_lines(work_out(draft)), thought=wanted is not None)


def _charge_behind(view: InvoiceView, key: Any) -> tuple[int | None, str]:
    """The key of the entry in a row of the table, and its words. A line with a discount: its discount first."""
    behind, draft = view.draft.behind, view.draft.draft
    match key:
        case (OnBill.DISCOUNT, int(at)):
            return behind.discount_ids[at], draft.discounts[at].reason
        case (OnBill.SURCHARGE, int(at)):
            return behind.surcharge_ids[at], draft.charges[at].reason
        case (OnBill.NO_VAT, _):
            return behind.no_vat_id, say(OnBill.NO_VAT.value)
    off = behind.line_discount_ids.get(view.draft.source(key))
    if off is not None:
        return off, draft.lines[key].discount_reason
    return view.draft.charge_at(key), draft.lines[key].words
