"""Why this number: the marked line in full, what was counted and how, and what counts as a comeback."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import Column, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column as TableColumn
from app.screens.kit.cells import Row, Words
from app.screens.kit.label import Label
from app.screens.kit.plots.marks import Mark
from app.screens.kit.table import SmallTable
from app.screens.language import current, number, say
from app.screens.office.figures.figure_kinds import FigureKind
from app.screens.office.figures.figure_tables import room_for
from app.screens.office.link_line import link_line
from app.trade.sentence import Value
from app.trade.settings import Group
from app.trade.statistics.table import Column as FactColumn
from app.trade.statistics.table import Line, Table
from app.trade.statistics.table_words import cell_words
from app.trade.wording import GLUE
from app.work.statistics.answer import Answer


class WhyView(QWidget):
    """`opened` brings the keys of the jobs to be listed and what they are, in words."""

    opened = Signal(object, str)

    def __init__(self, desk: Desk, kind: FigureKind, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(say("Why this number"))
        self._kind = kind
        self._jobs: tuple[int, ...] = ()
        self._name = ""
        self._there = False
        self.title = Label("", "large", wrap=True)
        self.facts = SmallTable(
            say("The marked line in full"),
            (TableColumn("what", "", 0, least=140), TableColumn("value", "", 130, right=True)),
            header=False,
        )
        self.group = QWidget()  # what a page has to say of its own of the marked line
        self.group_column = Column(self.group, gap=9)
        self.own_stops: list[QWidget] = []  # in it
        self.behind = Button("", self._open, kind="quiet")
        self._told = Label("", wrap=True)
        self._method = Label("", wrap=True)
        self._defined = Label("", wrap=True)
        self._defined_title = Label(say("What counts as a comeback"), "strong", wrap=True)
        self._change = Button(
            say("Change this in the settings"),
            lambda: desk.open("settings", Group.COUNTER.value),
            kind="quiet",
        )
        self._source = Label("", "soft", wrap=True)
        column = Column(self, gap=9)
        column.addLayout(_words(Label(say("Why this number"), "soft"), self.title))
        column.add(self.facts, self.group)
        column.addLayout(_words(self._told, link_line(self.behind)))
        column.addLayout(_words(5, Label(say("How it was counted"), "strong"), self._method))
        column.addLayout(_words(5, self._defined_title, self._defined, link_line(self._change)))
        column.addLayout(_words(5, self._source))
        for hidden in (self.facts, self.group, self._told, self.behind):
            set_shown(hidden, False)
        for part in (self._defined_title, self._defined, self._change):
            set_shown(part, kind.defined)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    def show_answer(self, answer: Answer) -> None:
        """What the whole answer rests on."""
        why = answer.why
        counted = say(
            "{n} {counted}; {what}: {events}.",
            n=why.n,
            counted=why.counted,
            what=why.events_are,
            events=why.events,
        )
        self._method.setText(" ".join((counted, *(say(sentence) for sentence in why.method))))
        self._defined.setText(" ".join(say(one) for one in answer.question.definition.sentences()))
        self._source.setText(say("Source: {source}.", source="; ".join(why.source)) if why.source else "")
        set_shown(self._source, bool(why.source))
        self.show_line(None)

    def show_line(self, marked: tuple[Table, Line] | None) -> None:
        """One line with all its cells, also those that have left a narrow table; None shows none."""
        if marked is None:
            self.title.setText("")
            rows: list[Row] = []
            self._jobs = ()
        else:
            table, line = marked
            first, *rest = zip(table.columns, line.cells, strict=True)
            self._name = cell_words(*first, current())
            self.title.setText(self._name)
            rows = _facts(rest)
            self._jobs = line.jobs
        self._tell_jobs(rows)

    def _tell_jobs(self, rows: list[Row]) -> None:
        what, value = self.facts.rows_model().columns
        wide = room_for(row.cells[1].plain for row in rows if row.cells[1] is not None)
        self.facts.rows_model().columns = (what, replace(value, width=min(wide, 190)))
        self.facts.set_rows(rows)
        self._there = bool(rows)
        set_shown(self._told, False)
        count = len(self._jobs)
        self.behind.setText(
            say("Show this job") if count == 1 else say("Show these {n} jobs", n=number(count, grouped=True))
        )
        set_shown(self.title, bool(self.title.text()))
        self.show_own(False)

    def stops(self) -> list[QWidget]:
        """What takes the focus, in the order in which it stands."""
        return [self.facts, *self.own_stops, self.behind, self._change]

    def show_mark(self, mark: Mark) -> None:
        """A mark of the picture that no line of the tables stands for."""
        self._name, self._jobs = mark.name, mark.jobs
        self.title.setText(mark.name)
        self._told.setText(mark.told)
        self._tell_jobs([])
        set_shown(self._told, True)

    def show_own(self, own: bool) -> None:
        """What the page itself has to say of the marked line, in place of its cells."""
        set_shown(self.group, own)
        set_shown(self.facts, self._there and not own)
        set_shown(self.behind, bool(self._jobs) and not own)

    def _open(self) -> None:
        self.opened.emit(self._jobs, self._name)


def _facts(cells: Sequence[tuple[FactColumn, Value | float | None]]) -> list[Row]:
    """A row for each cell; the two ends of an interval stand in one."""
    rows: list[Row] = []
    told = [(column, cell_words(column, cell, current())) for column, cell in cells if cell is not None]
    for at, (column, words) in enumerate(told):
        if column.key == "low" and told[at + 1 : at + 2] and told[at + 1][0].key == "high":
            between = say("{low} to {high}", low=words.removesuffix(f"{GLUE}%"), high=told[at + 1][1])
            rows.append(_fact(say("95 % interval"), between))
        elif column.key != "high":
            rows.append(_fact(say(column.name), words))
    return rows


def _fact(words: str, value: str) -> Row:
    return Row(words, (Words(words, soft=True), Words(value, right=True, tip=value)))


def _words(*items: QWidget | float) -> Column:
    column = Column(gap=4, margins=(9, 0, 9, 0))
    column.add(*items)
    return column
