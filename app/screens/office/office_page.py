"""The Office place: what needs the owner, and the way to everything else."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.desk import Desk
from app.screens.kit.boxes import set_shown
from app.screens.kit.cells import Group, Row
from app.screens.kit.empty import EmptyPage
from app.screens.kit.heading import Heading
from app.screens.kit.rows import RowsModel
from app.screens.kit.table import Table
from app.screens.language import say
from app.screens.office.office_links import OfficeLinks, OfficeMargin
from app.screens.office.office_rows import LEAVING, columns, rows_of, summary_of
from app.screens.page import Page
from app.work.office.overview import Overview, overview


class OfficePage(Page):
    """Registered as ``office``. Enter opens the invoice of a job, or the job whose caution waits."""

    help_topic = "office"
    scrolls = False

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.set_title(say("Office"))
        self._asked: Any = None
        self.head = Heading(say("What needs the owner"))
        self.links = OfficeLinks(desk)
        set_shown(self.links, False)
        self.heading.add(self.head, 9, self.links)
        self.model = RowsModel(columns())
        self.table = Table(say("What needs the owner"), self.model, leaving=LEAVING)
        self.table.opened.connect(self._open)
        self.empty = EmptyPage(
            say("Nothing waits for the owner"),
            say("Jobs to invoice, open invoices and cautions to look at stand here."),
        )
        self.sheet.set_margins((18, 0, 18, 9))
        self.sheet.add(self.table, stretch=1)
        self.sheet.add(self.empty, stretch=1)
        set_shown(self.empty, False)
        self.beside = OfficeMargin(desk)
        self.set_margin(self.beside, self.links)

    def reload(self, changes: Any = None) -> None:
        """Ask anew what waits."""
        if self._asked is not None:
            self._asked.cancel()
        self._asked = self.desk.doors.look_up(
            self, partial(overview, self.desk.book), self._show, partial(tell, self.trouble)
        )

    def arrive(self) -> None:
        target = self.table if self.empty.isHidden() else self.beside.first()
        target.setFocus(Qt.FocusReason.OtherFocusReason)

    def put_away(self) -> None:
        if self._asked is not None:
            self._asked.cancel()

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {
            "invoice": partial(self._of_marked, "invoice"),
            "estimate": partial(self._of_marked, "estimate"),
        }

    def _show(self, found: Overview) -> None:
        marked = self.table.marked_key()
        rows: list[Row | Group] = rows_of(found, self.desk.today())
        self.model.set_rows(rows)
        if marked is None or not self.table.mark(marked):
            self.table.mark_first()
        set_shown(self.empty, not rows)
        set_shown(self.table, bool(rows))
        self.head.set_below(summary_of(found))
        self.beside.show_counts(found)

    def _open(self, key: tuple[str, int]) -> None:
        kind, job_id = key
        self.desk.open(kind, job_id)

    def _of_marked(self, kind: str) -> None:
        """The invoice or estimate of the job that is marked."""
        if (key := self.table.marked_key()) is not None:
            self.desk.open(kind, key[1])
