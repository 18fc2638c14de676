"""The orders of one part: what is still to come and what became of the others, with the forms that change one."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import partial

from PySide6.QtWidgets import QWidget

from app.screens.bench.inline_form import Deed, InlineForm
from app.screens.bench.order_form import NO_DAY
from app.screens.bench.ordered_rows import state_cell
from app.screens.desk import Desk
from app.screens.kit.boxes import Column, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column as TableColumn
from app.screens.kit.cells import Figure, Leave, Link, Row, Words
from app.screens.kit.day_field import DayField
from app.screens.kit.fields import Field
from app.screens.kit.label import Label
from app.screens.kit.table import SmallTable
from app.screens.language import near_day, number, say
from app.screens.office.form_place import FormPlace
from app.screens.office.link_line import inset, link_line
from app.screens.office.stock_forms import StockForm
from app.trade.office.stock import MoveKind
from app.trade.refusal import FieldRefusal
from app.work.office.part_orders import OrderLine, expect_order, give_up_order

MOST_OVER = 5  # orders that are over and still told


class PartOrders(QWidget):
    """The table; the marked order is received, expected later or given up, in the form place of the stock."""

    def __init__(self, desk: Desk, place: FormPlace, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk, self._place = desk, place
        self._lines: tuple[OrderLine, ...] = ()
        self.table = SmallTable(
            say("Orders"), _columns(), leaving=(Leave("note"), Leave("by"), Leave("supplier"))
        )
        self.table.link_opened.connect(lambda job_id: desk.open("job", job_id))
        self.table.marked.connect(lambda _: self._show_links())
        self.receive = Button(say("It has come"), self._receive, kind="quiet")
        self.later = Button(say("It comes on another day"), self._expect, kind="quiet")
        self.give_up = Button(say("It comes no more"), self._give_up, kind="quiet")
        self._links = link_line(self.receive, self.later, self.give_up)
        column = Column(self, gap=5, margins=(0, 0, 0, 9))
        column.addLayout(inset(Label(say("Orders"), "strong")))
        column.add(self.table)
        column.addLayout(inset(self._links))
        set_shown(self, False)

    def show_orders(self, lines: Sequence[OrderLine], today: date) -> None:
        """What is to come, and the newest of what is over."""
        over = [line for line in lines if not line.ordered.to_come]
        told = {line.id for line in sorted(over, key=lambda line: line.id)[-MOST_OVER:]}
        self._lines = tuple(line for line in lines if line.ordered.to_come or line.id in told)
        marked = self.table.marked_key()
        self.table.set_rows([_row(line, today) for line in self._lines])
        set_shown(self, bool(self._lines))
        if self._lines and (marked is None or not self.table.mark(marked)):
            self.table.mark_first()
        self._show_links()

    def open_orders(self) -> tuple[OrderLine, ...]:
        """Those of which some are still to come, what is expected first above."""
        return tuple(line for line in self._lines if line.ordered.to_come)

    def marked(self) -> OrderLine | None:
        """The marked order, if some of it is still to come."""
        key = self.table.marked_key()
        return next((line for line in self.open_orders() if line.id == key), None)

    def _show_links(self) -> None:
        set_shown(self._links, self.marked() is not None)

    def _receive(self) -> None:
        if (line := self.marked()) is not None:
            form = StockForm(
                self._desk, line.part_id, MoveKind.RECEIVED, orders=self.open_orders(), chosen=line.id
            )
            self._place.open(form, self.receive)

    def _expect(self) -> None:
        if (line := self.marked()) is not None:
            self._place.open(ExpectForm(self._desk, line), self.later)

    def _give_up(self) -> None:
        if (line := self.marked()) is not None:
            self._place.open(GiveUpForm(self._desk, line), self.give_up)


class ExpectForm(InlineForm):
    """Another day for an order."""

    def __init__(self, desk: Desk, line: OrderLine, parent: QWidget | None = None) -> None:
        super().__init__(desk, f"expect-order {line.id}", say("Keep this day"), parent=parent)
        self._line = line
        self.day = self.add("expected_on", DayField("", desk.today, day=line.ordered.expected_on))
        self.form.row(say("Expected"), self.day)

    def deed(self, who: int) -> Deed:
        day = self.day.day()
        if day is None:
            raise FieldRefusal({"expected_on": NO_DAY})
        return partial(expect_order, self.desk.book, who, self._line.id, day, version=self._line.version)


class GiveUpForm(InlineForm):
    """What has not come of an order comes no more."""

    def __init__(self, desk: Desk, line: OrderLine, parent: QWidget | None = None) -> None:
        super().__init__(desk, f"give-up-order {line.id}", say("Give the order up"), parent=parent)
        self._line = line
        self.reason = self.add(
            "reason", Field("", hint=say("no longer made, ordered elsewhere, typed wrongly"))
        )
        self.form.row(say("Why"), self.reason)

    def deed(self, who: int) -> Deed:
        return partial(give_up_order, self.desk.book, who, self._line.id, self.reason.text())


def _columns() -> tuple[TableColumn, ...]:
    return (
        TableColumn("ordered", say("Ordered"), 170),
        TableColumn("state", say("Where it is"), 330),
        TableColumn("quantity", say("How many"), 90, number=True),
        TableColumn("came", say("Came"), 90, number=True),
        TableColumn("job", say("Job"), 70),
        TableColumn("supplier", say("Supplier"), 180),
        TableColumn("by", say("By"), 150),
        TableColumn("note", say("Note"), 0, least=80),
    )


def _row(line: OrderLine, today: date) -> Row:
    note = line.reason or line.note
    return Row(
        line.id,
        (
            Words(near_day(line.ordered_on, today)),
            state_cell(line.ordered, today),
            Figure(number(line.ordered.quantity), strong=bool(line.ordered.to_come)),
            Figure(number(line.ordered.came), soft=not line.ordered.came),
            Link(str(line.job), line.job_id) if line.job is not None else None,
            Words(line.supplier, soft=True, tip=line.supplier),
            Words(line.by, soft=True),
            Words(note, soft=True, tip=note),
        ),
    )
