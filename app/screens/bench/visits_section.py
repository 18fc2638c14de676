"""Earlier visits of the same player."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from app.screens.bench.sheet_section import SheetSection
from app.screens.kit.boxes import set_shown
from app.screens.kit.cells import Column, Leave, Link, Row, Words
from app.screens.kit.table import SmallTable
from app.screens.language import moment, say
from app.work.bench.job_sheet import JobSheet

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class VisitsSection(SheetSection):
    """Newest first; Enter opens one."""

    key = "visits"
    opened_at_first = False

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__(page, say("Earlier visits"))
        self.unit_link = self.link(say("All of this player"), lambda: page.desk.open_unit(page.facts.unit_id))
        self.set_links(self.unit_link)
        columns = (
            Column("job", say("Job"), 70),
            Column("back", say("Handed back"), 140),
            Column("outcome", say("Outcome"), 210),
            Column("done", say("What helped, or the fault"), least=160),
        )
        self.table = SmallTable(
            say("Earlier visits"), columns, opened=page.desk.open_job, leaving=(Leave("back"),)
        )
        self.table.link_opened.connect(page.desk.open_job)
        self.column.add(self.table)

    def facts(self, sheet: JobSheet) -> Any:
        return sheet.earlier_jobs, sheet.comeback_of

    def draw(self, sheet: JobSheet) -> None:
        rows = []
        for job in sheet.earlier_jobs:
            back = moment(job.handed_back_at, "d MMM y") if job.handed_back_at is not None else say("not yet")
            of_this = say("this is its comeback") if job.number == sheet.comeback_of else ""
            cells = (
                Link(str(job.number), job.id),
                Words(back),
                Words(say(job.outcome.value) if job.outcome is not None else ""),
                Words(job.done, of_this, tip=job.done),
            )
            rows.append(Row(job.id, cells))
        self.table.set_rows(rows)
        set_shown(self.table, bool(rows))
        count = len(sheet.earlier_jobs)
        if not count:
            self.set_summary(say("this is its first"))
        else:
            last = sheet.earlier_jobs[0]
            visits = say("1 visit") if count == 1 else say("{n} visits", n=count)
            self.set_summary(
                say("{visits}, the last was job {number}", visits=visits, number=str(last.number))
            )
