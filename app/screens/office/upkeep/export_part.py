"""Taking everything out in open formats."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QSizePolicy, QWidget

from app.screens.bench.failures import tell
from app.screens.desk import Desk
from app.screens.kit.boxes import Column, Row
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.kit.progress import ProgressLine
from app.screens.kit.trouble import TroubleBar
from app.screens.language import say
from app.screens.office.link_line import inset
from app.screens.threads import Ticket
from app.trade.sentence import Sentence
from app.work.shop_book import Book
from app.work.upkeep.export import export_everything


class ExportPart(QWidget):
    """One CSV for each table and one JSON of everything, into a folder."""

    def __init__(self, desk: Desk, trouble: TroubleBar, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk, self._trouble = desk, trouble
        self._ticket: Ticket | None = None
        told = Label(
            say(
                "Every table is written as a list (CSV) that other programs open, and all of it as one file (JSON). "
                "PINs stay inside. Whoever gets the folder can read everything else: customers, too."
            ),
            wrap=True,
        )
        self.begin = Button(say("Export everything…"), self._ask, kind="main")
        self.progress = ProgressLine()
        self._done = Label("", wrap=True)
        buttons = Row(gap=9)
        self.bookkeeper = Button(say("For the bookkeeper"), partial(desk.open, "bookkeeper"), kind="quiet")
        buttons.add(self.begin, self.bookkeeper)
        buttons.addStretch(1)
        top = inset(told, gap=9)
        top.addLayout(buttons)
        top.add(self.progress, self._done)
        Column(self).addLayout(top)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    def first(self) -> QWidget:
        """Where the focus goes."""
        return self.begin

    def put_away(self) -> None:
        """The page goes: what is half written is taken away again."""
        if self._ticket is not None:
            self._ticket.cancel()

    def start(self, folder: Path) -> None:
        """Write everything into ``folder``."""
        self._done.setText("")
        self.progress.begin(say("Writing everything out"), self._stopped)
        self._ticket = self._desk.doors.long_look_up(
            self,
            partial(_export, self._desk.book, folder),
            partial(self._show, folder),
            self._failed,
            self.progress.step,
        )

    @property
    def words(self) -> str:
        """What came of it."""
        return self._done.text()

    def _ask(self) -> None:
        name = QFileDialog.getExistingDirectory(self, say("Where to write everything"))
        if name:
            self.start(Path(name))

    def _show(self, folder: Path, files: Sequence[Path]) -> None:
        self.progress.end()
        self._trouble.clear()
        self._done.setText(say("{n} files were written into {folder}.", n=len(files), folder=str(folder)))

    def _stopped(self) -> None:
        self.put_away()
        self._done.setText(say("The export was stopped. What was half written was taken away again."))
        self.begin.setFocus(Qt.FocusReason.OtherFocusReason)

    def _failed(self, error: Exception) -> None:
        self.progress.end()
        tell(self._trouble, error)


def _export(book: Book, folder: Path, ticket: Ticket) -> tuple[Path, ...]:
    count = 0

    def watch(table: str) -> None:
        nonlocal count
        ticket.step(count, 0, Sentence("table {name}", {"name": table}))
        count += 1

    return export_everything(book, folder, watch=watch)
