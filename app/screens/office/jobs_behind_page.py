"""The jobs behind a number: those that came back first; Enter opens one."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.desk import Desk
from app.screens.jobs_found_page import JobsFoundPage
from app.screens.kit.cells import Column, Leave, Link, Row, Words
from app.screens.kit.rows import PagedModel
from app.screens.language import day, say
from app.screens.printed_list import show_paged
from app.trade.statistics.comebacks import Standing
from app.work.statistics.jobs_behind import JobBehind, Named, jobs_behind, named_jobs
from app.work.statistics.question import Question

LEAVING = (Leave("type"), Leave("group"), Leave("customer"))


@dataclass(frozen=True, slots=True)
class Behind:
    """What the list is of: ``name`` in words under the words of its question, the keys of the ``jobs``, and the
    question, whose definition says what became of each."""

    name: str
    above: str
    jobs: tuple[int, ...]
    question: Question


class JobsBehindPage(JobsFoundPage):
    """Registered as ``jobs_behind``; its key is a `Behind`."""

    help_topic = "jobs_behind"

    def __init__(self, desk: Desk, key: Behind, parent: QWidget | None = None) -> None:
        self.behind = key
        self._lines: dict[int, JobBehind] = {}
        self.model = PagedModel(_columns(), ask=self._ask_names)
        super().__init__(desk, key.name, key.above, self.model, LEAVING, parent)
        self.table.link_opened.connect(desk.open_job)

    def ask(self) -> Sequence[JobBehind]:
        return jobs_behind(self.desk.book, self.behind.question, self.behind.jobs)

    def print_list(self) -> None:
        """The jobs of the list as a paper."""
        show_paged(
            self,
            self.title,
            (self.behind.above, self.head.below()),
            self.model,
            lambda ids: partial(named_jobs, self.desk.book, tuple(ids)),
            lambda names: {
                line.id: _row(line, names.get(line.id, Named("", ""))) for line in self._lines.values()
            },
        )

    def show_found(self, lines: Sequence[JobBehind]) -> None:
        self._lines = {line.id: line for line in lines}
        self.model.set_ids([line.id for line in lines])
        count = len(lines)
        came = sum(line.standing is Standing.CAME_BACK for line in lines)
        jobs = say("1 job") if count == 1 else say("{n} jobs", n=count)
        within = say("{n} came back within {days} days", n=came, days=self.behind.question.window)
        self.head.set_below(f"{jobs}, {within}.")

    def _ask_names(self, ids: Sequence[Any], deliver: Callable[[Mapping[Any, Row]], None]) -> None:
        lines = {key: self._lines[key] for key in ids if key in self._lines}

        def named(names: Mapping[int, Named]) -> None:
            deliver({key: _row(line, names.get(key, Named("", ""))) for key, line in lines.items()})

        work = partial(named_jobs, self.desk.book, tuple(lines))
        self.desk.doors.look_up(self, work, named, partial(tell, self.trouble))


def _columns() -> tuple[Column, ...]:
    return (
        Column("job", say("Job"), 66),
        Column("back", say("Handed back"), 124),
        Column("player", say("Player"), 0, least=130),
        Column("customer", say("Customer"), 176),
        Column("type", say("Transport type"), 130),
        Column("group", say("Fault group"), 110),
        Column("stands", say("What became of it"), 190),
        Column("next", say("Came back as"), 170),
    )


def _row(line: JobBehind, named: Named) -> Row:
    came = line.standing is Standing.CAME_BACK
    return Row(
        line.id,
        (
            Words(str(line.number), strong=True),
            Words(day(line.handed_back) if line.handed_back is not None else ""),
            Words(named.player),
            Words(named.customer),
            Words(line.transport_type, soft=not line.transport_type),
            Words(
                say(line.group.value) if line.group is not None else say("not known"), soft=line.group is None
            ),
            Words(say(line.standing.value), _after(line), strong=came)
            if line.standing is not None
            else Words(say("still in the shop"), soft=True),
            Link(str(line.next_job), line.next_job_id, _when(line)) if line.next_job is not None else None,
        ),
    )


def _after(line: JobBehind) -> str:
    if line.standing is not Standing.CAME_BACK or line.next_in is None or line.handed_back is None:
        return ""
    days = (line.next_in - line.handed_back).days
    return say("after 1 day") if days == 1 else say("after {n} days", n=days)


def _when(line: JobBehind) -> str:
    return day(line.next_in) if line.next_in is not None else ""
