"""The history of a job: who did what and when, and what stood there before. Asked for when it is opened."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from app.screens.bench.sheet_section import SheetSection
from app.screens.bench.text_lines import TextLine, TextLines
from app.screens.kit.boxes import set_shown
from app.screens.language import moment, say
from app.work.bench.history_of_job import HistoryChange, HistoryEntry, history_of_job
from app.work.bench.job_sheet import JobSheet

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage

AT_ONCE = 30


class HistorySection(SheetSection):
    """The newest first, thirty at a time."""

    key = "history"
    opened_at_first = False

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__(page, say("History"))
        self.set_summary(say("who did what, and what stood there before"))
        self.lines = TextLines(say("History"), left=230)
        self.more = self.link(say("Older ones"), self._show_more)
        self.column.add(self.lines)
        self.column.addWidget(self.more)
        self._entries: Sequence[HistoryEntry] = ()
        self._shown = AT_ONCE
        self._stale = True
        set_shown(self.more, False)
        self.folded.connect(lambda folded: None if folded else self._ask())

    def facts(self, sheet: JobSheet) -> Any:
        return sheet

    def draw(self, sheet: JobSheet) -> None:
        self._stale = True
        if self.is_open:
            self._ask()

    def _ask(self) -> None:
        if not self._stale:
            return
        self._stale = False
        self.desk.doors.look_up(
            self,
            partial(history_of_job, self.desk.book, self.page.job_id),
            self._show,
            lambda error: self.page.tell_failure(error, None),
        )

    def _show(self, entries: Sequence[HistoryEntry]) -> None:
        self._entries = entries
        self.set_summary(say("1 action") if len(entries) == 1 else say("{n} actions", n=len(entries)))
        self._draw()

    def _draw(self) -> None:
        shown = self._entries[: self._shown]
        self.lines.set_lines([_line(entry) for entry in shown])
        set_shown(self.more, len(self._entries) > len(shown))

    def _show_more(self) -> None:
        self._shown += AT_ONCE * 2
        self._draw()


def _line(entry: HistoryEntry) -> TextLine:
    who = entry.by or say("the program")
    action = say(entry.action)
    changes = "\n".join(_change(change) for change in entry.changes)
    return TextLine(
        entry.seq,
        f"{moment(entry.at, 'd MMM y, HH:mm')}\n{who}",
        f"{action[:1].upper()}{action[1:]}\n{changes}".strip(),
    )


def _change(change: HistoryChange) -> str:
    fields = "; ".join(say(field) for field in change.fields)
    return f"{say(change.what)}: {fields}"
