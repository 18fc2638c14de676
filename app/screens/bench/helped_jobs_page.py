"""The jobs behind a row of what helped before: those that came back first; Enter opens one."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.desk import Desk
from app.screens.kit.cells import Column, Leave, Row, Words
from app.screens.kit.heading import Heading
from app.screens.kit.rows import RowsModel
from app.screens.kit.table import Table
from app.screens.language import moment, say
from app.screens.page import Page
from app.trade.bench.stages import TrialOutcome
from app.work.bench.what_helped import HelpedJob, HelpedQuestion, jobs_helped

LEAVING = (Leave("customer"), Leave("words"), Leave("taken in"), Leave("outcome"))
Key = tuple[HelpedQuestion, str, str]


class HelpedJobsPage(Page):
    """Registered as ``helped_jobs``; its key is the question, the kind of change, and its words."""

    help_topic = "trials"
    scrolls = False

    def __init__(self, desk: Desk, key: Key, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.question, self.change, name = key
        self._asked: Any = None
        title = say("{change}: jobs", change=f"{name[:1].upper()}{name[1:]}")
        self.set_title(title)
        self.head = Heading(title, above=say("What helped before"))
        self.heading.add(self.head, 7)
        self.model = RowsModel(_columns())
        self.table = Table(title, self.model, leaving=LEAVING)
        self.table.opened.connect(desk.open_job)
        self.sheet.set_margins((18, 0, 18, 9))
        self.sheet.add(self.table, stretch=1)

    def reload(self, changes: Any = None) -> None:
        """Ask for the jobs anew where jobs or trials changed."""
        if changes is not None and not changes.kinds & {"jobs", "trials"}:
            return
        if self._asked is not None:
            self._asked.cancel()
        work = partial(jobs_helped, self.desk.book, self.question, self.change)
        self._asked = self.desk.doors.look_up(self, work, self._show, partial(tell, self.trouble))

    def arrive(self) -> None:
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    def put_away(self) -> None:
        if self._asked is not None:
            self._asked.cancel()

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {"leave": self.desk.back}

    def _show(self, lines: Sequence[HelpedJob]) -> None:
        marked = self.table.marked_key()
        self.model.set_rows(map(_row, lines))
        if marked is None or not self.table.mark(marked):
            self.table.mark_first()
        jobs = say("1 job") if len(lines) == 1 else say("{n} jobs", n=len(lines))
        cured = sum(line.outcome is TrialOutcome.CURED for line in lines)
        back = sum(line.came_back for line in lines)
        self.head.set_below(
            say("{jobs}, {cured} cured, {back} came back.", jobs=jobs, cured=cured, back=back)
        )


def _columns() -> tuple[Column, ...]:
    return (
        Column("job", say("Job"), 66),
        Column("taken in", say("Taken in"), 124),
        Column("player", say("Player"), 0, least=130),
        Column("customer", say("Customer"), 176),
        Column("words", say("What was changed"), 240),
        Column("did", say("What it did"), 116),
        Column("outcome", say("Outcome of the job"), 190),
        Column("back", say("Came back"), 112),
    )


def _row(line: HelpedJob) -> Row:
    ended = say(line.closed.value) if line.closed is not None else say("still here")
    return Row(
        line.id,
        (
            Words(str(line.number), strong=True),
            Words(moment(line.at, "d MMM y")),
            Words(line.player),
            Words(line.customer),
            Words(line.words, tip=line.words),
            Words(say(line.outcome.value), strong=line.outcome is TrialOutcome.CURED),
            Words(ended, soft=line.closed is None),
            Words(say("came back") if line.came_back else "", strong=True),
        ),
    )
