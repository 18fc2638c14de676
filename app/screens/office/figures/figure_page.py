"""A page that answers one of the eight questions: filters, the answer large, its picture, its tables, and why."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from itertools import pairwise
from typing import Any

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QApplication, QWidget
from shiboken6 import isValid

from app.screens.bench.failures import tell
from app.screens.desk import Desk
from app.screens.kit.boxes import set_shown
from app.screens.kit.empty import EmptyPage
from app.screens.kit.heading import Heading
from app.screens.kit.label import Label
from app.screens.kit.margin import MarginPage
from app.screens.kit.plots.marks import Mark
from app.screens.kit.plots.picture_view import PictureView
from app.screens.kit.progress import ProgressLine
from app.screens.language import current, say
from app.screens.office.figures.figure_kinds import KINDS
from app.screens.office.figures.figure_look import Look, look
from app.screens.office.figures.figure_tables import FigureTables
from app.screens.office.figures.filter_bar import FilterBar
from app.screens.office.figures.filters import Filters, asked_at
from app.screens.office.figures.question_row import QuestionRow
from app.screens.office.figures.taking_away import TakingAway
from app.screens.office.figures.why_view import WhyView
from app.screens.office.jobs_behind_page import Behind
from app.screens.office.link_line import inset
from app.screens.page import Page
from app.trade.statistics.picture import Course
from app.trade.statistics.table import Line, Table
from app.trade.statistics.table_words import cell_words
from app.work.statistics.answer import Answer
from app.work.statistics.choices import Choices, choices

SOON_MS = 500  # an answer that takes longer is shown on its way
WORK = ("jobs", "units", "fittings", "modifications", "trials", "readings", "labour", "part_moves")
CHANGED_BY = frozenset(
    (*WORK, "guarantee_answers", "invoices", "credit_notes", "settings", "transport_types", "staff")
)


class FigurePage(Page):
    """Registered as ``figure``; its key is the name of the question, as the command line has it.

    The filters are those of the window: what is set on one page of figures is asked on the next.
    """

    def __init__(self, desk: Desk, key: str, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.kind = KINDS[key]
        self.help_topic = self.kind.topic
        self.set_title(say(self.kind.title))
        self.shared = asked_at(desk)
        self.found: Look | None = None
        self._asked: Any = None
        self._asked_filters: Filters | None = None
        self._focus_owed = False
        self._following = False
        self._left_from: QWidget | None = None
        self.head = Heading(say("Looking through the book"), above=say(self.kind.title), keeps=True)
        self.taking = TakingAway(self)
        self.head.set_buttons(*self.taking.buttons)
        self.taking.offer()
        self.heading.add(self.head)
        self.bar = FilterBar(desk, self.kind)
        self.bar.changed.connect(self._filter)
        self.progress = ProgressLine(after_ms=SOON_MS)
        self.heading.add(7, self.bar, self.progress)
        self.sheet.set_margins((18, 9, 18, 9))
        self._filters = inset()  # where the bar stands on a narrow page
        self.sheet.addLayout(self._filters)
        self.aloud, self.said = Label("", wrap=True), Label("", "soft", wrap=True)
        self.sheet.addLayout(inset(self.aloud, self.said))
        self.picture = PictureView()
        self.picture.marked.connect(self._picture_marked)
        self.picture.opened.connect(self._picture_opened)
        self.tables = FigureTables()
        self.tables.marked.connect(self._line_marked)
        self.tables.opened.connect(self._line_opened)
        self.empty = EmptyPage(
            say("Nothing to count stands here yet"),
            say("It is filled by the jobs of the shop, as soon as some fit what is asked."),
        )
        self.questions = QuestionRow(desk, self.kind)
        self.foot.add(self.questions)
        self.why, self.why_below = WhyView(desk, self.kind), WhyView(desk, self.kind)
        self.sheet.add(self.picture, self.why_below, self.tables, self.empty)
        for view in (self.why, self.why_below):
            view.opened.connect(self.show_jobs)
        self.beside = MarginPage(say("Why this number"), width=384)
        self.beside.column.set_margins((14, 18, 9, 18))
        self.beside.column.add(self.why)
        self.beside.column.addStretch(1)
        self.set_margin(self.beside, self.why_below)
        for part in (self.aloud, self.said, self.picture, self.tables, self.empty, self.why, self.why_below):
            set_shown(part, False)

    # what pages do

    def reload(self, changes: Any = None) -> None:
        """Ask again where something changed that is counted; the first time also what there is to choose."""
        if changes is None or CHANGED_BY & changes.kinds:
            self.desk.doors.look_up(
                self, partial(choices, self.desk.book), self._choose, partial(tell, self.trouble)
            )
            self._ask(self.shared.filters)

    def arrive(self) -> None:
        if self._asked_filters != self.shared.filters:  # set on another page meanwhile
            self._ask(self.shared.filters)
        self._focus_owed = self.found is None
        target: QWidget = self.picture.panels[0] if self.picture.panels else self.tables.first()
        if self._left_from is not None and isValid(self._left_from):
            target = self._left_from
        (self.bar.period if target.isHidden() else target).setFocus(Qt.FocusReason.OtherFocusReason)

    def leave(self) -> bool:
        """Whoever comes back from the jobs behind a line goes on at that line."""
        inside = QApplication.focusWidget()
        self._left_from = inside if inside is not None and self.isAncestorOf(inside) else None
        return True

    def narrowed(self, narrow: bool) -> None:
        """On a narrow page what is asked scrolls along, and the reasons stand below the picture."""
        for layout in (self.foot, self.sheet):
            layout.removeWidget(self.questions)
        for layout in (self.heading, self._filters):
            layout.removeWidget(self.bar)
        if narrow:
            self.sheet.add(self.questions)
            self._filters.add(self.bar)
        else:
            self.foot.add(self.questions)
            self.heading.insertWidget(self.heading.indexOf(self.progress), self.bar)
        self._show_reasons()

    def put_away(self) -> None:
        self.progress.end()
        if self._asked is not None:
            self._asked.cancel()

    def commands(self) -> Mapping[str, Callable[[], object]]:
        there = self.taking.commands() if self.found is not None else {}
        return {**there, "leave": self.desk.back}

    # asking

    def _choose(self, there: Choices) -> None:
        self.bar.set_choices(there)

    def _filter(self, filters: Filters) -> None:
        self.shared.filters = filters
        self._ask(filters)

    def _ask(self, filters: Filters) -> None:
        if self._asked is not None:
            self._asked.cancel()
        if filters != self.bar.filters:
            self.bar.set_filters(filters)
        self._asked_filters = filters
        asked = filters.asked(self.kind, self.desk.today())
        self.progress.end()
        self.progress.begin(say("Looking through the book"), self._stop)
        self._asked = self.desk.doors.long_look_up(
            self,
            lambda ticket: look(self.desk.book, self.kind.name, asked, ticket.step),
            self._show,
            self._failed,
            self.progress.step,
        )

    def _stop(self) -> None:
        if self._asked is not None:
            self._asked.cancel()
        self.progress.end()
        if self.found is None:
            self.head.set_words(say("Nothing was counted yet"), above=say(self.kind.title))
        self.trouble.show_trouble(
            say("The question was stopped."),
            say("What stands here, if anything, answers the question before."),
            [(say("Ask again"), self._again)],
        )

    def _again(self) -> None:
        self.trouble.clear()
        self._ask(self.shared.filters)

    def _failed(self, error: Exception) -> None:
        self.progress.end()
        tell(self.trouble, error)

    # showing

    def _show(self, found: Look) -> None:
        self.progress.end()
        self.trouble.clear()
        self.found = found
        answer = found.answer
        self.bar.set_own_window(found.own_window)
        self.head.set_words(say(answer.headline), above=say(self.kind.title))
        self.taking.offer()
        self._say_beside(answer)
        for view in (self.why, self.why_below):
            view.show_answer(answer)
        if found.is_empty and self.picture.isAncestorOf(QApplication.focusWidget() or self):
            self.bar.period.setFocus(Qt.FocusReason.OtherFocusReason)  # what had it goes away
        self.picture.show_picture(found.picture)
        set_shown(self.picture, bool(found.picture.panels))
        set_shown(self.empty, found.is_empty)
        self._show_reasons()
        self.set_title(self.title)  # the menus serve more now
        QTimer.singleShot(0, self, self._show_tables)  # keys and mouse have their turn in between

    def _show_tables(self) -> None:
        found = self.found
        if found is None:
            return
        self.tables.show_tables(found.tables)
        set_shown(self.tables, bool(found.tables))
        self._order_tabs()
        self.shown()
        if self._focus_owed and self.isVisible():
            self.arrive()
            if self.scroller is not None:  # what is asked stays in sight, also where it scrolls along
                self.scroller.verticalScrollBar().setValue(0)

    def _order_tabs(self) -> None:
        """Tab goes from what is asked to the picture, its reasons, the tables and the other questions."""
        # Else it would lead back to its first panel from wherever it stands. The stubs do not know of taking it away.
        self.picture.setFocusProxy(None)  # type: ignore[arg-type]
        reasons = (*self.why.stops(), *self.why_below.stops())
        stops = [self.bar.clear, *self.picture.panels, *reasons, *self.tables.tables, *self.questions.links]
        for before, after in pairwise(stops):
            QWidget.setTabOrder(before, after)

    def shown(self) -> None:
        """Another answer stands here: mark what was marked before, else the first line, and of a course the latest."""
        self.tables.mark_first()
        first = self.found.picture.panels[0] if self.found is not None and self.found.picture.panels else None
        if isinstance(first, Course) and self.picture.marked_mark() is None and first.series[0].points:
            self.picture.mark(first.series[0].points[-1].key)

    def _say_beside(self, answer: Answer) -> None:
        """What has to stand beside the picture, aloud where it is an answer or a warning; the definition stands with the
        reasons."""
        defined = answer.question.definition.sentences()
        said = [sentence for sentence in answer.said if sentence not in defined]
        aloud = [said.pop(self.kind.aloud)] if self.kind.aloud is not None and said else []
        empty = self.found is None or self.found.is_empty
        for label, sentences in ((self.aloud, aloud), (self.said, said)):
            label.setText("\n".join(say(sentence) for sentence in sentences))
            set_shown(label, bool(sentences) and not empty)

    def _show_reasons(self) -> None:
        """In the margin, or below the tables; nowhere while there is nothing to explain."""
        there = self.found is not None and not self.found.is_empty
        set_shown(self.why, there)
        set_shown(self.beside, there and not self.narrow)
        set_shown(self.why_below, there and self.narrow)

    # what is marked, and the jobs behind

    def _picture_marked(self, mark: Mark) -> None:
        if not self._following and not self._follow_mark(partial(self.tables.mark, mark.key)):
            for view in (self.why, self.why_below):
                view.show_mark(mark)

    def _picture_opened(self, mark: Mark) -> None:
        self.show_jobs(mark.jobs, mark.name)

    def _line_marked(self, marked: tuple[Table, Line]) -> None:
        self.explain(*marked)
        if not self._following:
            self._follow_mark(partial(self._mark_in_picture, marked[1].key))

    def _mark_in_picture(self, key: str) -> bool:
        return any(self.picture.mark(key, panel) for panel in range(len(self.picture.panels)))

    def _follow_mark(self, mark_there: Callable[[], bool]) -> bool:
        """What is marked in the picture is marked in the tables, and the other way round, once each."""
        self._following = True
        try:
            return mark_there()
        finally:
            self._following = False

    def explain(self, table: Table, line: Line) -> None:
        """Say in the margin why this line has its numbers."""
        for view in (self.why, self.why_below):
            view.show_line((table, line))

    def _line_opened(self, marked: tuple[Table, Line]) -> None:
        table, line = marked
        self.show_jobs(line.jobs, cell_words(table.columns[0], line.cells[0], current()))

    def show_jobs(self, jobs: tuple[int, ...], name: str) -> None:
        """List the jobs behind a number."""
        if self.found is not None and jobs:
            self.desk.open(
                "jobs_behind", Behind(name, say(self.kind.title), jobs, self.found.answer.question)
            )
