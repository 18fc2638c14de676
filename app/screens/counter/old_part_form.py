"""An old part that goes back to the customer, noted when the player is collected."""

from __future__ import annotations

from functools import partial

from app.screens.bench.inline_form import Deed, InlineForm
from app.screens.desk import Desk
from app.screens.kit.choice import Choice
from app.screens.kit.fields import Field
from app.screens.language import say
from app.trade.counter.hand_back import LeftKind
from app.work.counter.things_left import note_thing


class OldPartForm(InlineForm):
    """Its name; a thing or a disc that was found can be noted too."""

    def __init__(self, desk: Desk, job_id: int) -> None:
        super().__init__(desk, f"job {job_id} old part", say("Note it"))
        self.job_id = job_id
        self.words_field = self.add("words", Field(say("What it is")))
        self.form.row(say("What it is"), self.words_field)
        kinds = [(str(kind), say(kind.value)) for kind in (LeftKind.OLD_PART, LeftKind.THING, LeftKind.DISC)]
        self.kind = self.add("kind", Choice(say("Kind"), kinds, str(LeftKind.OLD_PART)))
        self.form.row(say("Kind"), self.kind)

    def deed(self, who: int) -> Deed:
        kind = LeftKind(self.kind.value() or LeftKind.OLD_PART)
        return partial(note_thing, self.desk.book, who, self.job_id, kind, self.words_field.text())
