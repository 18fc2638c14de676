"""Moving a job on, and saying what it waits for."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from app.screens.bench.inline_form import Deed, InlineForm
from app.screens.kit.choice import Choice
from app.screens.kit.day_field import DayField
from app.screens.kit.fields import Field
from app.screens.language import say
from app.trade.bench.stages import Stage, Waiting, next_stages
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.counter.stages import promise_day, set_stage, set_waiting
from app.work.shop_book import Book, Changes, Done

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class StageForm(InlineForm):
    """Only what may follow is offered; what differs from before is changed, one action each."""

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("Keep this"))
        self.page = page
        sheet = page.facts
        stages = [sheet.stage, *(s for s in next_stages(sheet.stage) if s is not Stage.HANDED_BACK)]
        offered = [(s, say(s.value)) for s in sorted(stages, key=list(Stage).index)]
        self.stage = self.add("stage", Choice("", offered, sheet.stage))
        self.form.row(say("Stage"), self.stage)
        words = {
            Waiting.NOTHING: say("nothing"),
            Waiting.ANSWER: say("an answer"),
            Waiting.PART: say("a part"),
            Waiting.CUSTOMER: say("the customer"),
        }
        self.waiting = self.add("waiting", Choice("", list(words.items()), sheet.waiting))
        self.form.row(say("Waiting for"), self.waiting)
        self.day = self.add("promised_on", DayField("", page.desk.today, day=sheet.promised_on))
        self.time = self.add("promised_time", Field("", text=sheet.promised_time, width=80))
        self.form.row(say("Promised"), self.day, say("at"), self.time)

    def deed(self, who: int) -> Deed:
        if self.day.is_wrong:
            raise FieldRefusal(
                {"promised_on": Sentence("No day can be read from this. Write 27 Nov, +8 or Fri.")}
            )
        sheet, book, job = self.page.facts, self.desk.book, self.page.job_id
        deeds: list[Deed] = []
        if (self.day.day(), self.time.text()) != (sheet.promised_on, sheet.promised_time):
            deeds.append(partial(promise_day, book, who, job, self.day.day(), self.time.text()))
        waiting, stage = Waiting(self.waiting.value()), Stage(self.stage.value())
        if waiting is not sheet.waiting:
            deeds.append(partial(set_waiting, book, who, job, waiting))
        if stage is not sheet.stage:
            deeds.append(partial(set_stage, book, who, job, stage))
        return partial(_all, book, deeds)


def _all(book: Book, deeds: list[Deed]) -> Done[None]:
    """One action after the other; the first that is refused ends it."""
    touched = Changes()
    for deed in deeds:
        done: Done[None] = deed()
        touched = Changes(
            touched.jobs | done.changes.jobs,
            touched.units | done.changes.units,
            touched.transports | done.changes.transports,
            touched.customers | done.changes.customers,
            touched.kinds | done.changes.kinds,
        )
    return Done(None, touched)
