"""What the fault turned out to be, on the sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from app.screens.bench.findings_form import FindingsForm
from app.screens.bench.sheet_section import SheetSection, indented
from app.screens.kit.boxes import set_shown
from app.screens.kit.heading import FactLine
from app.screens.language import say
from app.work.bench.job_sheet import JobSheet

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class FindingsSection(SheetSection):
    """Fault group, cause and outcome."""

    key = "findings"

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__(page, say("What it was"))
        self.makers = {"findings": lambda: FindingsForm(page, self.draft_key("findings"))}
        self.decide_link = self.link(say("Decide…"), page.decide_findings)
        self.set_links(self.decide_link)
        self.line = FactLine()
        self._row = indented(self.line)
        self.column.add(self._row)

    def facts(self, sheet: JobSheet) -> Any:
        return sheet.fault_group, sheet.cause, sheet.outcome, self.page.works

    def draw(self, sheet: JobSheet) -> None:
        facts = [
            (say("Fault group"), say(sheet.fault_group.value) if sheet.fault_group else ""),
            (say("Cause"), say(sheet.cause.value) if sheet.cause else ""),
            (say("Outcome"), say(sheet.outcome.value) if sheet.outcome else ""),
        ]
        known = [(word, value) for word, value in facts if value]
        self.line.set_facts(known)
        set_shown(self._row, bool(known))
        missing = [word for word, value in facts if not value]
        if not known:
            self.set_summary(say("not decided yet"))
        else:
            self.set_summary(say("still open: {what}", what=", ".join(missing).lower()) if missing else "")
        set_shown(self.decide_link, self.page.works)
