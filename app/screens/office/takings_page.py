"""The takings of a day by means: to be counted against the till, looked at and printed."""

from __future__ import annotations

from datetime import date, timedelta
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import Row as Across
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column, Figure, Group, Leave, Row, Words
from app.screens.kit.day_field import DayField
from app.screens.language import clock_time, day, money, number, say
from app.screens.office.list_page import ListPage
from app.screens.office.payment_form import KINDS
from app.trade.office.takings import Taken
from app.trade.sentence import Sentence
from app.work.office.takings import DaysTakings, TakenLine, days_takings


class TakingsPage(ListPage):
    """Registered as ``takings``; its key is the day, None for today. Enter opens the invoice of a payment."""

    help_topic = "takings"
    words = Sentence("Takings of a day")
    add_words = Sentence("Go to the invoices")
    empty_words = (
        Sentence("No money was taken or given back on this day"),
        Sentence("Payments are entered on the page of an invoice, deposits too."),
    )
    leaving = (Leave("note"), Leave("by"), Leave("for", "second", 62), Leave("time"))
    kinds = frozenset({"payments", "customers", "settings"})
    has_former = False

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        super().__init__(desk, key, parent)
        self.found: dict[int, TakenLine] = {}
        self.shown = key if isinstance(key, date) else desk.today()
        self.day = DayField(say("Day"), desk.today, day=self.shown)
        self.day.day_changed.connect(self._other_day)
        line = QWidget()
        across = Across(line, gap=14)
        across.add(
            Button(say("Day before"), partial(self._go, -1), kind="quiet"),
            self.day,
            Button(say("Day after"), partial(self._go, 1), kind="quiet"),
        )
        across.addStretch(1)
        self.heading.add(line, 4)

    def columns(self) -> tuple[Column, ...]:
        return (
            Column("time", say("Time"), 70),
            Column("what", say("What"), 130),
            Column("customer", say("Customer"), 0, least=150),
            Column("for", say("For"), 170),
            Column("note", say("Note"), 180),
            Column("by", say("Taken by"), 130),
            Column("amount", say("Amount"), 120, number=True),
        )

    def fetch(self) -> Any:
        return days_takings(self.desk.book, self.shown)

    def rows(self, found: DaysTakings) -> list[Row | Group]:
        self.found = {line.id: line for line in found.lines}
        rows: list[Row | Group] = []
        for taken in found.means:
            if taken.count:
                word = say(taken.means.value)
                rows.append(Group(word[:1].upper() + word[1:], _counted(taken)))
                rows += [_row(line) for line in found.lines if line.means is taken.means]
        return rows

    def below(self, found: DaysTakings) -> str:
        return say("{sum} in all.", sum=found.sum) if found.lines else ""

    def told(self) -> tuple[str, ...]:
        return (day(self.shown, "EEEE d MMMM y"),)

    def open(self, key: Any) -> None:
        self.desk.open("invoice", self.found[key].job_id)

    def add(self) -> None:
        self.desk.open("invoices")

    def arrive(self) -> None:
        if self.empty.isHidden():
            super().arrive()
        elif not self.day.edit.hasFocus():
            self.day.edit.setFocus(Qt.FocusReason.OtherFocusReason)

    def _show(self, found: Any) -> None:
        super()._show(found)
        set_shown(self.add_button, False)

    def _other_day(self, day: date | None) -> None:
        if day is not None and day != self.shown:
            self.shown = day
            self.reload()

    def _go(self, days: int) -> None:
        self.day.set_day(self.shown + timedelta(days=days))


def _counted(taken: Taken) -> str:
    """How many and what they come to; apart, what came in and went out, where both did."""
    count = say("1 payment") if taken.count == 1 else say("{n} payments", n=taken.count)
    if not taken.back.minor:
        return f"{count}, {money(taken.sum)}"
    in_and_out = say("{taken} taken, {back} given back", taken=taken.taken, back=taken.back)
    return f"{count}, {money(taken.sum)} ({in_and_out})"


def _row(line: TakenLine) -> Row:
    about = say("invoice {number}", number=line.invoice) if line.invoice else say("before the invoice")
    return Row(
        line.id,
        (
            Words(clock_time(line.at)),
            Words(say(KINDS[line.kind])),
            Words(line.customer),
            Words(about, say("job {number}", number=str(line.job_number))),
            Words(line.note, soft=True),
            Words(line.by, soft=True),
            Figure(number(line.amount.amount, grouped=True), line.amount.currency),
        ),
    )
