"""The Counter place: every player in the shop, the soonest promise first."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QWidget

from app.screens.counter.failures import tell
from app.screens.counter.list_rows import LEAVING, SORTS, columns, group_of, row_of
from app.screens.counter.papers import show_new_tag, show_newest
from app.screens.desk import Desk
from app.screens.kit.boxes import Row as Across
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Row
from app.screens.kit.choice import Choice
from app.screens.kit.combo import Combo
from app.screens.kit.empty import EmptyPage
from app.screens.kit.heading import Heading
from app.screens.kit.rows import PagedModel
from app.screens.kit.table import Table
from app.screens.language import say
from app.screens.page import Page
from app.screens.printed_list import printing, show_paged
from app.work.counter.job_rows import job_rows
from app.work.counter.jobs_list import JobIds, Promise, ShopCounts, Show, Sort, job_ids, shop_counts
from app.work.papers.kinds import Kind

ANY_DAY = "any"


class CounterPage(Page):
    """Registered as ``counter``. Enter opens a job, Ctrl+N takes in a player."""

    help_topic = "counter"
    scrolls = False

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.set_title(say("In the shop"))
        self._sorting = (Sort.PROMISED, False)
        self._asked: list[Any] = []
        self.head = Heading(say("In the shop"))
        self.take_in = Button(say("Take in a player"), self._take_in, kind="main", key="Ctrl+N")
        self.head.set_buttons(self.take_in)
        self.show_choice = Choice(say("Which jobs"), _shows(), Show.IN_THE_SHOP)
        self.show_choice.changed.connect(lambda _: self._ask())
        self.promise = Combo(say("Promised"), _promises(), ANY_DAY)
        self.promise.changed.connect(lambda _: self._ask())
        line = QWidget()
        across = Across(line, gap=18)
        self.uncollected = Button("", lambda: desk.open("uncollected"), kind="quiet")
        set_shown(self.uncollected, False)
        across.add(self.show_choice, stretch=1)
        across.add(self.uncollected)
        across.add(self.promise)
        self.heading.add(self.head, 9, line, 4)
        self.model = PagedModel(columns(), ask=self._ask_rows)
        self.table = Table(say("Jobs in the shop"), self.model, leaving=LEAVING)
        self.table.opened.connect(desk.open_job)
        self.table.sort_asked.connect(self._sort)
        self.table.set_sorting("promised")
        first = Button(say("Take in the first player"), self._take_in, kind="main", key="Ctrl+N")
        self.empty = EmptyPage(
            say("Every player in the shop stands here, the soonest promise first"),
            say("A line appears when you take one in, and leaves when it is handed back."),
            (first,),
        )
        self.sheet.set_margins((18, 0, 18, 9))
        self.sheet.add(self.table, stretch=1)
        self.sheet.add(self.empty, stretch=1)
        set_shown(self.empty, False)
        self._tools = line

    # what pages do

    def reload(self, changes: Any = None) -> None:
        """Ask for counts and keys anew; rows come as they are seen."""
        self._ask()

    def arrive(self) -> None:
        target = self.table if self.empty.isHidden() else self.empty.findChild(Button)
        if target is not None:
            target.setFocus(Qt.FocusReason.OtherFocusReason)

    def put_away(self) -> None:
        self._cancel()

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {
            **printing(self.print_list),
            "hand_back": partial(self._with_marked, lambda job: self.desk.open("hand_back", job)),
            "ticket": partial(self._with_marked, partial(show_newest, self, Kind.INTAKE_TICKET)),
            "bench_tag": partial(self._with_marked, partial(show_new_tag, self)),
        }

    # asking

    def _cancel(self) -> None:
        for ticket in self._asked:
            ticket.cancel()
        self._asked.clear()

    def _ask(self) -> None:
        self._cancel()
        book, doors = self.desk.book, self.desk.doors
        sort, descending = self._sorting
        show = self.show_choice.value() or Show.IN_THE_SHOP
        promise = self.promise.value()
        failed = partial(tell, self.trouble)
        keys = partial(
            job_ids,
            book,
            show,
            sort,
            descending=descending,
            promise=promise if isinstance(promise, Promise) else None,
        )
        self._asked = [
            doors.look_up(self, keys, self._show_ids, failed),
            doors.look_up(self, partial(shop_counts, book), self._show_counts, failed),
        ]

    def _ask_rows(self, ids: Sequence[Any], deliver: Callable[[Mapping[Any, Row]], None]) -> None:
        today = self.desk.today()
        self.desk.doors.look_up(
            self,
            partial(job_rows, self.desk.book, tuple(ids)),
            lambda rows: deliver({row.id: row_of(row, today) for row in rows}),
            partial(tell, self.trouble),
        )

    # showing

    def _show_ids(self, found: JobIds) -> None:
        marked = self.table.marked_key()
        today = self.desk.today()
        groups = [(group.start, group_of(group.promise, group.count, today)) for group in found.groups]
        self.model.set_ids(found.ids, groups)
        if (marked is None or not self.table.mark(marked)) and self.table.hasFocus():
            self.table.mark_first()

    def _show_counts(self, counts: ShopCounts) -> None:
        self.head.set_below(_below(counts))
        left = counts.uncollected
        self.uncollected.setText(say("1 not collected") if left == 1 else say("{n} not collected", n=left))
        set_shown(self.uncollected, left > 0)
        set_shown(self.empty, not counts.ever)
        for part in (self.table, self._tools, self.take_in):
            set_shown(part, bool(counts.ever))
        if not counts.ever and self.isVisible() and not self._holds_focus():
            self.arrive()

    def _holds_focus(self) -> bool:
        focus = QApplication.focusWidget()
        return focus is not None and self.empty.isAncestorOf(focus)

    # doing

    def _take_in(self) -> None:
        self.desk.open("take_in")

    def print_list(self) -> None:
        """The jobs of the list as a paper."""
        today = self.desk.today()
        any_day = self.promise.value() == ANY_DAY
        show_paged(
            self,
            say("Jobs"),
            (self.show_choice.word(), "" if any_day else self.promise.currentText()),
            self.model,
            lambda ids: partial(job_rows, self.desk.book, tuple(ids)),
            lambda rows: {row.id: row_of(row, today) for row in rows},
        )

    def _sort(self, key: str, descending: bool) -> None:
        self._sorting = (SORTS[key], descending)
        self.table.set_sorting(key, descending)
        self._ask()

    def _with_marked(self, call: Callable[[int], object]) -> None:
        key = self.table.marked_key()
        if key is not None:
            call(key)


def _shows() -> list[tuple[Show, str]]:
    return [
        (Show.IN_THE_SHOP, say("All in the shop")),
        (Show.READY, say("Ready")),
        (Show.WAITING, say("Waiting for the customer")),
        (Show.ON_THE_BENCH, say("On the bench")),
        (Show.HANDED_BACK, say("Handed back this week")),
        (Show.EVERY, say("Every job")),
    ]


def _promises() -> list[tuple[Any, str]]:
    return [
        (ANY_DAY, say("promised for any day")),
        (Promise.LATE, say("late")),
        (Promise.TODAY, say("promised for today")),
        (Promise.COLLECT, say("to be collected")),
        (Promise.LATER, say("promised for later")),
    ]


def _below(counts: ShopCounts) -> str:
    if not counts.ever:
        return say("No players yet.")
    parts = [say("1 player.") if counts.in_the_shop == 1 else say("{n} players.", n=counts.in_the_shop)]
    told = []
    if counts.late:
        told.append(say("1 is late") if counts.late == 1 else say("{n} are late", n=counts.late))
    if counts.today:
        told.append(
            say("1 is promised for today")
            if counts.today == 1
            else say("{n} are promised for today", n=counts.today)
        )
    if counts.held:
        told.append(
            say("1 is held by a stop") if counts.held == 1 else say("{n} are held by a stop", n=counts.held)
        )
    if counts.unanswered:
        told.append(
            say("1 has not answered")
            if counts.unanswered == 1
            else say("{n} have not answered", n=counts.unanswered)
        )
    if told:
        parts.append(", ".join(told) + ".")
    return " ".join(parts)
