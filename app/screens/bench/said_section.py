"""What was said with the customer on this job: calls and messages, the recorded yes and no."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from app.screens.bench.inline_form import InlineForm
from app.screens.bench.sheet_section import SheetSection
from app.screens.bench.text_lines import TextLines
from app.screens.counter.messages_panel import line_of
from app.screens.counter.said_forms import AgreementForm, MessageForm
from app.screens.kit.boxes import set_shown
from app.screens.language import say
from app.work.bench.job_sheet import JobSheet
from app.work.counter.messages import SaidLine, what_was_said

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class SaidSection(SheetSection):
    """Oldest first; the counter's own forms add to it."""

    key = "said"

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__(page, say("Said with the customer"))
        self.makers = {"message": self._message, "agreement": self._agreement}
        self.message_link = self.link(
            say("Write down a call"), partial(self.open_form, "message"), "Ctrl+Shift+C"
        )
        self.yes_link = self.link(
            say("Record a yes or no"), partial(self.open_form, "agreement"), "Ctrl+Shift+Y"
        )
        self.set_links(self.message_link, self.yes_link)
        self.lines = TextLines(say("Said with the customer"))
        self.column.add(self.lines)
        set_shown(self.lines, False)

    def facts(self, sheet: JobSheet) -> Any:
        return sheet.messages, sheet.agreements, self.page.works

    def draw(self, sheet: JobSheet) -> None:
        set_shown(self.yes_link, self.page.works)
        count = len(sheet.messages) + len(sheet.agreements)
        if not count:
            self.set_summary(say("nothing yet"))
            self._show(())
            return
        self.set_summary(say("1 line") if count == 1 else say("{n} lines", n=count))
        self.desk.doors.look_up(
            self,
            partial(what_was_said, self.desk.book, self.page.job_id),
            self._show,
            lambda error: self.page.tell_failure(error, None),
        )

    def record_yes(self, modification_id: int | None) -> None:
        """Open the form of a yes or no, about a modification where one is given."""
        form = self.open_form("agreement", focus=False)
        assert isinstance(form, AgreementForm)
        words = dict(self._modifications())
        if modification_id in words:
            assert modification_id is not None
            form.about(modification_id, words[modification_id])
        form.focus_first()
        self.page.bring_into_sight(form)

    def _show(self, lines: Sequence[SaidLine]) -> None:
        self.lines.set_lines([line_of(line) for line in lines])
        set_shown(self.lines, bool(lines))

    def _message(self) -> InlineForm:
        return MessageForm(self.desk, self.page.job_id, self.draft_key("message"))

    def _agreement(self) -> InlineForm:
        return AgreementForm(
            self.desk,
            self.page.job_id,
            self.draft_key("agreement"),
            customer=self.page.facts.customer,
            modifications=self._modifications(),
        )

    def _modifications(self) -> list[tuple[int, str]]:
        return [
            (m.id, say(m.words))
            for m in self.page.facts.modifications
            if m.reversed_at is None and m.struck is None
        ]
