"""What is owed to the shop, by age, and the friendly reminder of one of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.counter.papers import show_draft, show_paper, with_staff
from app.screens.desk import Desk
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column, Figure, Group, Leave, Row, Words
from app.screens.language import day, number, say
from app.screens.office.list_page import ListPage
from app.trade.money import Money, total
from app.trade.office.owed import BY_AGE, AgeClass
from app.trade.sentence import Sentence
from app.work.office.open_items import OpenItem, issue_reminder, open_items, preview_reminder


class OpenItemsPage(ListPage):
    """Registered as ``open_items``. Enter opens the invoice; a reminder is printed of the marked one."""

    help_topic = "open_items"
    words = Sentence("Open items")
    add_words = Sentence("Go to the invoices")
    empty_words = (
        Sentence("Nobody owes the shop anything"),
        Sentence("Invoices that are not paid yet stand here by age. Nothing is sent by itself."),
    )
    leaving = (
        Leave("issued"),
        Leave("total"),
        Leave("job"),
        Leave("stands", "second", 105),
        Leave("reminded"),
    )
    kinds = frozenset({"invoices", "payments", "papers", "customers", "settings", "credit_notes"})
    has_former = False

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        super().__init__(desk, key, parent)
        self.found: dict[int, OpenItem] = {}
        self.remind = Button(say("Print a reminder"), self._remind, kind="main")
        self.remind.held.connect(lambda: self.table.setFocus(Qt.FocusReason.OtherFocusReason))
        self.look = Button(say("Look at the draft"), self._look, kind="quiet")
        self.head.set_buttons(self.look, self.remind)
        self.table.marked.connect(lambda _: self._show_deed())

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {**super().commands(), "remind": self.remind.click}

    def columns(self) -> tuple[Column, ...]:
        return (
            Column("number", say("Invoice"), 100),
            Column("customer", say("Customer"), 0, least=150),
            Column("job", say("Job"), 70),
            Column("issued", say("Issued"), 120),
            Column("stands", say("Stands"), 240),
            Column("reminded", say("Reminded"), 190),
            Column("total", say("Total"), 110, number=True),
            Column("open", say("Open"), 110, number=True),
        )

    def fetch(self) -> Any:
        return open_items(self.desk.book)

    def rows(self, found: Any) -> list[Row | Group]:
        self.found = {item.invoice_id: item for item in found}
        rows: list[Row | Group] = []
        for age in BY_AGE:
            items = [item for item in found if item.age is age]
            if items:
                level = "" if age is AgeClass.NOT_DUE else "caution"
                rows.append(Group(_capital(say(age.value)), _counted(items), level))
                rows += [_row(item) for item in items]
        return rows

    def below(self, found: Any) -> str:
        if not found:
            return ""
        sum_of = _sum(found)
        parts = [
            say("1 invoice open, {sum}.", sum=sum_of)
            if len(found) == 1
            else say("{n} invoices open, {sum}.", n=len(found), sum=sum_of)
        ]
        late = [item for item in found if item.late]
        if late:
            parts.append(say("Late: {sum}.", sum=_sum(late)))
        return " ".join(parts)

    def open(self, key: Any) -> None:
        self.desk.open("invoice", self.found[key].job_id)

    def add(self) -> None:
        self.desk.open("invoices")

    def _show(self, found: Any) -> None:
        super()._show(found)
        set_shown(self.add_button, False)
        self._show_deed()

    def _show_deed(self) -> None:
        item = self.found.get(self.table.marked_key())
        set_shown(self.remind, item is not None)
        set_shown(self.look, item is not None and item.not_now is None)
        if item is None or item.not_now is None:
            self.remind.free()
        else:
            self.remind.block(say(item.not_now))
        self.head.make_room()

    def _remind(self) -> None:
        item = self.found.get(self.table.marked_key())
        if item is not None:
            with_staff(self.desk, self, partial(self._print, item.invoice_id))

    def _look(self) -> None:
        item = self.found.get(self.table.marked_key())
        if item is not None:
            with_staff(self.desk, self, partial(self._draw, item))

    def _draw(self, item: OpenItem, who: int) -> None:
        title = say("Reminder {number}, draft", number=item.number)
        show_draft(self, title, partial(preview_reminder, self.desk.book, who, item.invoice_id))

    def _print(self, invoice_id: int, who: int) -> None:
        self.desk.change(
            self,
            partial(issue_reminder, self.desk.book, who, invoice_id),
            lambda done: show_paper(self, done.value),
            partial(tell, self.trouble),
        )


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _counted(items: list[OpenItem]) -> str:
    if len(items) == 1:
        return say("1 invoice, {sum}", sum=_sum(items))
    return say("{n} invoices, {sum}", n=len(items), sum=_sum(items))


def _sum(items: list[OpenItem]) -> Money:
    return total([item.open for item in items], items[0].open.currency)


def _row(item: OpenItem) -> Row:
    if item.late:
        late = say("1 day late") if item.late == 1 else say("{n} days late", n=item.late)
        stands = Words(late, say("since {day}", day=day(item.pay_by)), strong=True)
    else:
        stands = Words(say("to pay by {day}", day=day(item.pay_by)))
    return Row(
        item.invoice_id,
        (
            Words(item.number, strong=True),
            Words(item.customer),
            Words(str(item.job_number), soft=True),
            Words(day(item.issued_on)),
            stands,
            _reminded(item),
            Figure(number(item.total.amount, grouped=True), item.total.currency),
            Figure(number(item.open.amount, grouped=True), item.open.currency),
        ),
    )


def _reminded(item: OpenItem) -> Words | None:
    if item.reminded_on is None:
        return None
    if item.reminded == 1:
        return Words(say("once, {day}", day=day(item.reminded_on)))
    return Words(say("{n} times, last {day}", n=item.reminded, day=day(item.reminded_on)))
