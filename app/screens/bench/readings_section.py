"""The readings of a job: the table, taking new ones, correcting and striking out."""

from __future__ import annotations

from dataclasses import asdict
from decimal import Decimal
from functools import partial
from typing import TYPE_CHECKING, Any

from app.screens.bench.correction_form import CorrectionForm
from app.screens.bench.inline_form import InlineForm
from app.screens.bench.reading_beside import guard_of_line
from app.screens.bench.reading_form import ReadingForm, TakenReading
from app.screens.bench.reading_rows import (
    LEAVING,
    columns,
    conditions_words,
    limit_words,
    of_trials,
    rows_of,
    verdict_words,
)
from app.screens.bench.sheet_section import SheetSection, indented
from app.screens.bench.strike_form import StrikeForm
from app.screens.kit.boxes import set_shown
from app.screens.kit.cells import Figure, Row, Words
from app.screens.kit.label import Label
from app.screens.kit.table import SmallTable
from app.screens.language import number, say
from app.trade.bench.reading_typed import read_reading
from app.trade.bench.stages import Moment
from app.trade.sentence import Measure, Sentence
from app.work.bench.job_sheet import JobSheet
from app.work.bench.readings import ReadingEntry, record_reading
from app.work.bench.sheet_lines import ReadingLine

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class ReadingsSection(SheetSection):
    """Readings that the book could not take stay in the table as "kept here, not saved"."""

    key = "readings"

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__(page, say("Readings"))
        self.makers = {"reading": self._new_reading, "correct": self._correct, "strike reading": self._strike}
        self.on_the_way: list[TakenReading] = []
        self.not_saved: list[TakenReading] = []
        self.add_link = self.link(say("Add a reading"), page.add_reading, "Ctrl+R")
        self.correct_link = self.link(say("Correct…"), self.correct_marked)
        self.strike_link = self.link(say("Strike out…"), self.strike_marked)
        self.undo_link = self.link(say("Take the strike-out back"), self.undo_marked)
        self.trials_link = self.link("", self._turn_trials)
        self._with_trials = False
        self.set_links(self.correct_link, self.strike_link, self.undo_link, self.trials_link, self.add_link)
        self._with_last = False
        self.table = SmallTable(say("Readings"), columns(False), leaving=LEAVING)
        self.table.marked.connect(lambda _: self._show_links())
        self.nothing = indented(
            Label(say("Readings stand here with their limits and verdicts."), "soft", wrap=True)
        )
        self.guard = Label("", "soft", wrap=True)
        self._guard_line = indented(self.guard)
        self.as_made = Label("", "soft", wrap=True)
        self._as_made_line = indented(self.as_made)
        self.column.add(self.table, self._as_made_line, self._guard_line, self.nothing)
        self._readings: tuple[ReadingLine, ...] = ()
        self._show_links()

    # showing

    def facts(self, sheet: JobSheet) -> Any:
        return sheet.readings, sheet.transport, self.page.open_trial(), self.page.works

    def draw(self, sheet: JobSheet) -> None:
        self._readings = sheet.readings
        self.on_the_way = []
        if any(r.last is not None for r in sheet.readings) != self._with_last:
            self._with_last = not self._with_last
            self.table.rows_model().columns = columns(self._with_last)
        self._draw_rows()
        standing = [r for r in sheet.readings if r.struck is None]
        moved = [r for r in standing if r.as_made is not None]
        self.as_made.setText("\n".join(_as_made_words(r) for r in moved))
        set_shown(self._as_made_line, bool(moved))
        self.set_summary(_summary(standing, sheet.transport))
        set_shown(self.add_link, self.page.works)
        if isinstance(self.open, ReadingForm):
            self.open.pending = []
            self.open.book_has_it()

    def _draw_rows(self) -> None:
        rows = rows_of(self._shown())
        rows += [_on_the_way(taken, "") for taken in self.on_the_way]
        rows += [_on_the_way(taken, say("kept here, not saved")) for taken in self.not_saved]
        self.table.set_rows(rows)
        set_shown(self.table, bool(rows))
        set_shown(self.nothing, not rows)
        self._show_links()

    def _shown(self) -> list[ReadingLine]:
        """All but those of trials that are judged: their tiles show them, until they are asked for here too."""
        taken = of_trials(self._readings)
        waiting = self.page.open_trial()
        folded = [r for r in taken if waiting is None or r.trial_number != waiting[1]]
        count = len(folded)
        hide, show = say("Hide those of trials"), say("Show {n} of trials", n=count)
        self.trials_link.setText(hide if self._with_trials else show)
        set_shown(self.trials_link, bool(folded))
        return list(self._readings) if self._with_trials else [r for r in self._readings if r not in folded]

    def _turn_trials(self) -> None:
        self._with_trials = not self._with_trials
        self._draw_rows()

    def _show_links(self) -> None:
        line = self.marked() if self.page.works else None
        standing = line is not None and line.struck is None
        set_shown(self.correct_link, standing)
        set_shown(self.strike_link, standing)
        set_shown(self.undo_link, line is not None and line.struck is not None)
        marked = self.marked()
        self.guard.setText(_marked_words(marked) if marked is not None and marked.struck is None else "")
        set_shown(self._guard_line, bool(self.guard.text()))

    def marked(self) -> ReadingLine | None:
        """The reading whose row is marked."""
        key = self.table.marked_key()
        return next((line for line in self._readings if line.id == key), None)

    # taking readings

    def add(self, moment: Moment | None = None, quantity: str = "") -> None:
        """Open the line for a new reading, at a moment of the job or at the usual one."""
        form = self.open_form("reading", focus=False)
        assert isinstance(form, ReadingForm)
        if moment is not None or quantity:
            form.choose(moment or self.page.usual_moment(), quantity)
        form.focus_first()
        self.page.bring_into_sight(form)

    def _new_reading(self) -> InlineForm:
        form = ReadingForm(self.page, self.draft_key("reading"))
        form.taken.connect(self._take)
        return form

    def _take(self, taken: TakenReading) -> None:
        self.on_the_way.append(taken)
        self._draw_rows()
        self._record(taken)

    def _record(self, taken: TakenReading) -> None:
        staff = self.desk.staff
        assert staff is not None  # the form asks first
        self.desk.change(
            self,
            partial(record_reading, self.desk.book, staff.id, self.page.job_id, taken.entry),
            self._recorded,
            partial(self._not_recorded, taken),
        )

    def _recorded(self, done: Any) -> None:
        if done.value.assumed is not None:
            self.page.tell_note(say(done.value.assumed))
        if not self.not_saved:
            self.page.trouble.clear()

    def _not_recorded(self, taken: TakenReading, error: Exception) -> None:
        if taken in self.on_the_way:
            self.on_the_way.remove(taken)
        self.not_saved.append(taken)
        self._keep_unsaved()
        self._draw_rows()
        self.page.tell_failure(error, self.save_again)

    def save_again(self) -> None:
        """Hand what was kept here to the book once more."""
        again, self.not_saved = self.not_saved, []
        self.on_the_way += again
        self._keep_unsaved()
        self._draw_rows()
        self.page.trouble.clear()
        for taken in again:
            self._record(taken)

    # what is not saved survives the window

    def show_sheet(self, sheet: JobSheet) -> None:
        first = self._facts is None
        super().show_sheet(sheet)
        if first:
            self._take_unsaved()

    def _keep_unsaved(self) -> None:
        key = self.draft_key("readings not saved")
        if self.not_saved:
            kept = [_as_plain(taken.entry) for taken in self.not_saved]
            self.desk.drafts.keep(key, {"readings": kept})
        else:
            self.desk.drafts.drop(key)

    def _take_unsaved(self) -> None:
        draft = self.desk.drafts.read(self.draft_key("readings not saved")) or {}
        known = {quantity.id: quantity for quantity in self.page.lists.quantities}
        for plain in draft.get("readings", []):
            entry = _of_plain(plain)
            quantity = known.get(entry.quantity)
            read = read_reading(quantity, entry.typed, entry.place) if quantity is not None else None
            if quantity is not None and read is not None and not isinstance(read, Sentence):
                self.not_saved.append(TakenReading(entry, quantity, read, None))
        if self.not_saved:
            self._draw_rows()
            self.page.trouble.show_trouble(
                say("Readings of this job were kept here, not saved."),
                say("They stand at the end of the table."),
                [(say("Save again"), self.save_again)],
            )

    # correcting and striking out

    def correct_marked(self) -> None:
        """Open the form that corrects the marked reading."""
        line = self.marked()
        if line is not None and line.struck is None:
            form = self.open_form("correct", focus=False)
            assert isinstance(form, CorrectionForm)
            form.begin(line.id, line.quantity, in_words(line))
            form.focus_first()

    def strike_marked(self) -> None:
        """Open the form that strikes the marked reading out."""
        line = self.marked()
        if line is not None and line.struck is None:
            form = self.open_form("strike reading", focus=False)
            form.hidden_values.update(kind="reading", row=line.id, what=in_words(line))
            form.changed()
            form.focus_first()

    def undo_marked(self) -> None:
        """Take the strike-out of the marked reading back."""
        line = self.marked()
        if line is not None and line.struck is not None:
            self.page.undo_strike("reading", line.id)

    def _correct(self) -> InlineForm:
        return CorrectionForm(self.page, self.draft_key("correct"))

    def _strike(self) -> InlineForm:
        return StrikeForm(self.page, self.draft_key("strike reading"))


