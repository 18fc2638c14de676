"""What helped before: changes tried on the same transport type stopped at the same rung, the surest first."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt

from app.screens.bench.failures import tell
from app.screens.bench.sheet_section import SheetSection, indented
from app.screens.kit.boxes import set_shown
from app.screens.kit.cells import Column, Figure, Leave, Row, Words
from app.screens.kit.gauges import ShareFacts, share
from app.screens.kit.label import Label
from app.screens.kit.table import SmallTable
from app.screens.language import number, say
from app.trade.bench.changes import Leaves
from app.trade.bench.kinds import FaultGroup
from app.trade.sentence import Sentence
from app.trade.statistics.what_helped import FEW, Helped
from app.work.bench.job_sheet import JobSheet
from app.work.bench.what_helped import HelpedLine, WhatHelped, what_helped

if TYPE_CHECKING:
    from app.screens.bench.job_sheet_page import JobSheetPage


class HelpedSection(SheetSection):
    """Asked when it is unfolded, and anew when the job changes meanwhile. Enter on a row opens its jobs."""

    key = "helped"
    opened_at_first = False

    def __init__(self, page: JobSheetPage) -> None:
        super().__init__(page, say("What helped before"))
        self.group_link = self.link("", self._turn_group)
        self.jobs_link = self.link(say("Its jobs"), self._open_marked)
        self.set_links(self.group_link, self.jobs_link)
        self.table = SmallTable(
            say("What helped before"),
            (
                Column("change", say("What was changed"), 0, least=160),
                Column("leaves", say("Leaves"), 128),
                Column("cured", say("Cured"), 96),
                Column("better", say("Better"), 62, number=True),
                Column("share", "%", 56, number=True),
                Column("drawn", "", 76),
                Column("interval", say("95 % interval"), 118),
                Column(
                    "back",
                    say("Came back"),
                    118,
                    tip=say("of the repairs that it helped and that were watched"),
                ),
            ),
            opened=self._open_jobs,
            leaving=(Leave("better"), Leave("drawn"), Leave("share"), Leave("back"), Leave("interval")),
        )
        self.said = Label("", "soft", wrap=True)
        self._said_line = indented(self.said)
        self.column.add(self.table, self._said_line)
        self.found: WhatHelped | Sentence | None = None
        self._asked: Any = None
        self._group: FaultGroup | None = None  # None: all of them
        self._stale = True
        self.folded.connect(self._turned)
        self._show()

    def facts(self, sheet: JobSheet) -> Any:
        return sheet.start_ups, sheet.trials, sheet.transport_id, sheet.fault_group

    def draw(self, sheet: JobSheet) -> None:
        self._stale = True
        if self._group is not None:
            self._group = sheet.fault_group
        self._show()
        if self.is_open:
            self._ask()

    def come(self) -> None:
        """Unfold it and bring it into sight."""
        self.set_opened(True)
        self.head.setFocus(Qt.FocusReason.OtherFocusReason)
        self.page.bring_into_sight(self)

    # asking

    def _turned(self, folded: bool) -> None:
        if not folded and self._stale:
            self._ask()

    def _turn_group(self) -> None:
        self._group = self.page.facts.fault_group if self._group is None else None
        self._ask()

    def _ask(self) -> None:
        self._stale = False
        if self._asked is not None:
            self._asked.cancel()
        self._asked = self.desk.doors.look_up(
            self,
            partial(what_helped, self.desk.book, self.page.job_id, self._group),
            self._came,
            partial(tell, self.page.trouble),
        )

    def _came(self, found: WhatHelped | Sentence) -> None:
        self.found = found
        self._show()

    # showing

    def _show(self) -> None:
        found = self.found if isinstance(self.found, WhatHelped) else None
        lines = found.lines if found is not None else ()
        self.table.set_rows([self._row(line) for line in lines])
        set_shown(self.table, bool(lines))
        set_shown(self.jobs_link, bool(lines))
        self._show_group()
        if found is None:
            self.said.setText(say(self.found) if isinstance(self.found, Sentence) else "")
            self.set_summary(say("the surest first; other players of this transport type"))
        else:
            ground = say(found.ground)
            watched = say("Comebacks within {days} days, of repairs watched so long.", days=found.window)
            self.said.setText(f"{ground} {watched}" if lines else ground)
            where = say("{transport}, stopped before: {rung}", transport=found.type_name, rung=found.stop)
            group = found.question.group
            self.set_summary(where if group is None else f"{where}, {say(group.value)}")
        set_shown(self._said_line, bool(self.said.text()))

    def _show_group(self) -> None:
        group = self.page.facts.fault_group if self._facts is not None else None
        set_shown(self.group_link, group is not None and self.found is not None)
        if group is not None:
            only = say("Only the fault group {group}", group=say(group.value))
            self.group_link.setText(only if self._group is None else say("All fault groups"))

    def _row(self, line: HelpedLine) -> Row:
        counts, name = line.counts, say(line.name)
        told = say("{n} of {jobs}", n=counts.cured, jobs=counts.tried)
        band = say("{low} to {high} %", low=_per_cent(counts.low), high=_per_cent(counts.high))
        few = say("fewer than {few} trials", few=FEW) if counts.few else ""
        return Row(
            counts.key,
            (
                Words(name, say("tried here") if line.here else "", strong=line.here, tip=name),
                _leaves(line),
                Words(told, say("few") if counts.few else "", tip=few),
                Figure(str(counts.better), soft=not counts.better),
                Figure(_per_cent(counts.share), strong=not counts.few, soft=counts.few),
                share(
                    ShareFacts(counts.share, counts.low, counts.high, few=counts.few), f"{told}, {band}", few
                ),
                Words(band),
                _comebacks(counts),
            ),
        )

    def _open_marked(self) -> None:
        if isinstance(self.found, WhatHelped) and self.found.lines:
            key = self.table.marked_key()
            self._open_jobs(key if key is not None else self.found.lines[0].counts.key)

    def _open_jobs(self, key: Any) -> None:
        if isinstance(self.found, WhatHelped):
            line = next(line for line in self.found.lines if line.counts.key == key)
            self.desk.open("helped_jobs", (self.found.question, key, say(line.name)))


def _leaves(line: HelpedLine) -> Words:
    """What it leaves; what departs from the maker's design with the shape of a caution."""
    left, tried = line.counts.left, line.counts.tried
    if line.leaves is Leaves.MODIFICATION or (left and left == tried):
        return Words(say(Leaves.MODIFICATION.value), before="caution")
    if left:
        often = say("{n} of {jobs}", n=left, jobs=tried)
        return Words(say("modification"), often, before="caution", tip=often)
    if line.leaves in (None, Leaves.DEPENDS):
        return Words(say("nothing"), soft=True)
    return Words(say(line.leaves.value), soft=line.leaves is Leaves.NOTHING)


def _comebacks(counts: Helped) -> Words:
    if not counts.could:
        return Words(say("none watched"), soft=True)
    told = say("{n} of {jobs}", n=counts.came_back, jobs=counts.could)
    return Words(told, say("{share} %", share=_per_cent(counts.came_back / counts.could)))


def _per_cent(share_: float) -> str:
    return number(round(share_ * 100))
