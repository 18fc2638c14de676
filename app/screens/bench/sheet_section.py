"""What every section of the job sheet does: show its part of the facts, fold, and open its forms in itself."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.bench.inline_form import InlineForm
from app.screens.kit.boxes import Column, Row
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.kit.section import Section
from app.work.bench.job_sheet import JobSheet

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage

_folded: dict[str, bool] = {}  # what was folded or opened last, for every sheet until the program ends


class SheetSection(Section):
    """A section draws in ``draw(sheet)`` what ``facts(sheet)`` picks for it; where that has not changed since,
    nothing is drawn anew. ``makers`` are its forms by kind; one is open at a time."""

    key = ""
    opened_at_first = True

    def __init__(self, page: JobSheetPage, word: str) -> None:
        folded = _folded.get(self.key, not self.opened_at_first)
        super().__init__(word, opened=not folded, inset=9)
        self.page = page
        self.desk = page.desk
        self.open_kind = ""
        self.open: InlineForm | None = None
        self.makers: Mapping[str, Callable[[], InlineForm]] = {}
        self._facts: Any = None
        self._forms = Column()
        self.column.addLayout(self._forms)
        self.folded.connect(self._remember)

    # for sections to override

    def facts(self, sheet: JobSheet) -> Any:
        """The part of the sheet that this section shows."""
        raise NotImplementedError

    def draw(self, sheet: JobSheet) -> None:
        """Show it."""
        raise NotImplementedError

    def narrowed(self, narrow: bool) -> None:
        """The window has become narrower or wider than 1180 px."""

    # what the base does

    def show_sheet(self, sheet: JobSheet) -> None:
        """Draw what has changed; the first time, open again the form that was left half filled."""
        facts = self.facts(sheet)
        first = self._facts is None
        if first or facts != self._facts:
            self._facts = facts
            self.draw(sheet)
        if first:
            self._take_drafts()

    def draft_key(self, kind: str) -> str:
        """The key of a form's draft: this job, this form."""
        return f"job {self.page.job_id} {kind}"

    def open_form(self, kind: str, *, focus: bool = True) -> InlineForm:
        """Open a form of this section, or go to it when it is open."""
        self.set_opened(True)
        if self.open is None or self.open_kind != kind:
            self.close_form()
            form = self.makers[kind]()
            form.take_draft()
            form.saved.connect(self.form_saved)
            form.left.connect(self._form_left)
            form.failed.connect(self.page.tell_failure)
            self._forms.addWidget(form)
            self.open, self.open_kind = form, kind
        if focus:
            self.open.focus_first()
            self.page.bring_into_sight(self.open)
        return self.open

    def close_form(self) -> None:
        """Close the form that is open; its draft stays."""
        if self.open is not None:
            self._forms.removeWidget(self.open)
            self.open.hide()
            self.open.deleteLater()
            self.open, self.open_kind = None, ""

    def form_saved(self, result: Any) -> None:
        """The book has it: the form goes, the sheet shows what it wrote."""
        self.page.trouble.clear()
        self.close_form()
        self.head.setFocus(Qt.FocusReason.OtherFocusReason)

    def link(self, text: str, call: Callable[[], object], key: str = "") -> Button:
        """A quiet button for the section's line."""
        return Button(text, call, kind="quiet", key=key)

    def words(self, text: str = "", kind: str = "body") -> QWidget:
        """A line of words drawn in to where text stands."""
        return indented(Label(text, kind, wrap=True))

    def _form_left(self) -> None:
        self.close_form()
        self.head.setFocus(Qt.FocusReason.OtherFocusReason)

    def _take_drafts(self) -> None:
        for kind in self.makers:
            if self.desk.drafts.read(self.draft_key(kind)):
                self.open_form(kind, focus=False)
                return

    def _remember(self, folded: bool) -> None:
        _folded[self.key] = folded


def indented(*widgets: QWidget, gap: float = 9, stretch: bool = False) -> QWidget:
    """Widgets beside each other, drawn in by u so that they stand under the words of the heading."""
    inside = QWidget()
    row = Row(inside, gap=gap, margins=(9, 0, 9, 0))
    for widget in widgets:
        row.addWidget(widget, 1 if len(widgets) == 1 else 0)
    if stretch:
        row.addStretch(1)
    return inside