def in_words(line: ReadingLine) -> str:
    """A reading in a sentence: seek time 4.8 s."""
    value = say("open") if line.value is None else say("{value}", value=Measure(line.value, line.unit))
    return f"{say(line.name)} {value}"


def _marked_words(line: ReadingLine) -> str:
    """What it was read under, and its guard band."""
    under = conditions_words(line)
    said = say("Conditions: {conditions}.", conditions=under) if under else ""
    return " ".join(part for part in (said, guard_of_line(line)) if part)


def _as_made_words(line: ReadingLine) -> str:
    assert line.as_made is not None  # only lines that a live change moves are told
    said = say("{reading}, as read. {said}", reading=in_words(line), said=say(line.as_made))
    return said[:1].upper() + said[1:]


def _summary(standing: list[ReadingLine], transport: str) -> str:
    if not standing:
        return say("none yet")
    moments = list(dict.fromkeys(reading.moment for reading in standing))
    n = len(standing)
    told = {
        Moment.ARRIVAL: say("{n} on arrival", n=n),
        Moment.DURING: say("{n} during the work", n=n),
        Moment.FINAL: say("{n} final", n=n),
    }
    counted = told[moments[0]] if len(moments) == 1 else say("{n} in all", n=n)
    return say("{readings}, for {transport}", readings=counted, transport=transport) if transport else counted


