"""The Bench place: the jobs to work on, the soonest promise first; Enter opens one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.counter import list_rows
from app.screens.desk import Desk
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Row
from app.screens.kit.choice import Choice
from app.screens.kit.empty import EmptyPage
from app.screens.kit.heading import Heading
from app.screens.kit.rows import PagedModel
from app.screens.kit.table import Table
from app.screens.language import say
from app.screens.page import Page
from app.screens.printed_list import printing, show_paged
from app.work.counter.job_rows import JobRow, job_rows
from app.work.counter.jobs_list import JobIds, Promise, Show, Sort, job_ids

LEFT_OUT = "customer"  # at the bench the fault matters, and who brought it stands on the sheet


class BenchPage(Page):
    """All jobs that are taken in, on the bench or running in."""

    help_topic = "bench"
    scrolls = False

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.set_title(say("On the bench"))
        self.head = Heading(say("To work on"))
        shows = [(Show.TO_WORK_ON, say("All to work on")), (Show.ON_THE_BENCH, say("On the bench"))]
        self.show_choice = Choice(say("Which jobs"), shows, Show.TO_WORK_ON)
        self.show_choice.changed.connect(lambda _: self.reload(None))
        self.heading.add(self.head, 9, self.show_choice, 4)
        columns = [column for column in list_rows.columns() if column.key != LEFT_OUT]
        self._kept = [i for i, column in enumerate(list_rows.columns()) if column.key != LEFT_OUT]
        self.model = PagedModel(columns, ask=self._ask_rows)
        self.table = Table(say("Jobs to work on"), self.model, leaving=list_rows.LEAVING)
        self.table.opened.connect(self.desk.open_job)
        self.table.sort_asked.connect(self._sort)
        self._sorting = (Sort.PROMISED, False)
        self.table.set_sorting("promised")
        counter = Button(say("Go to the counter"), lambda: desk.open("counter"), key="Ctrl+1")
        self.empty = EmptyPage(
            say("Every player to be mended stands here, the soonest promise first"),
            say("A line appears when the counter takes one in, and leaves when it is ready."),
            (counter,),
        )
        self.sheet.set_margins((18, 0, 18, 9))
        self.sheet.add(self.table, stretch=1)
        self.sheet.add(self.empty, stretch=1)
        set_shown(self.empty, False)

    # what pages do

    def reload(self, changes: Any = None) -> None:
        """Ask for the keys anew; rows come as they are seen."""
        show = self.show_choice.value() or Show.TO_WORK_ON
        sort, descending = self._sorting
        self.desk.doors.look_up(
            self,
            partial(job_ids, self.desk.book, show, sort, descending=descending),
            self._show,
            partial(tell, self.trouble),
        )

    def arrive(self) -> None:
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return printing(self.print_list)

    def print_list(self) -> None:
        """The jobs of the list as a paper."""
        show_paged(
            self,
            say("Jobs to work on"),
            (self.show_choice.word(),),
            self.model,
            lambda ids: partial(job_rows, self.desk.book, tuple(ids)),
            lambda rows: {row.id: self._row(row) for row in rows},
        )

    # the list

    def _show(self, found: JobIds) -> None:
        marked = self.table.marked_key()
        today = self.desk.today()
        groups = [(g.start, list_rows.group_of(g.promise, g.count, today)) for g in found.groups]
        self.model.set_ids(found.ids, groups)
        if marked is None or not self.table.mark(marked):
            self.table.mark_first()
        late = next((g.count for g in found.groups if g.promise is Promise.LATE), 0)
        self.head.set_below(_below(len(found.ids), late))
        nothing = not found.ids and self.show_choice.value() is Show.TO_WORK_ON
        set_shown(self.empty, nothing)
        set_shown(self.table, not nothing)

    def _ask_rows(self, ids: Any, deliver: Callable[[Mapping[Any, Row]], None]) -> None:
        self.desk.doors.look_up(
            self,
            partial(job_rows, self.desk.book, tuple(ids)),
            lambda rows: deliver({row.id: self._row(row) for row in rows}),
            partial(tell, self.trouble),
        )

    def _row(self, row: JobRow) -> Row:
        whole = list_rows.row_of(row, self.desk.today())
        return replace(whole, cells=tuple(whole.cells[i] for i in self._kept))

    def _sort(self, key: str, descending: bool) -> None:
        self._sorting = (list_rows.SORTS[key], descending)
        self.table.set_sorting(key, descending)
        self.reload(None)


def _below(count: int, late: int) -> str:
    if not count:
        return say("No players to work on.")
    players = say("1 player.") if count == 1 else say("{count} players.", count=count)
    if not late:
        return players
    return f"{players} {say('1 is late.') if late == 1 else say('{count} are late.', count=late)}"
