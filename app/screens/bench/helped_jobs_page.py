"""The jobs behind a row of what helped before: those that came back first; Enter opens one."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QWidget

from app.screens.desk import Desk
from app.screens.jobs_found_page import JobsFoundPage
from app.screens.kit.cells import Column, Leave, Row, Words
from app.screens.kit.rows import RowsModel
from app.screens.language import moment, say
from app.screens.printed_list import show_list
from app.trade.bench.stages import TrialOutcome
from app.work.bench.what_helped import HelpedJob, HelpedQuestion, jobs_helped

LEAVING = (Leave("customer"), Leave("words"), Leave("taken in"), Leave("outcome"))
Key = tuple[HelpedQuestion, str, str]


class HelpedJobsPage(JobsFoundPage):
    """Registered as ``helped_jobs``; its key is the question, the kind of change, and its words."""

    help_topic = "trials"
    changed_by = ("jobs", "trials")

    def __init__(self, desk: Desk, key: Key, parent: QWidget | None = None) -> None:
        self.question, self.change, name = key
        self.model = RowsModel(_columns())
        title = say("{change}: jobs", change=f"{name[:1].upper()}{name[1:]}")
        super().__init__(desk, title, say("What helped before"), self.model, LEAVING, parent)

    def ask(self) -> Sequence[HelpedJob]:
        return jobs_helped(self.desk.book, self.question, self.change)

    def show_found(self, lines: Sequence[HelpedJob]) -> None:
        self.model.set_rows(map(_row, lines))
        jobs = say("1 job") if len(lines) == 1 else say("{n} jobs", n=len(lines))
        cured = sum(line.outcome is TrialOutcome.CURED for line in lines)
        back = sum(line.came_back for line in lines)
        self.head.set_below(
            say("{jobs}, {cured} cured, {back} came back.", jobs=jobs, cured=cured, back=back)
        )

    def print_list(self) -> None:
        rows = [row for _, row in self.model.known()]
        show_list(self, self.title, (self.head.below(),), self.model.columns, rows)


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
