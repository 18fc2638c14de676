"""Notes of the shop on a job."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from app.screens.bench.inline_form import Deed, InlineForm
from app.screens.bench.sheet_section import SheetSection
from app.screens.bench.strike_form import StrikeForm
from app.screens.bench.text_lines import TextLine, TextLines
from app.screens.kit.boxes import set_shown
from app.screens.kit.fields import TextArea
from app.screens.language import clock_time, moment, say
from app.work.bench.job_sheet import JobSheet
from app.work.bench.sheet_lines import NoteLine
from app.work.bench.work_done import add_note

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class NoteForm(InlineForm):
    """Some lines of words."""

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("Keep the note"))
        self.page = page
        self.text = self.add("text", TextArea("", lines=3))
        self.form.row(say("Note"), self.text)

    def deed(self, who: int) -> Deed:
        return partial(add_note, self.desk.book, who, self.page.job_id, self.text.text())


class NotesSection(SheetSection):
    """In the order of time; the marked one can be struck out."""

    key = "notes"

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__(page, say("Notes"))
        self.makers = {
            "note": lambda: NoteForm(page, self.draft_key("note")),
            "strike note": lambda: StrikeForm(page, self.draft_key("strike note")),
        }
        self.add_link = self.link(say("Write a note"), page.add_note, "Ctrl+Shift+N")
        self.set_links(self.add_link)
        self.lines = TextLines(say("Notes"))
        self.lines.asked.connect(self._asked)
        self.column.add(self.lines)
        self._notes: tuple[NoteLine, ...] = ()

    def facts(self, sheet: JobSheet) -> Any:
        return sheet.notes, self.page.works

    def draw(self, sheet: JobSheet) -> None:
        self._notes = sheet.notes
        self.lines.set_lines([self._told(note) for note in sheet.notes])
        set_shown(self.lines, bool(sheet.notes))
        set_shown(self.add_link, self.page.works)
        count = sum(1 for note in sheet.notes if note.struck is None)
        self.set_summary(
            say("none yet") if not count else say("1 note") if count == 1 else say("{n} notes", n=count)
        )

    def strike_marked(self) -> None:
        """Open the form that strikes out the note with the focus."""
        key = self.lines.marked_key()
        if key is not None:
            self._asked(key)

    def _asked(self, note_id: int) -> None:
        note = next((note for note in self._notes if note.id == note_id), None)
        if note is None or not self.page.works:
            return
        if note.struck is not None:
            self.page.undo_strike("note", note_id)
            return
        form = self.open_form("strike note", focus=False)
        form.hidden_values.update(kind="note", row=note_id, what=note.text)
        form.changed()
        form.focus_first()

    def _told(self, note: NoteLine) -> TextLine:
        when = moment(note.at, "d MMM HH:mm")
        rest = action = ""
        if note.struck is not None:
            rest = say(
                "struck out {time}, {name}: {reason}",
                time=clock_time(note.struck.at),
                name=note.struck.by,
                reason=note.struck.reason,
            )
            action = say("Take back")
        elif self.page.works:
            action = say("Strike out…")
        return TextLine(note.id, f"{when}, {note.by}", note.text, rest, action)
