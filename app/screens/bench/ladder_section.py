"""The start-up ladder of a job: its last test, all tests in a table, and a new one."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QSizePolicy

from app.screens.bench.inline_form import InlineForm
from app.screens.bench.rung_view import RungView
from app.screens.bench.sheet_section import SheetSection, indented
from app.screens.bench.start_up_form import StartUpForm
from app.screens.bench.strike_form import StrikeForm
from app.screens.kit import measure
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column, Row, Words
from app.screens.kit.label import Label
from app.screens.kit.ladder import Ladder
from app.screens.kit.ladder_drawing import LadderFacts
from app.screens.kit.table import SmallTable
from app.screens.kit.tips import plain_tip
from app.screens.language import clock_time, moment, say
from app.trade.bench.climbs import since_first
from app.trade.bench.quantities import HIGHEST_RUNG
from app.work.bench.job_sheet import JobSheet
from app.work.bench.sheet_lines import StartUpLine

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage

WIDTH = 356  # with u on both sides; beside it stand the readings


class LadderSection(SheetSection):
    """Stands at the left of the readings; on a narrow sheet the ladder lies down across it."""

    key = "ladder"

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__(page, say("Start-up ladder"))
        self.makers = {"start-up": self._new_test, "strike start-up": self._strike}
        self.ladder = Ladder(marks=True)
        self.rung = RungView(page, lambda: self.ladder.set_mark(0))
        self.ladder.marked.connect(self.rung.show_rung)
        self.ladder.setToolTip(plain_tip(say("A rung marked by click or arrow keys says what it proves.")))
        self.unseen = Label("", "soft", wrap=True)
        self.marked_test = Label("", "soft", wrap=True)
        self.conditions = Label("", "soft", wrap=True)
        self.test_button = Button(say("Test again"), page.record_start_up, key="Ctrl+T")
        self.all_button = Button(say("All tests"), self._turn_table, kind="quiet")
        columns = (
            Column("test", say("Test"), 44),
            Column("when", say("When"), 104),
            Column("reached", say("Reached")),
        )
        self.table = SmallTable(say("Start-up tests"), columns)
        self.table.marked.connect(self._marked)
        self.strike_button = Button(say("Strike out…"), self.strike_marked, kind="quiet")
        self.undo_button = Button(say("Take the strike-out back"), self.undo_marked, kind="quiet")
        self.test_link = self.link(say("Test again"), page.record_start_up, "Ctrl+T")
        self.all_link = self.link(say("All tests"), self._turn_table)
        self.set_links(self.all_link, self.test_link)
        self._button_line = indented(self.test_button, self.all_button, stretch=True)
        self._conditions_line = indented(self.conditions)
        self.since = Label("", "soft", wrap=True)
        self._since_line = indented(self.since)
        self._narrow = False
        self._ladder_line = indented(self.ladder)
        self._table_links = indented(self.strike_button, self.undo_button, stretch=True)
        self._unseen_line = indented(self.unseen)
        self._marked_line_words = indented(self.marked_test)
        self.column.add(
            self._ladder_line, self._unseen_line, self.rung, self._conditions_line, self._since_line
        )
        self.column.add(self._button_line, self.table, self._marked_line_words, self._table_links)
        self.column.addStretch(1)
        set_shown(self.table, False)
        set_shown(self._table_links, False)
        self._lines: tuple[StartUpLine, ...] = ()
        self.narrowed(False)

    def facts(self, sheet: JobSheet) -> Any:
        return sheet.start_ups, sheet.arrangement, sheet.not_testable, sheet.stands, self.page.lists.rungs

    def draw(self, sheet: JobSheet) -> None:
        self._lines = sheet.start_ups
        standing = [line for line in sheet.start_ups if line.struck is None]
        last = standing[-1] if standing else None
        rungs = tuple(say(word) for word in self.page.lists.rungs)
        stands = say(sheet.stands) if sheet.stands is not None else say("Not tested yet.")
        if last is None:
            self.ladder.set_facts(LadderFacts(rungs, 0, 0, stands, frozenset(sheet.not_testable)))
        else:
            self._draw_rung(rungs, last.rung, stands)
        self._show_words(last)
        self._show_since(standing)
        names = ", ".join(f"{rung} {rungs[rung - 1]}" for rung in sorted(sheet.not_testable))
        self.unseen.setText(say("Not testable on this type: {rungs}.", rungs=names) if names else "")
        set_shown(self._unseen_line, bool(names))
        if self.ladder.mark:
            self.rung.show_rung(self.ladder.mark)
        self.table.set_rows([self._row(i, line) for i, line in enumerate(sheet.start_ups, start=1)])
        self._marked(self.table.marked_key())

    def narrowed(self, narrow: bool) -> None:
        """Stand the ladder up at a fixed width, or lay it down across the sheet."""
        self._narrow = narrow
        self.ladder.set_lying(narrow)
        if narrow:
            self.setMinimumWidth(0)
            self.setMaximumWidth(16777215)
            self.setProperty("fixed_measures", None)
            self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        else:
            measure.fix(self, width=WIDTH)
        if self._facts is not None:
            self.draw(self.page.facts)

    def _show_words(self, last: StartUpLine | None) -> None:
        """Conditions and buttons below an upright ladder; beside the word of one that lies."""
        lying, works = self._narrow, self.page.works
        seen = _conditions(last) if last is not None else ""
        self.conditions.setText(seen)
        set_shown(self._conditions_line, bool(seen) and not lying)
        if last is None:
            self.set_summary(say("not tested yet"))
        else:
            told = say(
                "test {number}, {when}",
                number=self._lines.index(last) + 1,
                when=moment(last.at, "d MMM HH:mm"),
            )
            self.set_summary(f"{told}, {seen[:1].lower()}{seen[1:].rstrip('.')}" if lying else told)
        test = say("Test again") if last is not None else say("Record the first test")
        several = len(self._lines) > 1 or any(line.struck for line in self._lines)
        every = say("All {count} tests", count=len(self._lines))
        for button in (self.test_button, self.test_link):
            button.setText(test)
        for button in (self.all_button, self.all_link):
            button.setText(every)
        set_shown(self.test_button, works and not lying)
        set_shown(self.test_link, works and lying)
        set_shown(self.all_button, several and not lying)
        set_shown(self.all_link, several and lying)
        set_shown(self._button_line, not lying and (works or several))

    def _show_since(self, standing: list[StartUpLine]) -> None:
        """What the tries of the last test say against the first one under like conditions."""
        found = since_first([line.result for line in standing])
        if found is not None:
            place, told = found
            number = self._lines.index(standing[place]) + 1
            self.since.setText(say("Since test {number}: {told}", number=number, told=say(told)))
        set_shown(self._since_line, found is not None)

    def strike_marked(self) -> None:
        """Open the form that strikes the marked test out."""
        line = self._marked_line()
        if line is None or line.struck is not None:
            return
        form = self.open_form("strike start-up", focus=False)
        what = say("test of {when}, rung {rung}", when=moment(line.at), rung=line.rung)
        form.hidden_values.update(kind="start-up", row=line.id, what=what)
        form.changed()
        form.focus_first()

    def undo_marked(self) -> None:
        """Take the marked test's strike-out back."""
        line = self._marked_line()
        if line is not None and line.struck is not None:
            self.page.undo_strike("start-up", line.id)

    def _draw_rung(self, rungs: tuple[str, ...], rung: int, stands: str) -> None:
        stopped = rung + 1 if rung < HIGHEST_RUNG else 0
        unseen = frozenset(self.page.facts.not_testable)
        self.ladder.set_facts(LadderFacts(rungs, rung, stopped, stands, unseen))

    def _new_test(self) -> InlineForm:
        form = StartUpForm(
            self.page, self.draft_key("start-up"), self.page.open_trial(), self.page.usual_moment()
        )
        form.tried.connect(self._try)
        form.left.connect(lambda: self.draw(self.page.facts))
        return form

    def _strike(self) -> InlineForm:
        return StrikeForm(self.page, self.draft_key("strike start-up"))

    def _try(self, rung: int) -> None:
        rungs = tuple(say(word) for word in self.page.lists.rungs)
        self._draw_rung(rungs, rung, say("rung {rung}", rung=rung))

    def _turn_table(self) -> None:
        set_shown(self.table, self.table.isHidden())
        self._marked(self.table.marked_key())

    def _marked_line(self) -> StartUpLine | None:
        key = self.table.marked_key()
        return next((line for line in self._lines if line.id == key), None)

    def _marked(self, key: Any) -> None:
        line = self._marked_line()
        shown = line is not None and not self.table.isHidden()
        self.marked_test.setText(_conditions(line, full=True) if line is not None else "")
        set_shown(self._marked_line_words, shown)
        set_shown(self._table_links, shown and self.page.works)
        set_shown(self.strike_button, line is not None and line.struck is None)
        set_shown(self.undo_button, line is not None and line.struck is not None)

    def _row(self, number: int, line: StartUpLine) -> Row:
        reached = say("rung {rung}", rung=line.rung)
        stopped = say("stopped {n} of {tries}", n=line.stopped_in, tries=line.tries)
        when = moment(line.at, "d MMM HH:mm")
        cells = (Words(str(number)), Words(when), Words(reached, f"{stopped}, {say(line.seen.value)}"))
        if line.struck is None:
            return Row(line.id, cells)
        rest = say("struck out {time}: {reason}", time=clock_time(line.struck.at), reason=line.struck.reason)
        return Row(line.id, cells, struck=True, rest=rest, rest_from=2)


def _conditions(line: StartUpLine, *, full: bool = False) -> str:
    words = say(line.result.conditions)
    stopped = say("stopped in {n} of {tries} tries", n=line.stopped_in, tries=line.tries)
    shown = say("error shown: {error}", error=line.error_shown) if line.error_shown else ""
    when = say("{moment}, by {name}", moment=say(line.moment.value), name=line.by) if full else ""
    whole = ", ".join(part for part in (words, stopped, shown, line.note, when) if part)
    return f"{whole[:1].upper()}{whole[1:]}."
