"""Who signs, and the PIN: for acknowledging flags and for safety tests."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from app.screens.bench.inline_form import InlineForm
from app.screens.desk import Desk
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.language import say
from app.trade.bench.stages import Mark
from app.trade.refusal import FieldRefusal, Refusal
from app.trade.sentence import Sentence
from app.work.people.staff import StaffCard, staff_list, who_may


class Signature:
    """Two fields in a form: the person, among those who may, and that person's PIN. The PIN is in no draft."""

    def __init__(self, form: InlineForm, desk: Desk, needs: Mark | None, word: str) -> None:
        self.desk, self.needs = desk, needs
        self.person = Combo("", (), width=210)
        self.pin = Field("", width=120, secret=True)
        form.form.row(word, self.person, say("PIN"), self.pin)
        form.add("signer", self.person)
        ask = partial(who_may, desk.book, needs) if needs is not None else partial(staff_list, desk.book)
        desk.doors.look_up(form, ask, self._show)

    def _show(self, cards: Sequence[StaffCard]) -> None:
        chosen = self.person.value()
        now = self.desk.staff.id if self.desk.staff is not None else None
        ids = [card.id for card in cards]
        wanted = chosen if chosen in ids else now if now in ids else ids[0] if ids else None
        self.person.set_options([(card.id, card.name) for card in cards], wanted)
        if not cards:
            mark = say(self.needs.value) if self.needs is not None else ""
            self.pin.set_error(say("Nobody carries the mark “{mark}” today.", mark=mark))

    def signed(self) -> tuple[int, str]:
        """The person's id and the PIN as typed. Raises FieldRefusal."""
        person = self.person.value()
        if person is None:
            raise FieldRefusal({"signer": Sentence("Choose who signs.")})
        if not self.pin.edit.text():
            raise FieldRefusal({"pin": Sentence("Type the PIN.")})
        return int(person), self.pin.edit.text()

    def tells(self, error: Exception) -> bool:
        """Say at the PIN why it was not taken, and empty it; False for an error that is not about signing."""
        if not isinstance(error, Refusal) or isinstance(error, FieldRefusal):
            return False
        step = say(error.next_step) if error.next_step is not None else ""
        self.pin.edit.clear()
        self.pin.set_error(f"{say(error.sentence)} {step}".strip())
        self.pin.setFocus()
        return True
