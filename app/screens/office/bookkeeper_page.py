"""For the bookkeeper: a period's journal to look at, and written as files with the papers of it."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QWidget

from app.screens.bench.failures import tell
from app.screens.desk import Desk
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column, Figure, Group, Leave, Row, Words
from app.screens.kit.label import Label
from app.screens.kit.progress import ProgressLine
from app.screens.language import current, day, number, say
from app.screens.office.list_page import ListPage
from app.screens.office.period_bar import PeriodBar
from app.screens.threads import Ticket
from app.trade.calendar.period import Period, month_of
from app.trade.money import Money
from app.trade.office.journal import Entry, JournalSums, sums_of
from app.trade.office.vat import CODES, percent
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.office.for_bookkeeper import Written, write_for_bookkeeper
from app.work.office.journal import journal

MOST = 1000  # rows to look at; the file has all


class BookkeeperPage(ListPage):
    """Registered as ``bookkeeper``. Enter opens the invoice of a row."""

    help_topic = "bookkeeper"
    words = Sentence("For the bookkeeper")
    add_words = Sentence("Go to the invoices")
    empty_words = (
        Sentence("Nothing was invoiced, credited or paid in this period"),
        Sentence("Choose another one above. An empty journal can be written all the same."),
    )
    leaving = tuple(map(Leave, ("job", "means", "vat", "net", "refers", "rate", "number")))
    kinds = frozenset({"invoices", "credit_notes", "payments", "customers", "settings"})
    has_former = False

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        super().__init__(desk, key, parent)
        self._ticket: Ticket | None = None
        self._period = month_of(desk.today(), 1)
        self._shown: list[Entry] = []
        self.bar = PeriodBar(desk)
        self.bar.asked.connect(self._other_period)
        self.write_button = Button(say("Write the files…"), self.ask_folder, kind="main")
        self.head.set_buttons(self.write_button)
        self.progress = ProgressLine()
        self.done = Label("", wrap=True)
        self.heading.add(self.bar, self.progress, self.done, 4)
        set_shown(self.done, False)

    def columns(self) -> tuple[Column, ...]:
        return (
            Column("day", say("Day"), 116),
            Column("kind", say("What"), 150),
            Column("number", say("Number"), 74),
            Column("refers", say("For invoice"), 92),
            Column("job", say("Job"), 66),
            Column("customer", say("Customer"), 0, least=90),
            Column("rate", say("VAT rate"), 84, number=True),
            Column("net", say("Without VAT"), 97, number=True),
            Column("vat", say("VAT"), 84, number=True),
            Column("gross", say("With VAT"), 97, number=True),
            Column("paid", say("Paid"), 90, number=True),
            Column("means", say("Means"), 106),
        )

    def fetch(self) -> Any:
        entries = journal(self.desk.book, self._period)
        return entries[:MOST], sums_of(entries, self.desk.shop.currency)

    def rows(self, found: Any) -> list[Row | Group]:
        self._shown = list(found[0])
        return [_row(at, entry) for at, entry in enumerate(found[0])]

    def below(self, found: Any) -> str:
        sums: JournalSums = found[1]
        if not sums.rows:
            return ""
        told = say(
            "{first} to {last}: {turnover} with VAT, {vat} of it VAT. {paid} taken.",
            first=self._period.first,
            last=self._period.last,
            turnover=sums.turnover,
            vat=sums.vat,
            paid=sums.paid,
        )
        if sums.rows <= MOST:
            return told
        return (
            f"{told} {say('The first {n} of {of} rows stand here; the file has all.', n=MOST, of=sums.rows)}"
        )

    def told(self) -> tuple[str, ...]:
        if self._shown:  # what stands below the heading names the days
            return ()
        return (say("{first} to {last}", first=self._period.first, last=self._period.last),)

    def open(self, key: Any) -> None:
        self.desk.open("invoice", self._shown[key].job_id)

    def add(self) -> None:
        self.desk.open("invoices")

    def put_away(self) -> None:
        """The page goes: what is half written is taken away again."""
        super().put_away()
        if self._ticket is not None:
            self._ticket.cancel()

    def _show(self, found: Any) -> None:
        super()._show(found)
        set_shown(self.add_button, False)

    # the period

    def _other_period(self) -> None:
        try:
            self._period = self.bar.period()
        except FieldRefusal as refusal:
            self.bar.refuse(refusal)
            return
        self.bar.refuse(None)
        self._say("")
        self.reload()

    # the files

    def ask_folder(self) -> None:
        """Ask where to, then write."""
        name = QFileDialog.getExistingDirectory(self, say("Where to write journal and papers"))
        if name:
            self.start(Path(name))

    def start(self, folder: Path) -> None:
        """Write the files of the period into ``folder``."""
        try:
            period = self.bar.period()
        except FieldRefusal as refusal:
            self.bar.refuse(refusal)
            return
        self._say("")
        self.trouble.clear()
        self.progress.begin(say("Writing the papers"), self._stopped)
        self._ticket = self.desk.doors.long_look_up(
            self, partial(self._write, folder, period), self._written, self._failed, self.progress.step
        )

    def _write(self, folder: Path, period: Period, ticket: Ticket) -> Written:
        def watch(done: int, of: int, name: str) -> None:
            ticket.step(done, of, Sentence("{name}", {"name": name}))

        mark = self.bar.mark.value()
        return write_for_bookkeeper(self.desk.book, folder, period, current(), mark=mark, watch=watch)

    def _written(self, written: Written) -> None:
        self.progress.end()
        papers = say("1 paper as PDF") if written.papers == 1 else say("{n} papers as PDF", n=written.papers)
        self._say(
            say(
                "Written into {folder}: the journal with {rows} rows, what its columns mean, {papers}.",
                folder=str(written.folder),
                rows=written.sums.rows,
                papers=papers,
            )
        )
        if written.lacking:
            names = "\n".join(f"{name}: {say(why)}" for name, why in written.lacking)
            self.trouble.show_trouble(say("Some papers are not whole and were left out:"), names)

    def _stopped(self) -> None:
        assert self._ticket is not None
        self._ticket.cancel()
        self._say(say("Stopped. What was half written was taken away again."))
        self.write_button.setFocus(Qt.FocusReason.OtherFocusReason)

    def _failed(self, error: Exception) -> None:
        self.progress.end()
        tell(self.trouble, error)

    def _say(self, words: str) -> None:
        self.done.setText(words)
        set_shown(self.done, bool(words))


def _row(at: int, entry: Entry) -> Row:
    rate = None
    if entry.vat_rate is not None and entry.category is not None:
        code = "" if entry.vat_rate else CODES[entry.category]
        rate = Figure(number(percent(entry.vat_rate).value), f"% {code}".strip())
    return Row(
        at,
        (
            Words(day(entry.day)),
            Words(say(entry.kind.value), entry.text, tip=entry.text),
            Words(entry.number, strong=True),
            Words(entry.refers_to),
            Words(str(entry.job), soft=True),
            Words(entry.customer, tip=entry.customer),
            rate,
            _amount(entry.net),
            _amount(entry.vat),
            _amount(entry.gross, strong=True),
            _amount(entry.paid, strong=True),
            Words(say(entry.means), soft=True) if entry.means else None,
        ),
    )


def _amount(money: Money | None, *, strong: bool = False) -> Figure | None:
    return None if money is None else Figure(number(money.amount, grouped=True), strong=strong)
