"""The service report before it is issued: the photos that go on it, and a look at the draft."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from app.screens.bench.inline_form import Deed, InlineForm, told
from app.screens.desk import Paper
from app.screens.kit.buttons import Button
from app.screens.kit.tick import Tick
from app.screens.language import say
from app.work.bench.sheet_lines import FileLine
from app.work.papers.service_report import issue_service_report, preview_service_report

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class ReportForm(InlineForm):
    """Photos are ticked in the order in which they were taken; nothing has to be."""

    def __init__(self, page: JobSheetPage, key: str) -> None:
        super().__init__(page.desk, key, say("Issue the report"))
        self._page = page
        about = told()
        about.setText(
            say(
                "It tells what was complained of, found, tried and left inside, as the job stands now, and is "
                "then frozen. It names every modification, as the invoice does."
            )
        )
        self.form.row("", about)
        self.photos: dict[int, Tick] = {}
        for number, file in enumerate(_photos(page)):
            tick = self.add(f"photo {file.id}", Tick(file.note or file.name))
            self.photos[file.id] = tick
            self.form.row(say("Photos") if not number else "", tick)
        self.look_button = Button(say("Look at the draft"), self.look, kind="quiet")
        self.buttons.add(self.look_button)

    def chosen(self) -> tuple[int, ...]:
        """The photos that are ticked."""
        return tuple(file_id for file_id, tick in self.photos.items() if tick.isChecked())

    def look(self) -> None:
        """Show what would be issued, with "draft" behind every page."""
        title = say("Service report {number}, draft", number=str(self._page.facts.number))
        self.desk.doors.look_up(
            self,
            partial(preview_service_report, self.desk.book, self._page.job_id, self.chosen()),
            lambda pdf: self.desk.show_paper(Paper(title, pdf, "", f"{title}.pdf")),
            lambda error: self.failed.emit(error, self.look),
        )

    def deed(self, who: int) -> Deed:
        return partial(issue_service_report, self.desk.book, who, self._page.job_id, self.chosen())

    def first_field(self) -> Tick | Button:
        return next(iter(self.photos.values()), self.look_button)


def _photos(page: JobSheetPage) -> list[FileLine]:
    return [file for file in page.facts.files if file.struck is None and file.media_type.startswith("image/")]
