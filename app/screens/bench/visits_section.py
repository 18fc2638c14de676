"""Earlier visits of the same player, and whether this one is the comeback of one of them."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from app.screens.bench.comeback_form import ComebackForm
from app.screens.bench.sheet_section import SheetSection
from app.screens.bench.text_lines import TextLine, TextLines
from app.screens.kit.boxes import set_shown
from app.screens.kit.cells import Column, Leave, Link, Row, Words
from app.screens.kit.table import SmallTable
from app.screens.language import moment, say
from app.trade.bench.kinds import ComebackStanding
from app.trade.sentence import words
from app.work.bench.comeback_word import ComebackView, comeback_view, confirm_comeback, take_back_word
from app.work.bench.job_sheet import JobSheet

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage

STANDS = {
    ComebackStanding.PROPOSED: words("comeback of job {number}? Nobody has said yet"),
    ComebackStanding.CONFIRMED: words("comeback of job {number}"),
    ComebackStanding.DENIED: words("no comeback of job {number}"),
}
BESIDE_IT = {
    ComebackStanding.PROPOSED: words("perhaps this is its comeback"),
    ComebackStanding.CONFIRMED: words("this is its comeback"),
    ComebackStanding.DENIED: words("this is no comeback of it"),
}


class VisitsSection(SheetSection):
    """Newest first; Enter opens one. Below stands what was said of a comeback, oldest first."""

    key = "visits"
    opened_at_first = False

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__(page, say("Earlier visits"))
        self.makers = {"comeback": lambda: ComebackForm(page, self.draft_key("comeback"))}
        self.unit_link = self.link(say("All of this player"), lambda: page.desk.open_unit(page.facts.unit_id))
        self.decide_link = self.link(say("Comeback or not…"), partial(self.open_form, "comeback"))
        self.back_link = self.link(say("Take the word back"), self._take_back)
        self.set_links(self.decide_link, self.back_link, self.unit_link)
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
        self.said = TextLines(say("What was said of the comeback"))
        self.column.add(self.table, 7, self.said)
        set_shown(self.said, False)

    def facts(self, sheet: JobSheet) -> Any:
        return sheet.earlier_jobs, sheet.comeback_of, sheet.comeback, sheet.version

    def draw(self, sheet: JobSheet) -> None:
        rows = []
        for job in sheet.earlier_jobs:
            back = moment(job.handed_back_at, "d MMM y") if job.handed_back_at is not None else say("not yet")
            its = sheet.comeback is not None and job.number == sheet.comeback_of
            cells = (
                Link(str(job.number), job.id),
                Words(back),
                Words(say(job.outcome.value) if job.outcome is not None else ""),
                Words(
                    job.done, say(BESIDE_IT[sheet.comeback]) if its and sheet.comeback else "", tip=job.done
                ),
            )
            rows.append(Row(job.id, cells))
        self.table.set_rows(rows)
        set_shown(self.table, bool(rows))
        self._summarise(sheet)
        proposed = sheet.comeback_of is not None and sheet.comeback is not None
        set_shown(self.decide_link, proposed)
        set_shown(self.back_link, proposed and sheet.comeback is not ComebackStanding.PROPOSED)
        if proposed:
            self.desk.doors.look_up(
                self,
                partial(comeback_view, self.desk.book, self.page.job_id),
                self._show_said,
                lambda error: self.page.tell_failure(error, None),
            )
        else:
            self._show_said(None)

    def decide(self, standing: ComebackStanding) -> None:
        """Where the buttons of the caution lead: confirmed at once, denied with a reason."""
        if standing is ComebackStanding.CONFIRMED:
            self._change(confirm_comeback)
            return
        form = self.open_form("comeback", focus=False)
        assert isinstance(form, ComebackForm)
        form.begin(standing)
        form.focus_first()
        self.page.bring_into_sight(form)

    def _take_back(self) -> None:
        self._change(take_back_word)

    def _change(self, deed: Any) -> None:
        who = self.page.who()
        if who is None:
            return
        work = partial(deed, self.desk.book, who, self.page.job_id, version=self.page.facts.version)
        self.desk.change(
            self.page,
            work,
            lambda _: self.page.trouble.clear(),
            lambda error: self.page.tell_failure(error, None),
        )

    def _summarise(self, sheet: JobSheet) -> None:
        count = len(sheet.earlier_jobs)
        if not count:
            self.set_summary(say("this is its first"))
            return
        visits = say("1 visit") if count == 1 else say("{n} visits", n=count)
        last = str(sheet.earlier_jobs[0].number)
        words = say("{visits}, the last was job {number}", visits=visits, number=last)
        if sheet.comeback_of is not None and sheet.comeback is not None:
            stands = say(STANDS[sheet.comeback], number=str(sheet.comeback_of))
            words = say("{visits}; {comeback}", visits=words, comeback=stands)
        self.set_summary(words)

    def _show_said(self, view: ComebackView | None) -> None:
        lines = () if view is None else view.said
        self.said.set_lines(
            [
                TextLine(at, ", ".join(filter(None, (moment(word.at), word.by))), say(word.words))
                for at, word in enumerate(lines)
            ]
        )
        set_shown(self.said, bool(lines))
