"""Which repairs come back: the picture of rates with their intervals, or the same as a table."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtWidgets import QWidget

from app.screens.bench.failures import tell
from app.screens.desk import Desk
from app.screens.kit.boxes import Row, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.comebacks import ComebackBars, ComebackKey
from app.screens.kit.empty import EmptyPage
from app.screens.kit.heading import Heading
from app.screens.kit.label import Label
from app.screens.kit.margin import MarginPage
from app.screens.kit.measure import px
from app.screens.kit.table import SmallTable
from app.screens.language import day, say
from app.screens.office.link_line import inset
from app.screens.office.repeat_question import QuestionBar
from app.screens.office.repeat_rows import (
    HEADS,
    TABLE_LEAVING,
    counted_rates,
    facts_of,
    name_of,
    table_columns,
    table_row,
)
from app.screens.office.why_view import WhyView
from app.screens.page import Page
from app.screens.printed_list import printing, show_list
from app.trade.settings import COMEBACK_WINDOW
from app.trade.statistics.comeback_rates import Rate
from app.trade.statistics.comebacks import By
from app.work.office.repeat_faults import Question, RepeatFaults, repeat_faults
from app.work.office.settings import shop_settings


class RepeatFaultsPage(Page):
    """Registered as ``repeat_faults``. Up and Down mark a group, Enter shows the jobs behind it."""

    help_topic = "repeat_faults"

    def __init__(self, desk: Desk, key: Any = None, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.set_title(say("Which repairs come back"))
        self.found: RepeatFaults | None = None
        self._asked: Any = None
        self._window_known = False
        self._table_wanted = False
        self._as_table = False  # what stands there now
        self._focus_owed = False
        self.head = Heading(say("Looking through the book"), above=say("Which repairs come back"))
        self.bar = QuestionBar(desk, 180)
        self.bar.asked.connect(lambda _: self._ask())
        self.heading.add(self.head)
        self.sheet.set_margins((18, 7, 18, 9))
        self.sheet.addLayout(inset(self.bar))
        self.bars = ComebackBars(say(HEADS[By.TRANSPORT_TYPE]))
        self.bars.marked.connect(self._explain)
        self.bars.opened.connect(partial(self._behind, came_back=False))
        self.table = SmallTable(
            say("Which repairs come back"),
            table_columns(By.TRANSPORT_TYPE),
            leaving=TABLE_LEAVING,
            opened=partial(self._behind, came_back=False),
        )
        self.table.marked.connect(self._explain)
        self.uncounted = Label("", "soft", wrap=True)
        self.empty = EmptyPage(
            say("Repairs that were handed back stand here, by what was mended"),
            say("A rate is shown once a repair has been watched for the whole window."),
        )
        self.sheet.add(self.bars, self.table)
        self.sheet.addLayout(inset(self.uncounted))
        self.sheet.add(self.empty)
        for part in (self.bars, self.table, self.uncounted, self.empty):
            set_shown(part, False)
        self.turn = Button(say("Show as a table"), self.turn_over, kind="quiet")
        self.key = ComebackKey()
        self._foot = QWidget()
        line = Row(self._foot, gap=18, margins=(0, 7, 0, 9))
        line.add(self.key, stretch=1)
        line.addStretch(0)
        line.add(self.turn)
        self.foot.add(self._foot)
        self.why, self.why_below = WhyView(), WhyView()
        for view in (self.why, self.why_below):
            view.behind.connect(lambda label, came: self._behind(label, came_back=came))
        self.beside = MarginPage(say("Why this number"), width=384)
        self.beside.column.set_margins((14, 18, 9, 18))
        self.beside.column.add(self.why)
        self.beside.column.addStretch(1)
        self.sheet.add(self.why_below)
        self.set_margin(self.beside, self.why_below)
        if self.scroller is not None:
            self.scroller.viewport().installEventFilter(self)
        for hidden in (self.why, self.why_below, self._foot):
            set_shown(hidden, False)

    # what pages do

    def reload(self, changes: Any = None) -> None:
        """Ask again where jobs, modifications or settings changed."""
        if changes is None or {"jobs", "modifications", "settings", "transport_types"} & changes.kinds:
            self._ask()

    def arrive(self) -> None:
        target: QWidget = self.table if self._as_table else self.bars
        self._focus_owed = self.found is None
        (self.bar.period if target.isHidden() else target).setFocus(Qt.FocusReason.OtherFocusReason)

    def narrowed(self, narrow: bool) -> None:
        """A narrow page has its key and its reasons under the picture, where they scroll."""
        self.foot.removeWidget(self._foot)
        self.sheet.removeWidget(self._foot)
        if narrow:
            self.sheet.insertWidget(self.sheet.indexOf(self.why_below), self._foot)
        else:
            self.foot.add(self._foot)
        self._show_reasons()

    def put_away(self) -> None:
        if self._asked is not None:
            self._asked.cancel()

    def commands(self) -> Mapping[str, Callable[[], object]]:
        return {**printing(self.print_list), "leave": self.desk.back}

    def print_list(self) -> None:
        """The table as a paper, also while the picture is shown."""
        found = self.found
        if found is None:
            return
        by = found.question.by
        rows = [table_row(rate, by) for rate in found.rates]
        about = (say(found.headline), *self.bar.told(), _span(found))
        show_list(self, say("Which repairs come back"), about, table_columns(by), rows)

    def turn_over(self) -> None:
        """Show the table in place of the picture, or the picture again."""
        label = self.table.marked_key() if self._as_table else self._marked_label()
        self._table_wanted = not self._table_wanted
        self.turn.setText(say("Show as a picture") if self._table_wanted else say("Show as a table"))
        if self.found is not None:
            self._show_rows(self.found)
        self._mark(label)
        self.arrive()

    # asking

    def _ask(self) -> None:
        if self._asked is not None:
            self._asked.cancel()
        question = self.bar.question()
        work = (
            partial(repeat_faults, self.desk.book, question)
            if self._window_known
            else partial(self._first, question)
        )
        self._asked = self.desk.doors.look_up(self, work, self._show, partial(tell, self.trouble))

    def _first(self, question: Question) -> RepeatFaults:
        """The first question is asked with the shop's own window."""
        window = shop_settings(self.desk.book)[COMEBACK_WINDOW]
        return repeat_faults(
            self.desk.book,
            Question(
                by=question.by,
                window=window,
                since=question.since,
                until=question.until,
                group=question.group,
            ),
        )

    # showing

    def _show(self, found: RepeatFaults) -> None:
        if not self._window_known:
            self._window_known = True
            self.bar.set_window(found.question.window)
        label = self.table.marked_key() if self._as_table else self._marked_label()
        self.found = found
        self.head.set_words(say(found.headline), above=say("Which repairs come back"), below=_span(found))
        self._show_rows(found)
        self._mark(label)
        if self._focus_owed and self.isVisible():
            self.arrive()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize and self.found is not None:
            if self._as_table != self._needs_table():
                self._show_rows(self.found)
                self._mark(None)
        return super().eventFilter(watched, event)

    def _needs_table(self) -> bool:
        """Whether the table was asked for, or the picture has no room."""
        room = self.scroller.viewport().width() if self.scroller is not None else 0
        return self._table_wanted or 0 < room < self.bars.minimumSizeHint().width() + px(27)

    def _show_rows(self, found: RepeatFaults) -> None:
        by = found.question.by
        rates = counted_rates(found)
        self._as_table = self._needs_table()
        set_shown(self.turn, self._as_table == self._table_wanted)
        if self._as_table:
            self.table.rows_model().columns = table_columns(by)
            self.table.set_rows([table_row(rate, by) for rate in found.rates])
        else:
            self.bars.set_rows(facts_of(found), say(HEADS[by]))
        shown = self._as_table and bool(found.rates)
        set_shown(self.table, shown)
        set_shown(self.bars, not self._as_table and bool(rates))
        set_shown(self.key, not self._as_table and bool(rates))
        set_shown(self.empty, not rates and not shown)
        set_shown(self._foot, bool(found.rates))
        set_shown(self.why, bool(found.rates))
        self._show_reasons()
        left = [name_of(rate.label, by) for rate in found.rates if rate.share is None]
        self.uncounted.setText(say("Nothing to count yet: {groups}.", groups=", ".join(left)) if left else "")
        set_shown(self.uncounted, bool(left) and not self._as_table)

    def _show_reasons(self) -> None:
        """In the margin, or below the picture; nowhere while there is nothing to explain."""
        there = self.found is not None and bool(self.found.rates)
        set_shown(self.beside, there and not self.narrow)
        set_shown(self.why_below, there and self.narrow)

    def _marked_label(self) -> str:
        rows = self.bars.rows
        return str(rows[self.bars.at].key) if 0 <= self.bars.at < len(rows) else ""

    def _mark(self, label: str | None) -> None:
        """Mark the group that was marked before, else the first."""
        if self._as_table:
            if not label or not self.table.mark(label):
                self.table.mark_first()
            return
        labels = [row.key for row in self.bars.rows]
        if labels:
            self.bars.mark(labels.index(label) if label in labels else 0)

    def _explain(self, label: Any) -> None:
        rate = self._rate(label)
        if rate is not None and self.found is not None:
            found = self.found
            for view in (self.why, self.why_below):
                view.show_rate(rate, found.question, found.split_by, found.splits.get(rate.label, ()))

    def _rate(self, label: Any) -> Rate | None:
        rates = self.found.rates if self.found is not None else ()
        return next((rate for rate in rates if rate.label == label), None)

    def _behind(self, label: str, *, came_back: bool) -> None:
        if self.found is not None:
            self.desk.open("jobs_behind", (self.found.question, str(label), came_back))


def _span(found: RepeatFaults) -> str:
    if found.first is None or found.last is None:
        return ""
    return say("The book has repairs from {first} to {last}.", first=day(found.first), last=day(found.last))
