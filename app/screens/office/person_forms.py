"""Forms on the page of a person: the name, a mark with its proof, the end of a mark, a PIN typed twice."""

from __future__ import annotations

from datetime import date
from functools import partial
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.bench.inline_form import Deed, InlineForm
from app.screens.desk import Desk
from app.screens.kit.choice import Choice
from app.screens.kit.day_field import DayField
from app.screens.kit.fields import Field
from app.screens.kit.label import Label
from app.screens.language import say
from app.screens.office.instruments_page import optional_day
from app.trade.bench.authority import pin_refused
from app.trade.bench.stages import Mark
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.people.pins import set_pin
from app.work.people.staff import StaffCard, add_staff, end_mark, give_mark, rename_staff


class NameForm(InlineForm):
    """A name: of somebody new, or written anew."""

    def __init__(self, desk: Desk, card: StaffCard | None, parent: QWidget | None = None) -> None:
        key = "person new" if card is None else f"name of {card.id}"
        verb = say("Add this person") if card is None else say("Write the name anew")
        super().__init__(desk, key, verb, parent=parent)
        self._card = card
        self.name = self.add("name", Field("", width=320, text="" if card is None else card.name))
        self.form.row(say("Name"), self.name)

    def deed(self, who: int) -> Deed:
        if self._card is None:
            return partial(add_staff, self.desk.book, who, self.name.text())
        card = self._card
        return partial(rename_staff, self.desk.book, who, card.id, card.version, self.name.text())


class MarkForm(InlineForm):
    """A mark with its proof, from whom, its day, and its end."""

    def __init__(self, desk: Desk, staff_id: int, parent: QWidget | None = None) -> None:
        super().__init__(desk, f"mark {staff_id}", say("Give the mark"), label_width=150, parent=parent)
        self._staff = staff_id
        marks = [(mark.value, say(mark.value)) for mark in (Mark.COMPETENT, Mark.OWNER)]
        self.mark = self.add("mark", Choice("", marks, marks[0][0]))
        self.proof = self.add("proof", Field("", hint=say("course certificate, trade register")))
        self.proof_from = self.add("proof_from", Field("", hint=say("school, chamber, person")))
        self.dated = self.add("dated", DayField("", desk.today, width=150))
        self.ends = self.add("ends", DayField("", desk.today, width=150))
        self.form.row(say("Mark"), self.mark)
        self.form.row(say("What proves it"), self.proof)
        self.form.row(say("From whom"), self.proof_from)
        self.form.row(say("Dated"), self.dated, say("counts to"), self.ends, say("(empty: without an end)"))

    def deed(self, who: int) -> Deed:
        dated = optional_day("dated", self.dated)
        if dated is None:
            raise FieldRefusal({"dated": Sentence("Write the day of the proof.")})
        return partial(
            give_mark,
            self.desk.book,
            who,
            self._staff,
            Mark(self.mark.value()),
            proof=self.proof.text(),
            proof_from=self.proof_from.text(),
            dated=dated,
            ends=optional_day("ends", self.ends),
        )


class EndMarkForm(InlineForm):
    """The last day on which a mark counts."""

    def __init__(
        self, desk: Desk, mark_id: int, what: str, today: date, parent: QWidget | None = None
    ) -> None:
        super().__init__(desk, f"end mark {mark_id}", say("End the mark"), label_width=150, parent=parent)
        self.hidden_values = {"mark": mark_id}
        self.form.row("", Label(what, wrap=True), stretch_last=True)
        self.ends = self.add("ends", DayField("", desk.today, day=today, width=150))
        self.form.row(say("Counts to"), self.ends)

    def deed(self, who: int) -> Deed:
        ends = optional_day("ends", self.ends)
        if ends is None:
            raise FieldRefusal({"ends": Sentence("Write the last day on which it counts.")})
        return partial(end_mark, self.desk.book, who, int(self.hidden_values["mark"]), ends)


class PinForm(InlineForm):
    """A PIN, typed twice; no PIN ever goes into a draft."""

    def __init__(self, desk: Desk, card: StaffCard, parent: QWidget | None = None) -> None:
        super().__init__(desk, f"pin {card.id}", say("Set the PIN"), label_width=190, parent=parent)
        self._card = card
        own = desk.staff is not None and desk.staff.id == card.id
        self.present: Any = None
        if card.has_pin or not own:
            whose = say("Present PIN") if own else say("PIN of who sets it")
            self.present = Field("", width=150, secret=True)
            self.form.row(whose, self.present)
        self.pin = Field("", width=150, secret=True)
        self.again = Field("", width=150, secret=True)
        self.form.row(say("New PIN"), self.pin)
        self.form.row(say("Once more"), self.again)
        told = say(
            "Four digits or more, or a passphrase. It signs and guards against slips; it locks nothing."
        )
        self.form.row("", Label(told, "soft", wrap=True), stretch_last=True)
        self.named = {"present": self.present, "pin": self.pin, "again": self.again}
        self.pin.changed.connect(lambda _: self._check())
        self.again.changed.connect(lambda _: self._check())

    def values(self) -> dict[str, Any]:
        return {}

    def keep_draft(self) -> None:
        """Nothing is kept."""

    def deed(self, who: int) -> Deed:
        pin = self.pin.edit.text()
        if wrong := pin_refused(pin):
            raise FieldRefusal({"pin": wrong})
        if pin != self.again.edit.text():
            raise FieldRefusal({"again": Sentence("The two are not the same.")})
        present = self.present.edit.text() if self.present is not None else ""
        return partial(set_pin, self.desk.book, who, self._card.id, pin, present=present)

    def _check(self) -> None:
        """While typing: an easy PIN, and a second one that differs, are told at once."""
        pin, again = self.pin.edit.text(), self.again.edit.text()
        wrong = pin_refused(pin) if pin else None
        self.pin.set_error(say(wrong) if wrong is not None else "")
        self.again.set_error("" if not again or pin.startswith(again) else say("The two are not the same."))