def _on_the_way(taken: TakenReading, tail: str) -> Row:
    typed, judged = taken.typed, taken.judged
    value = Words(say("open"), strong=True, right=True)
    if typed.shown is not None:
        value = Figure(number(typed.shown), strong=True)  # type: ignore[assignment]
    verdict, limits = Words(""), ""
    if judged is not None and judged.verdict is not None:
        verdict = verdict_words(judged.verdict.word, judged.verdict.probability)
        low, high = (
            None if end is None else typed.unit.to_shown(Decimal(end))
            for end in (judged.verdict.limit.low, judged.verdict.limit.high)
        )
        limits = limit_words(low, high)
    name = Words(say(taken.quantity.named(taken.entry.detail)))
    cells = (name, value, None, Words(typed.unit.shown, soft=True), Words(limits), None, verdict, None)
    return Row(("on the way", id(taken)), cells, tail=tail)


def _as_plain(entry: ReadingEntry) -> dict[str, Any]:
    plain = asdict(entry)
    plain["moment"] = entry.moment.value
    plain["room"] = None if entry.room is None else str(entry.room)
    return plain


def _of_plain(plain: dict[str, Any]) -> ReadingEntry:
    room = plain.get("room")
    return ReadingEntry(
        **{
            **plain,
            "moment": Moment(plain["moment"]),
            "room": None if room is None else Decimal(room),
        }
    )
