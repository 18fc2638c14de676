"""Papers asked for from a page of the counter: shown as filed, issued anew where that is meant."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from app.screens.counter.failures import tell
from app.screens.desk import Desk, Paper
from app.screens.language import say
from app.screens.page import Page
from app.work.papers.kinds import NAMES, Kind
from app.work.shop_book import Book

if TYPE_CHECKING:  # imported with the first paper that is asked for
    from app.work.papers.issuing import PaperFile


def show_paper(page: Page, paper_id: int) -> None:
    """Show an issued paper: the very PDF that is filed."""
    from app.work.papers.issuing import paper_pdf

    page.desk.change(
        page,
        partial(paper_pdf, page.desk.book, paper_id),
        lambda file: page.desk.show_paper(paper_of(file)),
        partial(tell, page.trouble),
    )


def show_newest(page: Page, kind: Kind, job_id: int) -> None:
    """Show the last paper of this kind of a job; says so where there is none."""

    def shown(file: PaperFile | None) -> None:
        if file is None:
            page.trouble.show_trouble(
                say("There is no paper of this kind yet: {kind}.", kind=say(NAMES[kind]))
            )
        else:
            page.desk.show_paper(paper_of(file))

    page.desk.change(page, partial(_newest, page.desk.book, kind, job_id), shown, partial(tell, page.trouble))


def _newest(book: Book, kind: Kind, job_id: int) -> PaperFile | None:
    from app.work.papers.issuing import newest_paper, paper_pdf

    paper = newest_paper(book, job_id, kind)
    return None if paper is None else paper_pdf(book, paper)


def show_new_tag(page: Page, job_id: int) -> None:
    """Issue the bench tag as the job stands now, and show it."""
    with_staff(page.desk, page, partial(_tag, page, job_id))


def _tag(page: Page, job_id: int, who: int) -> None:
    from app.work.papers.labels import issue_bench_tag

    page.desk.change(
        page,
        partial(issue_bench_tag, page.desk.book, who, job_id),
        lambda done: show_paper(page, done.value),
        partial(tell, page.trouble),
    )


def with_staff(desk: Desk, page: Page, call: Callable[[int], object]) -> None:
    """Call with whoever works now; where nobody said so yet, say how."""
    if desk.staff is None:
        page.trouble.show_trouble(say("Say first who works here now, with Ctrl+U."))
    else:
        call(desk.staff.id)


def show_draft(page: Page, title: str, draw: Callable[[], bytes]) -> None:
    """Show what would be printed now, drawn away from the window, with "draft" behind every page."""
    page.desk.doors.look_up(
        page,
        draw,
        lambda pdf: page.desk.show_paper(Paper(title, pdf, "", f"{title}.pdf")),
        partial(tell, page.trouble),
    )


def paper_of(file: PaperFile) -> Paper:
    """A filed paper as the window shows it."""
    return Paper(file.title, file.pdf, file.kind, file.name, file.id, file.copied)
