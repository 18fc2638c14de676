"""Why this number: what was counted and what not, the sentences behind a rate, and the jobs."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Column, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column as TableColumn
from app.screens.kit.cells import Row, Words
from app.screens.kit.label import Label
from app.screens.kit.table import SmallTable
from app.screens.language import current, percent, say
from app.screens.office.link_line import link_line
from app.screens.office.repeat_rows import HEADS, name_of
from app.trade.statistics.comeback_rates import Rate, Verdict, shown_p, why
from app.trade.statistics.comebacks import By, Counted
from app.trade.wording import MINUS
from app.work.office.repeat_faults import Question


class WhyView(QWidget):
    """`behind` brings the label of the group and whether only those that came back are wanted."""

    behind = Signal(str, bool)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(say("Why this number"))
        self._label = ""
        self._title = Label("", "large", wrap=True)
        self._counted = SmallTable(
            say("What was counted"),
            (
                TableColumn("what", say("Counted"), 0, least=160),
                TableColumn("jobs", say("Jobs"), 66, right=True),
            ),
        )
        self._why = Label("", wrap=True)
        self._split_title = Label("", "strong", wrap=True)
        self._split = SmallTable(
            say("Parted once more"),
            (
                TableColumn("name", "", 0, least=90),
                TableColumn("came", say("Came back"), 92),
                TableColumn("interval", say("95 % interval"), 136),
            ),
        )
        self._split_said = Label("", "soft", wrap=True)
        self.came = Button("", lambda: self.behind.emit(self._label, True), kind="quiet")
        self.all_jobs = Button("", lambda: self.behind.emit(self._label, False), kind="quiet")
        column = Column(self, gap=9)
        column.addLayout(_words(Label(say("Why this number"), "soft"), self._title))
        column.add(self._counted)
        column.addLayout(_words(self._why, 4, self._split_title))
        column.add(self._split)
        column.addLayout(_words(self._split_said, link_line(self.came, self.all_jobs)))
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    def show_rate(self, rate: Rate, question: Question, split_by: By, split: Sequence[Rate]) -> None:
        """Explain one group's number."""
        self._label = rate.label
        name = name_of(rate.label, question.by)
        if rate.share is None:
            self._title.setText(say("{name}: nothing to count yet", name=name))
        else:
            self._title.setText(
                say(
                    "{name}: {share}, from {low} to {high}",
                    name=name,
                    share=percent(rate.share),
                    low=percent(rate.low).removesuffix("\u00a0%"),
                    high=percent(rate.high),
                )
            )
        self._counted.set_rows(counted_rows(rate.counted, question))
        self._why.setText(" ".join(say(sentence) for sentence in why(rate)))
        self._show_split(name, split_by, split)
        came, could = rate.counted.came_back, rate.counted.handed_back
        self.came.setText(say("Show this job") if came == 1 else say("Show these {n} jobs", n=came))
        self.all_jobs.setText(say("Show all {n}", n=could))
        set_shown(self.came, came > 0)

    def _show_split(self, name: str, split_by: By, split: Sequence[Rate]) -> None:
        shown = [rate for rate in split if rate.share is not None]
        there = len(shown) > 1
        for part in (self._split_title, self._split, self._split_said):
            set_shown(part, there)
        if not there:
            return
        self._split_title.setText(say("{name} by {what}", name=name, what=say(split_by.value)))
        self._split.setAccessibleName(self._split_title.text())
        self._split.rows_model().columns = (
            TableColumn("name", say(HEADS[split_by]), 0, least=90),
            *self._split.rows_model().columns[1:],
        )
        self._split.set_rows([_split_row(rate, split_by) for rate in shown])
        self._split_said.setText(told_apart(shown, split_by))


def counted_rows(counted: Counted, question: Question) -> list[Row]:
    """What was handed back, what of it does not count and why, and what is left."""
    lines = [(say("handed back"), counted.handed_back, False, False)]
    if counted.too_young:
        words = say("watched for less than {days} days", days=question.window)
        lines.append((words, counted.too_young, True, False))
    if counted.not_mended:
        lines.append((say("not mended (declined, no fault shown)"), counted.not_mended, True, False))
    if counted.set_aside:
        lines.append((say("days cannot be right"), counted.set_aside, True, False))
    lines.append((say("could have come back"), counted.could, False, True))
    same = say("came back, same fault group") if question.same_group else say("came back, any fault")
    lines.append((same, counted.came_back, False, True))
    return [
        Row(
            words,
            (
                Words(words, strong=strong),
                Words(f"{MINUS}{count}" if less else str(count), strong=strong, right=True),
            ),
        )
        for words, count, less, strong in lines
    ]


def told_apart(split: Sequence[Rate], by: By) -> str:
    """Whether the parts of a group can be told apart, in one sentence."""
    odd = [rate for rate in split if rate.verdict in (Verdict.MORE_OFTEN, Verdict.LESS_OFTEN)]
    if odd:
        first = odd[0]
        p = current().value(shown_p(first.adjusted))
        name = name_of(first.label, by)
        if first.verdict is Verdict.MORE_OFTEN:
            return say("{name} comes back more often than the others (adjusted p {p}).", name=name, p=p)
        return say("{name} comes back less often than the others (adjusted p {p}).", name=name, p=p)
    least = min(rate.adjusted for rate in split)
    return say("They cannot be told apart (least adjusted p {p}).", p=current().value(shown_p(least)))


def _split_row(rate: Rate, by: By) -> Row:
    interval = say("{low} to {high}", low=percent(rate.low).removesuffix("\u00a0%"), high=percent(rate.high))
    return Row(
        rate.label,
        (
            Words(name_of(rate.label, by)),
            Words(say("{x} of {n}", x=rate.counted.came_back, n=rate.counted.could)),
            Words(percent(rate.share or 0.0), interval),
        ),
    )


def _words(*items: QWidget | float) -> Column:
    column = Column(gap=4, margins=(9, 0, 9, 0))
    column.add(*items)
    return column
