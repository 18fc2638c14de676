"""The electrical safety test: the steps of the player's class, judged while they are typed, signed by the tester."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import TYPE_CHECKING, Any

from app.screens.bench.inline_form import Deed, InlineForm, told
from app.screens.bench.signature import Signature
from app.screens.bench.typed_numbers import read_number
from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.fields import Field
from app.screens.kit.flags import FlagBar, FlagFacts
from app.screens.kit.label import Label
from app.screens.kit.measure import fix
from app.screens.language import say
from app.screens.threads import Ticket
from app.trade.bench.part_entries import CORD
from app.trade.bench.safety_test import Meets, Overall, Step, TestResult, shown_limit, steps_for
from app.trade.bench.stages import MainsClass, Mark
from app.trade.bench.typed_value import parse_value
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.work.bench.safety_tests import SafetyEntry, SafetyPage, judge_test, record_safety_test, safety_page

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage

MAINS = (MainsClass.I, MainsClass.II)
AREA = "mm²"


class SafetyForm(InlineForm):
    """Each step says at once whether it meets the limit; the whole is told under them. Only a person who may
    test electrical safety signs."""

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("Sign and record the test"), label_width=230)
        self.page = page
        self._asked: Ticket | None = None
        known = page.facts.mains_class
        self.says: dict[Step, Label] = {}
        self.fields: dict[Step, Any] = {}
        self.standard = told()
        self.form.row("", self.standard)
        self.named_class: Choice | None = None
        if known is MainsClass.NOT_KNOWN:
            offered = [(c, say(c.value)) for c in MainsClass if c is not MainsClass.NOT_KNOWN]
            self.named_class = self.add("named_class", Choice("", offered))
            self.form.row(say("Mains class, as you name it"), self.named_class)
        self.supply_class: Choice | None = None
        if known is MainsClass.EXTERNAL:
            supplies = [(c, say(c.value)) for c in MAINS] + [("", say("not seen"))]
            self.supply_class = self.add("supply_class", Choice("", supplies, ""))
            self.form.row(say("Its supply"), self.supply_class)
        self._rows: dict[Step, Any] = {}
        self.cord = self.add("cord", Field("", width=70))
        self.cross_section = self.add("cross_section", Field(say("Cross-section of the cord"), width=60))
        self._cord_row = self.form.row(say("Length of the cord"), self.cord, "m", self.cross_section, AREA)
        for step in Step:
            self._make_step(step)
        meters = [(0, say("not noted"))]
        meters += [
            (m.id, say("{name}, overdue", name=m.name) if m.overdue else m.name)
            for m in page.lists.instruments
        ]
        self.instrument = self.add("instrument", Combo("", meters, 0, width=230))
        self.form.row(say("Tested with"), self.instrument)
        self.note = self.add("note", Field(""))
        self.form.row(say("Note"), self.note)
        self.result = told("strong")
        self._result_row = self.form.row("", self.result)
        self.stop = FlagBar(say("Result"))
        self.form.wide(self.stop)
        self.signature = Signature(self, page.desk, Mark.COMPETENT, say("Tested by"))
        self.named["pin"] = self.signature.pin
        self.desk.doors.look_up(
            self, partial(safety_page, self.desk.book, page.job_id), self._show_page, self._not_read
        )
        self.changed()

    def _make_step(self, step: Step) -> None:
        name = say(step.name_words)
        words = told()
        fix(words, min_height=32)
        self.says[step] = words
        if step.measured:
            field: Any = Field("", width=110)
        else:
            field = Choice("", [("yes", say("in order")), ("no", say("not in order"))])
        self.fields[step] = self.add(step.value, field)
        self._rows[step] = self.form.row(name, field, words)

    def _show_page(self, found: SafetyPage) -> None:
        words = say("Limits by {standard}.", standard=found.standard) if found.standard else ""
        if not found.standard:
            words = say(
                "No standard and edition are entered: without them no test passes. The Office keeps them."
            )
        if found.case_open:
            words += " " + say("The case is noted as open: close it first, then test.")
        self.standard.setText(words)

    def _not_read(self, error: Exception) -> None:
        self.failed.emit(error, None)

    # what is typed

    def mains_class(self) -> MainsClass:
        """The class by which the steps are chosen."""
        if self.named_class is not None and self.named_class.value() is not None:
            return MainsClass(self.named_class.value())
        return self.page.facts.mains_class

    def _supply(self) -> MainsClass | None:
        if self.supply_class is None or not self.supply_class.value():
            return None
        return MainsClass(self.supply_class.value())

    def entry(self) -> SafetyEntry:
        """The test as entered. Raises FieldRefusal for figures of a cord that cannot be read."""
        applies = steps_for(self.mains_class(), self._supply())
        typed = tuple((s, self.fields[s].text()) for s in applies if s.measured and self.fields[s].text())
        looked = tuple(
            (s, self.fields[s].value() == "yes") for s in applies if not s.measured and self.fields[s].value()
        )
        cord = self.cord.text()
        named = self.named_class.value() if self.named_class is not None else None
        return SafetyEntry(
            typed=typed,
            in_order=looked,
            cord_metres=parse_value(cord, CORD, "cord").shown
            if cord and Step.PE_RESISTANCE in applies
            else None,
            cord_mm2=read_number(self.cross_section.text(), "cross_section")
            if Step.PE_RESISTANCE in applies
            else None,
            supply_class=self._supply(),
            named_class=None if named is None else MainsClass(named),
            instrument_id=self.instrument.value() or None,
            note=self.note.text(),
        )

    def changed(self) -> None:
        applies = steps_for(self.mains_class(), self._supply())
        for step, row in self._rows.items():
            self.form.show_rows([row], step in applies)
        self.form.show_rows([self._cord_row], Step.PE_RESISTANCE in applies)
        if self._asked is not None:
            self._asked.cancel()
        try:
            entry = self.entry()
        except FieldRefusal:
            return
        self._asked = self.desk.doors.look_up(
            self, partial(judge_test, self.desk.book, self.page.job_id, entry), self._judged, self._not_judged
        )

    def _judged(self, result: TestResult) -> None:
        for step in result.steps:
            field = self.fields[step.step]
            if hasattr(field, "set_error"):
                field.set_error("")
            words = ""
            if step.reading is not None:
                name = say(step.step.name_words)
                words = say(step.sentence).removeprefix(name).lstrip(" :").strip()
            elif step.limit is not None:
                words = say("limit {limit}", limit=shown_limit(step.step, step.limit))
            self.says[step.step].setText(words)
            self.says[step.step].set_soft(step.meets is not Meets.NO)
        self._show_result(result)

    def _show_result(self, result: TestResult) -> None:
        begun = any(step.reading is not None for step in result.steps)
        failed = result.overall is Overall.FAILED
        words = say(result.sentences[0])
        self.result.setText(words if begun and not failed else "")
        self.form.show_rows([self._result_row], begun and not failed)
        if failed and begun:
            stays = say("A failed test stops the job until a full new test passes.")
            self.stop.set_flags([FlagFacts("stop", say("failed"), words, stays)])
        else:
            self.stop.set_flags([])

    def _not_judged(self, error: Exception) -> None:
        if not isinstance(error, FieldRefusal):
            self.failed.emit(error, None)
            return
        for step, field in self.fields.items():
            if step.measured:
                sentence = error.fields.get(step.value)
                self.says[step].setText("" if sentence is not None else self.says[step].text())
                field.set_error(say(sentence) if sentence is not None else "")

    # signing

    def values(self) -> dict[str, Any]:
        return {name: value for name, value in super().values().items() if name != "pin"}

    def fill(self, values: Mapping[str, Any]) -> None:
        super().fill(values)
        self.changed()

    def deed(self, who: int) -> Deed:
        if self.page.facts.case_open:
            raise FieldRefusal({"case": Sentence("The case is noted as open: close it first, then test.")})
        entry = self.entry()
        tester, pin = self.signature.signed()
        return partial(record_safety_test, self.desk.book, tester, pin, self.page.job_id, entry)

    def _failed(self, error: Exception) -> None:
        if self.signature.tells(error):
            self.busy = False
        else:
            super()._failed(error)
