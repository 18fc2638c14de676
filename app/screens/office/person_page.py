"""One who works in the shop: name, marks with their proof, PIN, and leaving."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.desk import Desk
from app.screens.kit.boxes import Column, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column as TableColumn
from app.screens.kit.cells import Leave, Row, Words
from app.screens.kit.heading import Heading
from app.screens.kit.label import Label
from app.screens.kit.table import SmallTable
from app.screens.language import day, say
from app.screens.office.form_place import FormPlace
from app.screens.office.link_line import inset, link_line
from app.screens.office.person_forms import EndMarkForm, MarkForm, NameForm, PinForm
from app.screens.page import Page
from app.trade.refusal import StaleRow
from app.work.people.staff import MarkCard, StaffCard, leave_staff, return_staff, staff_card
from app.work.shop_book import Done


class PersonPage(Page):
    """Registered as ``person``; its key is the id, None for somebody new."""

    help_topic = "staff"

    def __init__(self, desk: Desk, key: Any, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.key = key
        self.card: StaffCard | None = None
        self._asked: Any = None
        self.set_title(say("Somebody new"))
        self.head = Heading(say("Somebody new"))
        self.leave_button = Button("", self._leave_or_return, kind="quiet")
        self.rename = Button(say("Write the name anew"), self._rename, kind="quiet")
        self.pin_button = Button(say("Set the PIN"), self._pin, kind="main")
        self.head.set_buttons(self.leave_button, self.rename, self.pin_button)
        self.heading.add(self.head)
        self.place = FormPlace()
        self.place.failed.connect(self._failed)
        self.place.saved.connect(lambda _: self.trouble.clear())
        self.sheet.set_margins((18, 9, 18, 18))
        self.sheet.add(self.place)
        self.give = Button(say("Give a mark"), self._give, kind="quiet")
        self.end = Button(say("End the marked one"), self._end, kind="quiet")
        self._none = Label(
            say("No mark yet: this person signs for nothing that needs one."), "soft", wrap=True
        )
        self.table = SmallTable(say("Marks held"), _columns(), leaving=(Leave("from"),))
        self.mark_place = FormPlace()
        self.mark_place.failed.connect(self._failed)
        self.mark_place.saved.connect(lambda _: self.trouble.clear())
        self.marks = QWidget()
        part = Column(self.marks, gap=7)
        part.addLayout(inset(Label(say("Marks held"), "strong"), self._none))
        part.add(self.table)
        part.addLayout(inset(link_line(self.give, self.end)))
        part.add(self.mark_place)
        self.sheet.add(self.marks)
        for hidden in (self.marks, self.leave_button, self.rename, self.pin_button):
            set_shown(hidden, False)

    # what pages do

    def reload(self, changes: Any = None) -> None:
        """Read the card anew."""
        if self.key is None or (changes is not None and not {"staff", "staff_marks"} & changes.kinds):
            return
        if self._asked is not None:
            self._asked.cancel()
        self._asked = self.desk.doors.look_up(
            self, partial(staff_card, self.desk.book, self.key), self._show, partial(tell, self.trouble)
        )

    def arrive(self) -> None:
        if self.key is None and self.place.form is None:
            self._somebody_new()
        if self.place.form is not None:
            self.place.form.focus_first()
        elif self.card is not None:
            self.pin_button.setFocus(Qt.FocusReason.OtherFocusReason)

    def put_away(self) -> None:
        if self._asked is not None:
            self._asked.cancel()

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {"leave": self._back}

    # showing

    def _show(self, card: StaffCard) -> None:
        first, self.card = self.card is None, card
        below = "" if card.active else say("Worked here before.")
        if card.active and not card.has_pin:
            below = say("No PIN yet: this person cannot sign.")
        self.head.set_words(card.name, below=below)
        self.set_title(card.name)
        self.leave_button.setText(say("Works here again") if not card.active else say("Has left the shop"))
        for button in (self.leave_button, self.rename, self.pin_button):
            set_shown(button, True)
        self.pin_button.setText(say("Set another PIN") if card.has_pin else say("Set the PIN"))
        self.table.set_rows([_row(mark) for mark in card.proofs])
        set_shown(self.table, bool(card.proofs))
        set_shown(self._none, not card.proofs)
        set_shown(self.end, bool(card.proofs))
        set_shown(self.marks, True)
        if first and self.isVisible():
            self.arrive()

    # doing

    def _somebody_new(self) -> None:
        form = NameForm(self.desk, None)
        self.place.open(form, after=self._added, focus=False)
        form.left.connect(self.desk.back)

    def _added(self, done: Done[int]) -> None:
        """The new person's own page, with the way back to the list."""
        self.desk.back()
        self.desk.open("person", done.value)

    def _rename(self) -> None:
        if self.card is not None:
            self.place.open(NameForm(self.desk, self.card), self.rename)

    def _pin(self) -> None:
        if self.card is not None:
            self.place.open(PinForm(self.desk, self.card), self.pin_button)

    def _give(self) -> None:
        if self.card is not None:
            self.mark_place.open(MarkForm(self.desk, self.card.id), self.give)

    def _end(self) -> None:
        key = self.table.marked_key()
        if self.card is None or key is None:
            return
        mark = next(mark for mark in self.card.proofs if mark.id == key)
        what = say("{mark}, {proof}", mark=say(mark.mark.value), proof=mark.proof)
        self.mark_place.open(EndMarkForm(self.desk, mark.id, what, self.desk.today()), self.end)

    def _leave_or_return(self) -> None:
        card, staff = self.card, self.desk.staff
        if card is None:
            return
        if staff is None:
            self.trouble.show_trouble(say("Say first who works here now, with Ctrl+U."))
            return
        deed = leave_staff if card.active else return_staff
        work = partial(deed, self.desk.book, staff.id, card.id, card.version)
        self.desk.change(self, work, lambda _: self.trouble.clear(), self._failed)

    def _failed(self, error: Exception, again: Callable[[], object] | None = None) -> None:
        tell(self.trouble, error, again)
        if isinstance(error, StaleRow):
            self.reload()

    def _back(self) -> None:
        for place in (self.place, self.mark_place):
            if place.form is not None and self.key is not None:
                place.close_form()
                return
        self.desk.back()


def _columns() -> tuple[TableColumn, ...]:
    return (
        TableColumn("mark", say("Mark"), 240),
        TableColumn("proof", say("What proves it"), 0, least=150),
        TableColumn("from", say("From whom"), 200),
        TableColumn("dated", say("Dated"), 124),
        TableColumn("ends", say("Counts to"), 170),
    )


def _row(mark: MarkCard) -> Row:
    ends = Words(day(mark.ends)) if mark.ends is not None else Words(say("without an end"), soft=True)
    over = say("does not count today") if not mark.counts else ""
    return Row(
        mark.id,
        (
            Words(say(mark.mark.value), over, strong=mark.counts, soft=not mark.counts),
            Words(mark.proof, tip=mark.proof),
            Words(mark.proof_from, soft=True),
            Words(day(mark.dated)),
            ends,
        ),
    )
