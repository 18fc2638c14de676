"""What the pages of a job's papers of money share: asked for anew, forms on the sheet, the paper beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QWidget

from app.screens.bench.failures import tell
from app.screens.counter.papers import paper_of, show_paper, with_staff
from app.screens.desk import Desk, Paper
from app.screens.kit.buttons import Button
from app.screens.kit.heading import Heading
from app.screens.language import say
from app.screens.office.form_place import FormPlace
from app.screens.office.paper_beside import PaperBeside
from app.screens.page import Page
from app.trade.refusal import Held
from app.work.papers.issuing import PaperFile, paper_pdf
from app.work.shop_book import Book

Deed = Callable[[Book, int], Callable[[], Any]]  # an act of app.work, with who does it left open


class JobPaperPage(Page):
    """A page says how it is asked for (`fetch`) and shown (`show_view`), which `places` its forms open in, and what
    its paper is. Its key is the id of the job."""

    kind = ""  # of the paper, for the printer that is remembered

    def __init__(self, desk: Desk, key: Any, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.job_id = int(key)
        self._asked: Any = None
        self._fresh = True  # the focus goes where work begins once the answer is there
        self.head = Heading()
        self.heading.add(self.head)
        self.print_button = Button(say("Print"), self.open_paper, kind="main", key="Ctrl+P")
        self.copy_button = Button(say("Show a copy"), self.show_copy, kind="quiet")
        self.draft_button = Button(say("Look at the draft"), self.open_draft, kind="quiet")
        self.paper = PaperBeside(desk, say("The paper"))
        self.set_margin(self.paper, QWidget(self))

    # for pages to override

    def fetch(self) -> Any:
        """What the page shows. Run away from the window."""
        raise NotImplementedError

    def show_view(self, found: Any) -> None:
        """Show what was fetched."""
        raise NotImplementedError

    def places(self) -> Iterable[FormPlace]:
        """Where forms open, in their order on the page."""
        raise NotImplementedError

    def begin_at(self) -> QWidget | None:
        """Where work begins while no form is open."""
        raise NotImplementedError

    @property
    def paper_id(self) -> int | None:
        """The paper that is filed, None while it is being written."""
        raise NotImplementedError

    def draft(self) -> tuple[str, Callable[[], bytes]] | None:
        """Title and PDF of the paper as it would be printed now; None while there is none."""
        raise NotImplementedError

    # what pages do

    def reload(self, changes: Any = None) -> None:
        """Ask anew for what the job's paper is made of."""
        if changes is not None and self.job_id not in changes.jobs and "settings" not in changes.kinds:
            return
        self._cancel()
        self._asked = self.desk.doors.look_up(self, self.fetch, self._found, partial(tell, self.trouble))

    def arrive(self) -> None:
        form = next((place.form for place in self.places() if place.form), None)
        if form is not None:
            form.focus_first()
        elif (target := self.begin_at()) is not None:
            target.setFocus(Qt.FocusReason.OtherFocusReason)

    def put_away(self) -> None:
        self._cancel()
        self.paper.put_away()

    def leave_form_or_page(self) -> None:
        """Esc: close the form that stands open, else go; what was typed is kept."""
        for place in self.places():
            if place.form is not None:
                place.close_form()
                return
        self.desk.back()

    def save_form(self) -> None:
        """Ctrl+Enter: save the form that the focus is in, else the first that stands open."""
        forms = [place.form for place in self.places() if place.form]
        focus = QApplication.focusWidget()
        forms.sort(key=lambda form: focus is None or not form.isAncestorOf(focus))
        if forms:
            forms[0].save()

    def hear(self, *places: FormPlace) -> None:
        """Trouble of a form that belongs to no field stands at the top until one was saved."""
        for place in places:
            place.failed.connect(partial(tell, self.trouble))
            place.saved.connect(lambda _: self.trouble.clear())

    def _cancel(self) -> None:
        if self._asked is not None:
            self._asked.cancel()

    def _found(self, found: Any) -> None:
        self.show_view(found)  # the menus ask anew what is served when the page has its title
        if self._fresh and self.isVisible():
            self.arrive()
        self._fresh = False

    # doing

    def do(self, deed: Deed, done: Callable[[Any], object] | None = None) -> None:
        """Do a deed that needs no form, by whoever works now."""
        with_staff(
            self.desk,
            self,
            lambda who: self.desk.change(
                self, deed(self.desk.book, who), partial(self._done, done), partial(self._failed, deed, done)
            ),
        )

    def _done(self, done: Callable[[Any], object] | None, result: Any) -> None:
        self.trouble.clear()
        if done is not None:
            done(result)

    def _failed(self, deed: Deed, done: Callable[[Any], object] | None, error: Exception) -> None:
        tell(self.trouble, error, None if isinstance(error, Held) else partial(self.do, deed, done))
        self.reload()

    # the paper

    def open_paper(self) -> None:
        """Show the very PDF that is filed."""
        if self.paper_id is not None:
            show_paper(self, self.paper_id)

    def show_copy(self) -> None:
        """The same with the stamp of a copy."""
        if self.paper_id is None:
            return

        def shown(file: PaperFile) -> None:
            self.desk.show_paper(paper_of(file))

        work = partial(paper_pdf, self.desk.book, self.paper_id, copy=True)
        self.desk.change(self, work, shown, partial(tell, self.trouble))

    def open_draft(self) -> None:
        """Show what would be printed now on a page of its own."""
        drawn = self.draft()
        if drawn is None:
            return
        title, work = drawn

        def shown(pdf: bytes) -> None:
            self.desk.show_paper(Paper(title, pdf, self.kind, f"{title}.pdf"))

        self.desk.doors.look_up(self, work, shown, partial(tell, self.trouble))

    def show_beside(self) -> None:
        """The paper in the margin: as it is filed, or as it would be printed now."""
        if self.paper_id is not None:
            self.paper.ask(say("As it is filed"), partial(_pdf, self.desk.book, self.paper_id))
        elif (drawn := self.draft()) is not None:
            self.paper.ask(say("As it would be printed now"), drawn[1])


def _pdf(book: Book, paper_id: int) -> bytes:
    return paper_pdf(book, paper_id).pdf
