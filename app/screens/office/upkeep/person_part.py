"""What the book holds of one person: handed out as files to read, or erased."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QFileDialog, QSizePolicy, QWidget

from app.screens.bench.failures import tell
from app.screens.desk import Desk
from app.screens.kit.boxes import Column, Row, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.fields import Field
from app.screens.kit.label import Label
from app.screens.kit.matches import Match, MatchesList
from app.screens.kit.trouble import TroubleBar
from app.screens.language import current, day, say
from app.screens.office.link_line import inset
from app.screens.office.upkeep.erase_form import EraseForm
from app.work.people.customers import CustomerMatch, match_customers
from app.work.shop_book import Done
from app.work.upkeep.person import Erased, export_customer


class PersonPart(QWidget):
    """Found by name or telephone; erasing asks for the owner's PIN, since it cannot be undone.

    `opened` brings the question once it has its place.
    """

    opened = Signal(object)

    def __init__(self, desk: Desk, trouble: TroubleBar, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk, self._trouble = desk, trouble
        self._asked: Any = None
        self.person: CustomerMatch | None = None
        told = Label(
            say(
                "Who asks what the shop keeps of them gets it as a text to read. Erasing blanks every personal text "
                "of the person, also in the history; invoices, credit notes, receipts, reminders, notices to collect and estimates "
                "of invoiced jobs stay for as long as the law asks, and copies made before still hold it until they are "
                "thinned. The owner signs for it."
            ),
            wrap=True,
        )
        self.name = Field(say("Name or telephone"), width=320, hint=say("name or telephone"))
        self.matches = MatchesList()
        self.matches.attach(self.name, self._take)
        self.name.changed.connect(self._look)
        self._who = Label("", "strong", wrap=True)
        self.hand_out = Button(say("Write it out…"), self._ask_folder)
        self.erase = Button(say("Erase this person's data"), self._sure, kind="quiet")
        self.asked: EraseForm | None = None
        self._done = Label("", wrap=True)
        self._row = QWidget()
        row = Row(self._row, gap=14)
        row.add(self.hand_out, self.erase)
        row.addStretch(1)
        self._question = Column()
        column = Column(self, gap=9)
        column.addLayout(inset(told, self.name, self.matches, self._who, self._row, gap=9))
        column.addLayout(self._question)
        column.addLayout(inset(self._done))
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        set_shown(self._row, False)

    @property
    def words(self) -> str:
        """What came of it."""
        return self._done.text()

    def first(self) -> QWidget:
        """Where the focus goes."""
        return self.name

    def leave(self) -> bool:
        """Esc: True when there was a question to take back."""
        if self.asked is None:
            return False
        self.asked.leave()
        return True

    def save(self) -> None:
        """Ctrl+Enter answers the question."""
        if self.asked is not None:
            self.asked.save()

    def put_away(self) -> None:
        """The page goes."""
        if self._asked is not None:
            self._asked.cancel()

    # finding

    def _look(self, text: str) -> None:
        self.put_away()
        typed = text.strip()
        figures = sum(letter.isdigit() for letter in typed) > 2
        work = partial(
            match_customers,
            self._desk.book,
            name="" if figures else typed,
            phone=typed if figures else "",
        )
        self._asked = self._desk.doors.look_up(self, work, self._found, partial(tell, self._trouble))

    def _found(self, found: Sequence[CustomerMatch]) -> None:
        self.matches.show_matches(
            self.name,
            say("In the book. Down marks, Enter takes."),
            [Match(one.name, f"{one.phone} {one.city}".strip(), _since(one), one) for one in found],
        )

    def _take(self, person: CustomerMatch) -> None:
        self.person = person
        self._who.setText(say("{name}, {since}", name=person.name, since=_since(person)))
        self._done.setText("")
        set_shown(self._row, True)
        self._close_question()
        self.hand_out.setFocus(Qt.FocusReason.OtherFocusReason)

    # handing out

    def _ask_folder(self) -> None:
        name = QFileDialog.getExistingDirectory(self, say("Where to write it"))
        if name:
            self.write_out(Path(name))

    def write_out(self, folder: Path) -> None:
        """Write what the book holds of the person into ``folder``."""
        if self.person is not None:
            work = partial(export_customer, self._desk.book, self.person.id, folder, current())
            self._desk.doors.look_up(self, work, self._written, partial(tell, self._trouble))

    def _written(self, files: tuple[Path, Path]) -> None:
        text, data = files
        self._trouble.clear()
        self._done.setText(say("Written: {text} to read, {data} as data.", text=str(text), data=data.name))

    # erasing

    def _sure(self) -> None:
        if self.person is None:
            return
        form = EraseForm(self._desk, self.person)
        form.saved.connect(self._erased)
        form.left.connect(self._kept)
        form.failed.connect(lambda error, _: tell(self._trouble, error))
        self.asked = form
        self._question.addWidget(form)
        set_shown(self._row, False)
        form.show()  # the layout would show it later, and what is not in sight takes no focus
        form.focus_first()
        QTimer.singleShot(0, form, lambda: self.opened.emit(form))

    def _kept(self) -> None:
        self._close_question()
        set_shown(self._row, True)
        self.erase.setFocus(Qt.FocusReason.OtherFocusReason)

    def _close_question(self) -> None:
        if self.asked is not None:
            self._question.removeWidget(self.asked)
            self.asked.hide()
            self.asked.deleteLater()
            self.asked = None

    def _erased(self, done: Done[Erased]) -> None:
        self._trouble.clear()
        self._close_question()
        set_shown(self._row, False)
        erased = done.value
        self._done.setText(
            say(
                "Erased: the personal texts of {rows} rows and {files} filed papers. {kept} invoices stay.",
                rows=erased.rows,
                files=erased.files,
                kept=erased.invoices_kept,
            )
        )
        self.person = None
        self._who.setText("")
        self.name.set_text("")
        self.name.setFocus(Qt.FocusReason.OtherFocusReason)


def _since(person: CustomerMatch) -> str:
    since = day(person.since.astimezone(current().zone).date())
    jobs = say("1 job") if person.jobs == 1 else say("{n} jobs", n=person.jobs)
    return say("known since {day}, {jobs}", day=since, jobs=jobs)
