"""The owner's decision that a customer's own player goes back unrepaired and unsafe."""

from __future__ import annotations

from functools import partial
from typing import Any

from PySide6.QtCore import Signal

from app.screens.bench.inline_form import Deed, InlineForm
from app.screens.bench.signature import Signature
from app.screens.counter.words_area import WordsArea
from app.screens.desk import Desk
from app.screens.kit.choice import Choice
from app.screens.kit.label import Label
from app.screens.kit.tick import Tick
from app.screens.language import say
from app.trade.bench.stages import NOT_MENDED, Mark, Outcome
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.counter.unsafe_return import decide_unsafe_return


class UnsafeForm(InlineForm):
    """Outcome, reason, local law, and the owner's PIN. `sheet_issued` brings the paper that is signed."""

    sheet_issued = Signal(int)

    def __init__(self, desk: Desk, job_id: int) -> None:
        super().__init__(desk, f"job {job_id} unsafe return", say("Decide, and print the sheet to be signed"))
        self.job_id = job_id
        words = say(
            "The stop stays open on the player. It goes back with its case shut and a tag on the plug, and the "
            "customer signs the warning."
        )
        self.form.row("", Label(words, wrap=True), stretch_last=True)
        outcomes = [(str(one), say(one.value)) for one in Outcome if one in NOT_MENDED]
        self.outcome = self.add("outcome", Choice(say("Outcome"), outcomes, str(Outcome.DECLINED)))
        self.form.row(say("Outcome"), self.outcome)
        self.reason = WordsArea(say("Reason"), hint=say("it is printed on the sheet"), lines=2)
        self.form.row(say("Reason"), self.reason)
        self.named["unsafe.reason"] = self.reason
        self.law = self.add("law", Tick(say("local law was looked at first and lets it go back")))
        self.form.row("", self.law)
        self.signature = Signature(self, desk, Mark.OWNER, say("Owner"))
        self.named["pin"] = self.signature.pin
        self.saved.connect(lambda done: self.sheet_issued.emit(done.value.sheet_id))

    def values(self) -> dict[str, Any]:
        return {
            "outcome": self.outcome.value(),
            "law": self.law.isChecked(),
            "reason": self.reason.text(),
        }

    def fill(self, values: Any) -> None:
        self.reason.set_text(str(values.get("reason") or ""))
        super().fill({name: values[name] for name in ("outcome", "law") if name in values})

    def deed(self, who: int) -> Deed:
        if not self.reason.text():
            raise FieldRefusal(
                {
                    "unsafe.reason": Sentence(
                        "Write the reason: it is printed on the sheet that the customer signs."
                    )
                }
            )
        owner, pin = self.signature.signed()
        return partial(
            decide_unsafe_return,
            self.desk.book,
            owner,
            pin,
            self.job_id,
            outcome=Outcome(self.outcome.value() or Outcome.DECLINED),
            reason=self.reason.text(),
            law_looked_at=self.law.isChecked(),
        )

    def _failed(self, error: Exception) -> None:
        if self.signature.tells(error):
            self.busy = False
        else:
            super()._failed(error)
