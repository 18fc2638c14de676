"""Players that are ready and were not collected in time, and the notice to collect of one of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.counter.failures import tell
from app.screens.counter.papers import show_draft, show_paper, with_staff
from app.screens.desk import Desk
from app.screens.kit.boxes import set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column, Group, Leave, Row, Words
from app.screens.kit.choice import Choice
from app.screens.language import day, say
from app.screens.office.list_page import ListPage
from app.trade.sentence import Sentence
from app.work.counter.uncollected import (
    UncollectedJob,
    issue_uncollected_notice,
    preview_uncollected_notice,
    uncollected_jobs,
)

OVER, READY = "over", "ready"


class UncollectedPage(ListPage):
    """Registered as ``uncollected``. Enter opens the job; a notice is printed of the marked one."""

    help_topic = "uncollected"
    words = Sentence("Not collected")
    add_words = Sentence("Go to the Counter")
    empty_words = (
        Sentence("Every player that is ready has time left"),
        Sentence("Players stand here once the time to collect is over. Nothing happens to them by itself."),
    )
    leaving = (
        Leave("told"),
        Leave("customer", "second"),
        Leave("shelf"),
        Leave("until", "second", 105),
        Leave("ready"),
        Leave("notices"),
    )
    kinds = frozenset({"jobs", "messages", "papers", "customers", "units", "settings"})
    has_former = False

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        super().__init__(desk, key, parent)
        self.found: dict[int, UncollectedJob] = {}
        choices = [(OVER, say("Time is over")), (READY, say("All that are ready"))]
        self.which = Choice(say("Which players"), choices, key or OVER)
        self.which.changed.connect(lambda _: self.reload())
        self.notice = Button(say("Print a notice to collect"), self._notice, kind="main")
        self.notice.held.connect(lambda: self.table.setFocus(Qt.FocusReason.OtherFocusReason))
        self.look = Button(say("Look at the draft"), self._look, kind="quiet")
        self.head.set_buttons(self.look, self.notice)
        self.heading.add(self.which, 4)
        self.table.marked.connect(lambda _: self._show_deed())

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {**super().commands(), "notice": self.notice.click}

    def columns(self) -> tuple[Column, ...]:
        return (
            Column("job", say("Job"), 62),
            Column("customer", say("Customer"), 0, least=130),
            Column("player", say("Player"), 150),
            Column("shelf", say("Shelf"), 62),
            Column("ready", say("Ready since"), 118),
            Column("told", say("Last message"), 118),
            Column("until", say("Time to collect"), 262),
            Column("notices", say("Notices"), 150),
        )

    def fetch(self) -> Any:
        return uncollected_jobs(self.desk.book, all_ready=self.which.value() == READY)

    def rows(self, found: Any) -> list[Row | Group]:
        self.found = {job.job_id: job for job in found}
        return [_row(job) for job in found]

    def below(self, found: Any) -> str:
        over = sum(job.over > 0 for job in found)
        if not over:
            return ""
        if over == 1:
            return say("1 player was not collected in time.")
        return say("{n} players were not collected in time.", n=over)

    def told(self) -> tuple[str, ...]:
        return (self.which.word(),)

    def open(self, key: Any) -> None:
        self.desk.open_job(key)

    def add(self) -> None:
        self.desk.open("counter")

    def _show(self, found: Any) -> None:
        super()._show(found)
        set_shown(self.add_button, False)
        self._show_deed()

    def _show_deed(self) -> None:
        job = self.found.get(self.table.marked_key())
        set_shown(self.notice, job is not None)
        set_shown(self.look, job is not None and job.not_now is None)
        if job is None or job.not_now is None:
            self.notice.free()
        else:
            self.notice.block(say(job.not_now))
        self.head.make_room()

    def _notice(self) -> None:
        job = self.found.get(self.table.marked_key())
        if job is not None:
            with_staff(self.desk, self, partial(self._print, job.job_id))

    def _look(self) -> None:
        job = self.found.get(self.table.marked_key())
        if job is not None:
            with_staff(self.desk, self, partial(self._draw, job))

    def _draw(self, job: UncollectedJob, who: int) -> None:
        title = say("Notice to collect {number}, draft", number=str(job.number))
        show_draft(self, title, partial(preview_uncollected_notice, self.desk.book, who, job.job_id))

    def _print(self, job_id: int, who: int) -> None:
        self.desk.change(
            self,
            partial(issue_uncollected_notice, self.desk.book, who, job_id),
            lambda done: show_paper(self, done.value),
            partial(tell, self.trouble),
        )


def _row(job: UncollectedJob) -> Row:
    if job.over:
        over = say("1 day late") if job.over == 1 else say("{n} days late", n=job.over)
        until = Words(over, say("since {day}", day=day(job.collect_by)), before="caution", strong=True)
    else:
        until = Words(say("to {day}", day=day(job.collect_by)))
    return Row(
        job.job_id,
        (
            Words(str(job.number), strong=True),
            Words(job.customer, job.phone),
            Words(job.player),
            Words(job.shelf, soft=True),
            Words(day(job.ready)),
            Words(day(job.told)) if job.told is not None else Words(say("none yet"), soft=True),
            until,
            _notices(job),
        ),
    )


def _notices(job: UncollectedJob) -> Words | None:
    if job.noticed_on is None:
        return None
    if job.notices == 1:
        return Words(say("one, {day}", day=day(job.noticed_on)))
    return Words(say("{n}, last {day}", n=job.notices, day=day(job.noticed_on)))
