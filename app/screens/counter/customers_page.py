"""The list of customers: typed into, it shows who is meant; Enter opens the card."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.counter.failures import tell
from app.screens.desk import Desk
from app.screens.kit.boxes import Row as Across
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column, Figure, Leave, Row, Words
from app.screens.kit.fields import Field
from app.screens.kit.heading import Heading
from app.screens.kit.label import Label
from app.screens.kit.rows import RowsModel
from app.screens.kit.table import Table
from app.screens.language import day, say
from app.screens.page import Page
from app.screens.printed_list import MOST, printing, show_list
from app.trade.calendar.promise import local_day
from app.work.people.customer_list import CustomerLine, customer_list, customers_to_print


class CustomersPage(Page):
    """Registered as ``customers``."""

    help_topic = "customers"
    scrolls = False

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.set_title(say("Customers"))
        self._asked: Any = None
        head = Heading(say("Customers"), below=say("Those who were here last stand first."))
        head.set_buttons(Button(say("New customer"), lambda: desk.open("customer", None)))
        self.search = Field(say("Which customers"), hint=say("name, number or town"), width=360)
        line = QWidget()
        across = Across(line)
        across.add(self.search)
        across.addStretch(1)
        self.heading.add(head, 9, line, 4)
        self.model = RowsModel(_columns())
        self.table = Table(say("Customers"), self.model, leaving=(Leave("city"), Leave("last")))
        self.table.opened.connect(desk.open_customer)
        self._nobody = Label(say("Nobody in the book matches."), "soft")
        self._nobody.setContentsMargins(9, 9, 0, 0)
        self.sheet.set_margins((18, 0, 18, 9))
        self.sheet.add(self.table, stretch=1)
        self.sheet.add(self._nobody)
        set_shown(self._nobody, False)
        self.search.changed.connect(lambda _: self._ask())
        self.search.entered.connect(self._open_first)
        self.search.edit.stepped.connect(lambda _: self.table.setFocus(Qt.FocusReason.TabFocusReason))

    def reload(self, changes: Any = None) -> None:
        """Ask anew."""
        self._ask()

    def arrive(self) -> None:
        self.search.setFocus(Qt.FocusReason.OtherFocusReason)

    def put_away(self) -> None:
        if self._asked is not None:
            self._asked.cancel()

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return printing(self.print_list)

    def print_list(self) -> None:
        """The list as a paper, longer than it is shown."""
        typed = self.search.text().strip()
        told = (
            say("matching “{typed}”", typed=typed) if typed else say("Those who were here last stand first.")
        )

        def arrived(answer: tuple[tuple[CustomerLine, ...], int]) -> None:
            lines, more = answer
            show_list(self, self.title, (told,), self.model.columns, [self._row(one) for one in lines], more)

        asked = partial(customers_to_print, self.desk.book, typed, MOST)
        self.desk.doors.look_up(self, asked, arrived, partial(tell, self.trouble))

    def _ask(self) -> None:
        self.put_away()
        self._asked = self.desk.doors.look_up(
            self,
            partial(customer_list, self.desk.book, self.search.text()),
            self._show,
            partial(tell, self.trouble),
        )

    def _show(self, lines: tuple[CustomerLine, ...]) -> None:
        self.model.set_rows([self._row(line) for line in lines])
        set_shown(self.table, bool(lines))
        set_shown(self._nobody, not lines)

    def _row(self, line: CustomerLine) -> Row:
        zone = self.desk.shop.zone
        last = day(local_day(line.last_at, zone)) if line.last_at is not None and zone is not None else ""
        return Row(
            line.id,
            (
                Words(line.name, strong=True, tip=line.name),
                Words(line.phone),
                Words(line.city, tip=line.city),
                Figure(str(line.jobs)),
                Words(last, soft=True),
            ),
        )

    def _open_first(self) -> None:
        """Enter in the field opens the first of them."""
        if self.model.rowCount():
            row = self.model.row_at(0)
            if isinstance(row, Row):
                self.desk.open_customer(row.key)


def _columns() -> tuple[Column, ...]:
    return (
        Column("name", say("Name"), least=200),
        Column("phone", say("Phone"), 190),
        Column("city", say("Town"), 200),
        Column("jobs", say("Jobs"), 80, number=True),
        Column("last", say("Last here"), 140),
    )
