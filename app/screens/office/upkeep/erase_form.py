"""The question before one person's data is erased, answered by the owner with the PIN."""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QWidget

from app.screens.bench.inline_form import Deed, InlineForm
from app.screens.bench.signature import Signature
from app.screens.desk import Desk
from app.screens.kit.label import Label
from app.screens.language import say
from app.trade.refusal import PinRefused
from app.trade.upkeep.erasing import SIGNED_BY
from app.work.people.customers import CustomerMatch
from app.work.upkeep.person import erase_customer


class EraseForm(InlineForm):
    """Who is meant, what it does, and the owner's PIN. Nothing of it is a draft."""

    def __init__(self, desk: Desk, person: CustomerMatch) -> None:
        super().__init__(desk, f"erase customer {person.id}", say("Erase it now"))
        self.person = person
        words = say(
            "Every personal text of {name} is blanked. This cannot be undone; the history keeps that it was done, "
            "by whom and when.",
            name=person.name,
        )
        self.form.row("", Label(words, wrap=True), stretch_last=True)
        self.signature = Signature(self, desk, SIGNED_BY, say("Owner"))
        self.named["pin"] = self.signature.pin
        self.leave_button.setText(say("Keep it"))
        self.empty_button.hide()

    def keep_draft(self) -> None:
        """A PIN is kept nowhere, and there is nothing else to keep."""

    def first_field(self) -> QWidget:
        """At the PIN: while it is empty, an Enter too many does no harm."""
        return self.signature.pin

    def deed(self, who: int) -> Deed:
        owner, pin = self.signature.signed()
        return partial(erase_customer, self.desk.book, owner, pin, self.person.id)

    def _failed(self, error: Exception) -> None:
        self.signature.pin.edit.clear()
        if isinstance(error, PinRefused) and self.signature.tells(error):
            self.busy = False
        else:
            super()._failed(error)
