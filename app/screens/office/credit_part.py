"""The credit notes of an invoice page: those that were issued, and the form of the next."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import Column, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column as TableColumn
from app.screens.kit.cells import Figure, Leave, Row, Words
from app.screens.kit.label import Label
from app.screens.kit.table import SmallTable
from app.screens.language import day, number, say
from app.screens.office.credit_form import CreditForm
from app.screens.office.form_place import FormPlace
from app.screens.office.link_line import inset, link_line
from app.work.office.credit_notes import CreditIssued, NoteLine
from app.work.office.invoice_view import InvoiceView
from app.work.shop_book import Done


class CreditPart(QWidget):
    """A table of credit notes and the form to write one. `paper_wanted` brings the paper of the one that is opened;
    `e_invoice_wanted` that of the marked one; `thought` what the open form would give back, why and under which date,
    nothing when it is closed."""

    paper_wanted = Signal(int)
    marked = Signal(int)  # the paper of the note that is marked, to look at
    e_invoice_wanted = Signal(int)
    thought = Signal(object, str, object)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.view: InvoiceView | None = None
        self.table = SmallTable(
            say("Credit notes"),
            (
                TableColumn("number", say("Credit note"), 110),
                TableColumn("issued", say("Issued"), 130),
                TableColumn("reason", say("Reason"), 0, least=90),
                TableColumn("by", say("By"), 120),
                TableColumn("due", say("Given back"), 108, number=True),
            ),
            leaving=(Leave("by"), Leave("issued")),
            opened=self.paper_wanted.emit,
        )
        self.shows_paper = False  # of the note that was just issued, beside the page
        self._fresh: int | None = None  # the paper of the note that was just issued
        self.table.marked.connect(self._mark)
        self._head = Label(say("Credit notes"), "strong")
        self.begin = Button(say("Correct it by a credit note"), self.open, kind="quiet")
        self.save = Button(say("Save the credit note as e-invoice…"), self._save_marked, kind="quiet")
        self.place = FormPlace()
        self.place.closed.connect(lambda: self.thought.emit({}, "", None))
        column = Column(self, gap=5)
        column.addLayout(inset(self._head))
        column.add(self.table)
        column.addLayout(inset(link_line(self.begin, self.save)))
        column.add(self.place)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    def show_view(self, view: InvoiceView) -> None:
        """Show the notes of the job's invoices; one can be written while something is left."""
        first, self.view = self.view is None, view
        self.table.set_rows([_row(note) for note in view.notes])
        set_shown(self._head, bool(view.notes))
        set_shown(self.table, bool(view.notes))
        set_shown(self.begin, self.can_credit)
        set_shown(self.save, bool(view.notes))
        if first and view.credit is not None and self._desk.drafts.read(f"credit {view.credit.invoice_id}"):
            self.open(focus=False)
        self.shows_paper = self._fresh is not None and self.table.mark(self._fresh)
        if self.shows_paper:
            self._fresh = None
            self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    @property
    def can_credit(self) -> bool:
        """Whether anything of the invoice is left to give back."""
        credit = self.view.credit if self.view is not None else None
        return credit is not None and credit.left.something

    def _save_marked(self) -> None:
        """The marked one; the last one where none is marked."""
        if self.view is not None and self.view.notes:
            self.e_invoice_wanted.emit(self.table.marked_key() or self.view.notes[-1].paper_id)

    def open(self, *, focus: bool = True) -> None:
        """Open the form of a credit note."""
        if self.view is not None and self.view.credit is not None:
            form = CreditForm(self._desk, self.view.credit)
            form.thought.connect(self.thought)
            self.place.open(form, self.begin, after=self._issued, focus=focus)

    def _issued(self, done: Done[CreditIssued]) -> None:
        """Once it is listed, the new note is marked: Enter opens its paper."""
        self._fresh = done.value.paper_id

    def _mark(self, paper_id: int | None) -> None:
        if paper_id is not None:
            self.marked.emit(paper_id)


def _row(note: NoteLine) -> Row:
    return Row(
        note.paper_id,
        (
            Words(note.number, strong=True),
            Words(day(note.issued_on)),
            Words(note.reason, tip=note.reason),
            Words(note.issued_by, soft=True),
            Figure(number(note.due.amount, grouped=True)),
        ),
    )
