"""The lines of an invoice page: what is charged, what can be put on it, and the sums."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import Column, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.language import say
from app.screens.office.charge_forms import ChargeForm, DiscountForm, StrikeCharge
from app.screens.office.form_place import FormPlace
from app.screens.office.invoice_lines import (
    DISCOUNT,
    SumsView,
    issued_sums,
    line_rows,
    lines_table,
    sum_lines,
)
from app.screens.office.link_line import inset, link_line
from app.trade.office.invoice import Adjustment, Line, LineKind, work_out
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
        self._links = link_line(
            self.add_charge,
            Button(say("Add a fee"), partial(self.add, LineKind.FEE), kind="quiet"),
            Button(say("Add a text line"), partial(self.add, LineKind.TEXT), kind="quiet"),
            Button(say("Give a discount"), self.discount, kind="quiet"),
            self._strike,
        )
        self.place = FormPlace()
        self.place.closed.connect(lambda: self._think(None))
        self.sums = SumsView()
        column = Column(self, gap=7)
        column.add(self.table)
        column.addLayout(inset(self._nothing, self._links))
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
        set_shown(self._strike, view.draft.can_strike)
        self._think(None)
        if first and view.changes:
            self._take_draft(view)

    def add(self, kind: LineKind, *, focus: bool = True) -> None:
        """Open the form of a charge, a fee or a text line."""
        if self.view is not None and self.view.changes:
            form = ChargeForm(self._desk, self.view, kind)
            form.thought.connect(self._think)
            self.place.open(form, self.add_charge, focus=focus)

    def discount(self, *, focus: bool = True) -> None:
        """Open the form of a discount."""
        if self.view is not None and self.view.changes:
            form = DiscountForm(self._desk, self.view)
            form.thought.connect(self._think)
            self.place.open(form, self.add_charge, focus=focus)

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

    def _think(self, wanted: Line | Adjustment | None) -> None:
        """Show the sums, with what is being typed where there is something."""
        view = self.view
        if view is None:
            return
        if view.invoice is not None:
            self.sums.set_sums(issued_sums(view.invoice.gross, view.credited_sum, view.paid, view.open))
            return
        draft = view.draft.draft
        if isinstance(wanted, Line):
            draft = replace(draft, lines=(*draft.lines, wanted))
        elif isinstance(wanted, Adjustment):
            draft = replace(draft, discounts=(*draft.discounts, wanted))
        self.sums.set_sums(sum_lines(work_out(draft)), thought=wanted is not None)


def _charge_behind(view: InvoiceView, key: Any) -> tuple[int | None, str]:
    """The key of the charge or discount in a row of the table, and its words."""
    if isinstance(key, tuple) and key[0] == DISCOUNT:
        return view.draft.behind.discount_ids[key[1]], view.draft.draft.discounts[key[1]].reason
    return view.draft.charge_at(key), view.draft.draft.lines[key].words
