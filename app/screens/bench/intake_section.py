"""As the player came in: the whole words of the customer, condition, what came with it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from app.screens.bench.sheet_section import SheetSection, indented
from app.screens.kit.boxes import set_shown
from app.screens.kit.choice import Choice
from app.screens.kit.heading import FactLine
from app.screens.kit.label import Label
from app.screens.language import moment, say
from app.trade.bench.kinds import TransitLock
from app.trade.counter.fault_words import FaultWord, ReportedFault
from app.trade.counter.things import thing_said
from app.work.bench.job_sheet import JobSheet
from app.work.counter.intake_changes import IntakeChanges, change_intake

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class IntakeSection(SheetSection):
    """Read at the bench; the transit lock is noted here."""

    key = "intake"
    opened_at_first = False

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__(page, say("As it came in"))
        self.said = Label("", wrap=True)
        self.line = FactLine()
        self.things = Label("", wrap=True)
        self.lock = Choice(say("Transit lock"), [(lock, say(lock.value)) for lock in TransitLock])
        self.lock.changed.connect(self._note_lock)
        self._lock_line = indented(Label(say("Transit lock"), "soft"), self.lock, stretch=True)
        self._showing = False
        self.column.add(indented(self.said), indented(self.line), indented(self.things), self._lock_line)

    def facts(self, sheet: JobSheet) -> Any:
        return (
            sheet.fault,
            sheet.fault_words,
            sheet.error_shown,
            sheet.shelf,
            sheet.things,
            sheet.transit_lock,
            sheet.customer_phone,
            self.page.works,
        )

    def draw(self, sheet: JobSheet) -> None:
        self.said.setText(
            say("“{words}”", words=sheet.fault) if sheet.fault else say("Nothing was said of the fault.")
        )
        faults = ", ".join(
            say(ReportedFault(FaultWord(word), how).sentence) for word, how in sheet.fault_words
        )
        self.line.set_facts(
            [
                (say("Fault words"), faults),
                (say("Error shown"), sheet.error_shown),
                (say("Taken in"), moment(sheet.taken_in_at)),
                (say("Shelf"), sheet.shelf),
                (say("Phone"), sheet.customer_phone),
                (say("Ring"), sheet.ring_when),
            ]
        )
        things = ", ".join(
            say("{thing} (returned)", thing=thing_said(thing.words))
            if thing.returned
            else say(thing_said(thing.words))
            for thing in sheet.things
        )
        self.things.setText(say("Came with it: {things}", things=things) if things else "")
        set_shown(self.things, bool(things))
        self._showing = True
        self.lock.set_value(sheet.transit_lock)
        self._showing = False
        set_shown(self._lock_line, self.page.works)
        self.set_summary(", ".join(part for part in (faults, things) if part))

    def _note_lock(self, lock: TransitLock) -> None:
        who = None if self._showing else self.page.who()
        if who is None:
            return
        self.desk.change(
            self,
            partial(
                change_intake,
                self.desk.book,
                who,
                self.page.job_id,
                self.page.facts.version,
                IntakeChanges(transit_lock=lock),
            ),
            None,
            lambda error: self.page.tell_failure(error, None),
        )
