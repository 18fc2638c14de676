"""The check of the whole book: how far it is, what it looked at, and what it found in words."""

from __future__ import annotations

from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.bench.failures import tell
from app.screens.desk import Desk
from app.screens.kit.boxes import Column, Flow, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column as TableColumn
from app.screens.kit.cells import Group, Words
from app.screens.kit.cells import Row as TableRow
from app.screens.kit.label import Label
from app.screens.kit.progress import ProgressLine
from app.screens.kit.table import SmallTable
from app.screens.kit.trouble import TroubleBar
from app.screens.language import number, say
from app.screens.office.link_line import inset
from app.screens.office.upkeep.steps import steps
from app.screens.threads import Ticket
from app.trade.sentence import Sentence
from app.work.shop_book import Book, Done
from app.work.upkeep.check import CheckReport, build_index_anew, check_book

PARTS = 14  # how many parts it looks at, for the bar


class CheckPart(QWidget):
    """Nothing is changed by looking; what can be put right is offered afterwards."""

    def __init__(self, desk: Desk, trouble: TroubleBar, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk, self._trouble = desk, trouble
        self._ticket: Ticket | None = None
        self.report: CheckReport | None = None
        self._said = Label(
            say(
                "The check looks through the file, the history, photos and papers, sums, numbers and the search "
                "index. It changes nothing, and you can go on working meanwhile."
            ),
            wrap=True,
        )
        self.begin = Button(say("Check the book"), self.start, kind="main")
        self.mend = Button(say("Put right what can be"), self._mend)
        self.progress = ProgressLine()
        self.table = SmallTable(
            say("What the check found"),
            (
                TableColumn("what", say("Looked at"), 0, least=220),
                TableColumn("count", say("How many"), 110, right=True),
                TableColumn("found", say("Found"), 0, least=220),
            ),
        )
        buttons = QWidget()
        Flow(buttons, gap=9).add(self.begin, self.mend)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        buttons.setSizePolicy(policy)
        top = inset(self._said, gap=7)
        top.add(buttons, self.progress)
        column = Column(self, gap=11)
        column.addLayout(top)
        column.add(self.table)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        for hidden in (self.table, self.mend):
            set_shown(hidden, False)

    def first(self) -> QWidget:
        """Where the focus goes."""
        return self.begin

    def put_away(self) -> None:
        """The page goes: nobody waits for the rest."""
        if self._ticket is not None:
            self._ticket.cancel()

    def start(self) -> None:
        """Look through the book."""
        self.put_away()
        self._said.setText(say("Looking through the book."))
        self.progress.begin(say("Looking through the book"), self._stopped)
        self._ticket = self._desk.doors.long_look_up(
            self, partial(_look, self._desk.book), self._show, self._failed, self.progress.step
        )

    def _stopped(self) -> None:
        self.put_away()
        self._without_result(
            say("The check was stopped. Nothing was changed, and nothing is known of the rest.")
        )

    def _without_result(self, words: str) -> None:
        """What an earlier check found is not shown under the words about this one."""
        self.report = None
        self._said.setText(words)
        for hidden in (self.table, self.mend):
            set_shown(hidden, False)
        self.begin.setFocus(Qt.FocusReason.OtherFocusReason)

    def _mend(self) -> None:
        """File papers whose filing was cut short and build the index anew, then look again."""
        self.put_away()
        self.progress.begin(say("Putting right what can be"))
        self._desk.doors.long_change(
            self, partial(_put_right, self._desk.book), self._was_mended, self._failed, self.progress.step
        )

    def _was_mended(self, done: Done[Any]) -> None:
        self._desk.announce(done.changes)
        self.start()

    def _show(self, report: CheckReport) -> None:
        self.progress.end()
        self._trouble.clear()
        self.report = report
        found = len(report.found)
        if not found:
            self._said.setText(
                say("The book is good: {n} parts were looked at, nothing is wrong.", n=len(report.parts))
            )
        else:
            self._said.setText(
                say("1 thing was found.") if found == 1 else say("{n} things were found.", n=found)
            )
        self.table.set_rows(report_rows(report))
        set_shown(self.table, True)
        set_shown(self.mend, bool(found))

    def _failed(self, error: Exception) -> None:
        self.progress.end()
        self._without_result(say("The check could not be finished."))
        tell(self._trouble, error)


def report_rows(report: CheckReport) -> list[TableRow | Group]:
    """Each part with what was found; every finding has a line of its own."""
    rows: list[TableRow | Group] = []
    for part in report.parts:
        count = number(part.count, grouped=True)
        good = Words(say("good"), soft=True)
        first = Words(say(part.found[0]), before="caution", tip=say(part.found[0])) if part.found else good
        words = say(part.at)
        rows.append(TableRow(words, (Words(words, strong=bool(part.found)), Words(count, right=True), first)))
        for at, sentence in enumerate(part.found[1:], start=1):
            said = say(sentence)
            rows.append(TableRow(f"{words} {at}", (None, None, Words(said, before="caution", tip=said))))
    return rows


def _look(book: Book, ticket: Ticket) -> CheckReport:
    return check_book(book, mend=False, watch=steps(ticket, PARTS))


def _put_right(book: Book, ticket: Ticket) -> Done[Any]:
    check_book(book, mend=True, watch=steps(ticket, PARTS + 1))
    ticket.step(PARTS, PARTS + 1, Sentence("building the search index anew"))
    return build_index_anew(book)
