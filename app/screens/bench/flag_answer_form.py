"""Acknowledging a flag, or clearing it with a reason, signed by whoever may."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from app.screens.bench.inline_form import Deed, InlineForm, told
from app.screens.bench.signature import Signature
from app.screens.kit.fields import Field
from app.screens.language import say
from app.trade.bench.flag import Closing
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.bench.flags import answer_flag
from app.work.bench.sheet_lines import FlagLineFact

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class FlagAnswerForm(InlineForm):
    """Reason, person and PIN; opened under the flags themselves."""

    def __init__(self, page: JobSheetPage, key: str, flag: FlagLineFact) -> None:
        seen = flag.closing is Closing.SEEN
        super().__init__(page.desk, key, say("Acknowledge it") if seen else say("Clear it"))
        self.flag = flag
        words = say("{word}: {sentence}", word=say(flag.word), sentence=say(flag.sentence))
        about = told("body")
        about.setText(words)
        self.form.row("", about)
        self.reason = self.add("reason", Field("", hint=say("it is kept with the name")))
        self.form.row(say("Reason"), self.reason)
        self.signature = Signature(self, page.desk, flag.needs, say("Signed by"))
        self.named["pin"] = self.signature.pin

    def values(self) -> dict[str, object]:
        return {name: value for name, value in super().values().items() if name != "pin"}

    def deed(self, who: int) -> Deed:
        if not self.reason.text():
            raise FieldRefusal({"reason": Sentence("Give the reason: it is kept with your name.")})
        person, pin = self.signature.signed()
        return partial(answer_flag, self.desk.book, person, pin, self.flag.id, self.reason.text())

    def _failed(self, error: Exception) -> None:
        if self.signature.tells(error):
            self.busy = False
        else:
            super()._failed(error)
