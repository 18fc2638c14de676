"""All invoices that were issued, the newest first, or only those that are open."""

from __future__ import annotations

from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import set_shown
from app.screens.kit.cells import Column, Figure, Group, Leave, Row, Words
from app.screens.kit.choice import Choice
from app.screens.language import day, number, say
from app.screens.office.list_page import ListPage
from app.trade.money import total
from app.trade.sentence import Sentence
from app.work.office.invoice_lists import InvoiceRow, invoices

ALL, OPEN = "all", "open"


class InvoicesPage(ListPage):
    """Registered as ``invoices``. Enter opens the invoice of the job."""

    help_topic = "invoices"
    record = "invoice"
    words = Sentence("Invoices")
    add_words = Sentence("Go to the jobs to invoice")
    empty_words = (
        Sentence("Invoices stand here once they are issued"),
        Sentence("A job that is ready is invoiced from the Office or from its own sheet."),
    )
    leaving = (Leave("job"), Leave("asked"), Leave("issued"))
    kinds = frozenset({"invoices", "payments", "customers", "settings"})
    has_former = False

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        super().__init__(desk, key, parent)
        self.which = Choice(say("Which invoices"), [(ALL, say("All")), (OPEN, say("Open"))], key or ALL)
        self.which.changed.connect(lambda _: self.reload())
        self.heading.add(self.which, 4)

    def columns(self) -> tuple[Column, ...]:
        return (
            Column("number", say("Invoice"), 110),
            Column("issued", say("Issued"), 130),
            Column("customer", say("Customer"), 0, least=150),
            Column("job", say("Job"), 80),
            Column("asked", say("Total"), 120, number=True),
            Column("open", say("Open"), 120, number=True),
            Column("stands", say("Stands"), 262),
        )

    def fetch(self) -> Any:
        return invoices(self.desk.book, open_only=self.which.value() == OPEN)

    def rows(self, found: Any) -> list[Row | Group]:
        return [_row(line) for line in found]

    def below(self, found: Any) -> str:
        owed = [line.open for line in found if line.open.minor > 0]
        if not owed:
            return ""
        return say("{n} open, {sum}.", n=len(owed), sum=total(owed, owed[0].currency))

    def told(self) -> tuple[str, ...]:
        return (self.which.word(),)

    def add(self) -> None:
        self.desk.open("office")

    def _show(self, found: Any) -> None:
        super()._show(found)
        set_shown(self.add_button, False)


def _row(line: InvoiceRow) -> Row:
    if line.overdue:
        late = say("1 day late") if line.overdue == 1 else say("{n} days late", n=line.overdue)
        stands = Words(late, say("since {day}", day=day(line.pay_by)), before="caution", strong=True)
    elif line.open.minor > 0:
        stands = Words(say("to pay by {day}", day=day(line.pay_by)))
    elif line.open.minor < 0:
        stands = Words(say("paid too much"), before="note")
    else:
        stands = Words(say("credited") if line.credited else say("paid"), soft=True)
    return Row(
        line.job_id,
        (
            Words(line.number, strong=True),
            Words(day(line.issued_on)),
            Words(line.customer),
            Words(str(line.job_number), soft=True),
            Figure(number(line.asked.amount, grouped=True), line.asked.currency),
            Figure(number(line.open.amount, grouped=True), line.open.currency) if line.open.minor else None,
            stands,
        ),
    )
