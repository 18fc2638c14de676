"""Papers issued for a job: looked at, printed again as a copy."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from app.screens.bench.report_form import ReportForm
from app.screens.bench.sheet_section import SheetSection
from app.screens.desk import Paper
from app.screens.kit.boxes import set_shown
from app.screens.kit.cells import Column, Leave, Link, Row, Words
from app.screens.kit.table import SmallTable
from app.screens.language import moment, say
from app.work.bench.job_sheet import JobSheet
from app.work.papers.issuing import PaperFile, file_paper, newest_paper, paper_pdf
from app.work.papers.kinds import Kind

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class PapersSection(SheetSection):
    """Enter shows the very PDF that is filed; "copy" shows it with its stamp, ready to be printed again."""

    key = "papers"

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__(page, say("Papers"))
        columns = (
            Column("title", say("Paper"), least=170),
            Column("when", say("Issued"), 170),
            Column("by", say("By"), 170),
            Column("filed", "", 130),
            Column("copy", "", 150),
        )
        self.table = SmallTable(
            say("Papers"), columns, opened=self.look_at, leaving=(Leave("by"), Leave("filed"))
        )
        self.table.link_opened.connect(self._link)
        self.makers = {"report": lambda: ReportForm(page, self.draft_key("report"))}
        self.set_links(self.link(say("Service report…"), self.make_report))
        self.column.add(self.table)

    def facts(self, sheet: JobSheet) -> Any:
        return sheet.papers

    def draw(self, sheet: JobSheet) -> None:
        rows = []
        for paper in sheet.papers:
            cells = (
                Link(paper.title, (paper.id, False)),
                Words(moment(paper.issued_at)),
                Words(paper.by),
                Words("" if paper.filed else say("not filed yet"), soft=True),
                Link(say("Print a copy"), (paper.id, True)),
            )
            rows.append(Row(paper.id, cells))
        self.table.set_rows(rows)
        set_shown(self.table, bool(rows))
        count = len(sheet.papers)
        self.set_summary(say("none yet") if not count else ", ".join(p.title for p in sheet.papers[-3:]))

    def make_report(self) -> None:
        """Open the service report: which photos, a look at the draft, then issuing it."""
        self.open_form("report")

    def form_saved(self, result: Any) -> None:
        """Issued: file it, so that what it names counts as told, and show it."""
        super().form_saved(result)
        staff = self.desk.staff
        self.desk.change(
            self,
            partial(file_paper, self.desk.book, result.value, staff.id if staff is not None else None),
            lambda _: self.look_at(result.value),
            lambda error: self.page.tell_failure(error, lambda: self.look_at(result.value)),
        )

    def look_at(self, paper_id: int, *, copy: bool = False) -> None:
        """Show the filed PDF of a paper."""
        self.desk.doors.look_up(
            self,
            partial(paper_pdf, self.desk.book, paper_id, copy=copy),
            self._show,
            lambda error: self.page.tell_failure(error, lambda: self.look_at(paper_id, copy=copy)),
        )

    def look_at_newest(self, kind: Kind) -> None:
        """Show the last paper of this kind, if one was issued."""
        self.desk.doors.look_up(
            self,
            partial(newest_paper, self.desk.book, self.page.job_id, kind),
            lambda paper_id: (
                self.look_at(paper_id)
                if paper_id is not None
                else self.page.tell_note(say("No paper of this kind was issued yet."))
            ),
            lambda error: self.page.tell_failure(error, None),
        )

    def _link(self, target: tuple[int, bool]) -> None:
        self.look_at(target[0], copy=target[1])

    def _show(self, paper: PaperFile) -> None:
        self.desk.show_paper(Paper(paper.title, paper.pdf, paper.kind, paper.name, paper.id, paper.copied))
