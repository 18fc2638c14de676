"""Making two customers' cards one: find the other card, see what happens, then do it."""

from __future__ import annotations

from functools import partial
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import Column, Flow, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.fields import Field
from app.screens.kit.form import Form
from app.screens.kit.label import Label
from app.screens.kit.matches import Match, MatchesList
from app.screens.kit.section import Section
from app.screens.language import say
from app.work.people.customer_list import CustomerLine, customer_list
from app.work.people.customers import CustomerCard, customer_card, merge_customers


class MergePanel(Section):
    """Folded until somebody needs it. `failed` brings an error and the call that tries again."""

    failed = Signal(object, object)

    def __init__(self, desk: Desk, keep_id: int, parent: QWidget | None = None) -> None:
        super().__init__(say("Two cards, one person"), opened=False, parent=parent)
        self.desk, self.keep_id = desk, keep_id
        self.keep: CustomerCard | None = None
        self.other: CustomerCard | None = None
        self._asked: Any = None
        self._quiet = False
        self.set_summary(say("make another card one with this"))
        form = Form(sections=False)
        self.search = Field(say("The other card"), hint=say("name or number"))
        form.row(say("The other card"), self.search)
        self.matches = MatchesList()
        self.matches.attach(self.search, self._take)
        self.words = Label("", wrap=True)
        self.do_it = Button(say("Make them one"), self._merge)
        buttons = Flow(gap=14)
        buttons.add(self.do_it)
        inside = Column(gap=9, margins=(9, 4, 9, 4))
        inside.add(form, self.matches, self.words)
        inside.addLayout(buttons)
        self.column.addLayout(inside)
        self.search.changed.connect(self._typed)
        self._show_other(None)

    def show_card(self, card: CustomerCard) -> None:
        """The card that stays."""
        self.keep = card

    def _typed(self, text: str) -> None:
        if self._quiet:
            return
        self._show_other(None)
        if self._asked is not None:
            self._asked.cancel()
        if len(text.strip()) < 2:
            self.matches.clear()
            return
        self._asked = self.desk.doors.look_up(
            self, partial(customer_list, self.desk.book, text, 8), self._found, self._trouble
        )

    def _found(self, lines: tuple[CustomerLine, ...]) -> None:
        matches = [Match(c.name, c.phone, c.city, c.id) for c in lines if c.id != self.keep_id]
        self.matches.show_matches(self.search, say("Customers"), matches)

    def _take(self, customer_id: int) -> None:
        self.desk.doors.look_up(
            self, partial(customer_card, self.desk.book, customer_id), self._show_other, self._trouble
        )

    def _show_other(self, card: CustomerCard | None) -> None:
        self.other = card
        set_shown(self.words, card is not None)
        set_shown(self.do_it, card is not None)
        if card is None or self.keep is None:
            return
        self._quiet = True
        self.search.set_text(card.form.name)
        self._quiet = False
        self.words.setText(
            say(
                "From {other} to {keep} go: jobs {jobs}, players {units}. What this card lacks is taken over; "
                "the other card stays as it was and leads here. This cannot be taken back.",
                jobs=len(card.jobs),
                units=len(card.units),
                other=f"{card.form.name}, {card.form.phone}".strip(", "),
                keep=self.keep.form.name,
            )
        )
        self.do_it.setFocus()

    def _merge(self) -> None:
        if self.keep is None or self.other is None:
            return
        staff = self.desk.staff
        if staff is None:
            self.words.setText(say("Say first who works here now, with Ctrl+U."))
            return
        self.desk.change(
            self,
            partial(
                merge_customers,
                self.desk.book,
                staff.id,
                self.keep.id,
                self.keep.version,
                self.other.id,
                self.other.version,
            ),
            self._merged,
            self._trouble,
        )

    def _merged(self, _: Any) -> None:
        self._show_other(None)
        self._quiet = True
        self.search.set_text("")
        self._quiet = False
        self.set_opened(False)
        self.head.setFocus()

    def _trouble(self, error: Exception) -> None:
        self.failed.emit(error, None)
