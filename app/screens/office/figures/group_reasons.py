"""Why a group's comeback rate is what it is: what was counted, against the rest, parted once more, and the jobs."""

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
from app.screens.language import current, number, percent, say
from app.screens.office.link_line import inset, link_line
from app.trade.statistics.comeback_rates import Rate, Verdict, shown_p, why
from app.trade.statistics.comebacks import UNKNOWN, By
from app.trade.wording import GLUE, MINUS
from app.work.statistics.comeback_rate import RateRow
from app.work.statistics.group_reasons import Parted
from app.work.statistics.question import Question
from app.work.statistics.tables.heads import HEADS


class GroupReasons(QWidget):
    """`opened` brings the keys of the jobs to be listed and what they are, in words."""

    opened = Signal(object, str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._row: RateRow | None = None
        self.counted = SmallTable(
            say("What was counted"),
            (
                TableColumn("what", say("Counted"), 0, least=160),
                TableColumn("jobs", say("Jobs"), 66, right=True),
            ),
        )
        self._why = Label("", wrap=True)
        self._split_title = Label("", "strong", wrap=True)
        self.split = SmallTable(
            say("Parted once more"),
            (
                TableColumn("name", "", 0, least=90),
                TableColumn("came", say("Came back"), 92),
                TableColumn("interval", say("95 % interval"), 136),
            ),
        )
        self._split_said = Label("", "soft", wrap=True)
        self.came = Button("", lambda: self._open(came_back=True), kind="quiet")
        self.all_jobs = Button("", lambda: self._open(came_back=False), kind="quiet")
        column = Column(self, gap=9)
        column.add(self.counted)
        column.addLayout(inset(self._why, link_line(self.came, self.all_jobs)))
        column.addLayout(inset(self._split_title))
        column.add(self.split)
        column.addLayout(inset(self._split_said))
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    def show_rate(self, row: RateRow, rate: Rate, question: Question) -> str:
        """Explain one group's number; gives the words that belong over it."""
        self._row = row
        self.counted.set_rows(counted_rows(row, question))
        self._why.setText(" ".join(say(sentence) for sentence in why(rate)))
        came, could = len(row.came_back_jobs), len(row.jobs)
        self.came.setText(
            say("Show this job") if came == 1 else say("Show these {n} jobs", n=number(came, grouped=True))
        )
        self.all_jobs.setText(say("Show all {n}", n=number(could, grouped=True)))
        set_shown(self.came, came > 0)
        set_shown(self.all_jobs, could > came)
        self.show_parted(None)
        name = current().value(row.name)
        if row.share is None:
            return say("{name}: nothing to count yet", name=name)
        return say(
            "{name}: {share}, from {low} to {high}",
            name=name,
            share=percent(row.share),
            low=percent(row.low).removesuffix(f"{GLUE}%"),
            high=percent(row.high),
        )

    def show_parted(self, parted: Parted | None) -> None:
        """The group parted once more, where it has more than one part; None while that is being counted."""
        shown = [rate for rate in parted.parts if rate.share is not None] if parted is not None else []
        there = len(shown) > 1
        for part in (self._split_title, self.split, self._split_said):
            set_shown(part, there)
        if not there or parted is None or self._row is None:
            return
        title = say("{name} by {what}", name=self._row.name, what=say(parted.by.value))
        self._split_title.setText(title)
        self.split.setAccessibleName(title)
        model = self.split.rows_model()
        model.columns = (TableColumn("name", say(HEADS[parted.by]), 0, least=90), *model.columns[1:])
        self.split.set_rows([_split_row(rate, parted.by) for rate in shown])
        self._split_said.setText(told_apart(shown, parted.by))

    def _open(self, *, came_back: bool) -> None:
        if self._row is None:
            return
        name = current().value(self._row.name)
        if came_back:
            self.opened.emit(self._row.came_back_jobs, say("{name}: jobs that came back", name=name))
        else:
            self.opened.emit(self._row.jobs, say("{name}: all that could come back", name=name))


def counted_rows(row: RateRow, question: Question) -> list[Row]:
    """What was handed back, what of it does not count and why, what is left, and what the shop said of it."""
    lines = [(say("handed back"), row.handed_back, False, False)]
    if row.too_young:
        words = say("watched for less than {days} days", days=question.window)
        lines.append((words, row.too_young, True, False))
    if row.not_counted:
        lines.append((say("not mended (declined, no fault shown)"), row.not_counted, True, False))
    if row.set_aside:
        lines.append((say("days cannot be right"), row.set_aside, True, False))
    lines.append((say("could have come back"), row.could, False, True))
    same = say("came back, same fault group") if question.same_group else say("came back, any fault")
    lines.append((same, row.came_back, False, True))
    lines += [
        (say("of these confirmed"), row.confirmed, False, False),
        (say("of these undecided"), row.undecided, False, False),
        (say("denied, so not counted"), row.denied, False, False),
    ]
    return [
        Row(
            words,
            (
                Words(words, strong=strong),
                Words(f"{MINUS if less else ''}{number(count, grouped=True)}", strong=strong, right=True),
            ),
        )
        for words, count, less, strong in lines
    ]


def part_name(label: str, by: By) -> str:
    """A part's name: a type as the shop calls it, the other words in the window's language."""
    return label if by is By.TRANSPORT_TYPE and label != UNKNOWN else say(label)


def told_apart(split: Sequence[Rate], by: By) -> str:
    """Whether the parts of a group can be told apart, in one sentence."""
    odd = [rate for rate in split if rate.verdict in (Verdict.MORE_OFTEN, Verdict.LESS_OFTEN)]
    if odd:
        first = odd[0]
        p = current().value(shown_p(first.adjusted))
        name = part_name(first.label, by)
        if first.verdict is Verdict.MORE_OFTEN:
            return say("{name} comes back more often than the others (adjusted p {p}).", name=name, p=p)
        return say("{name} comes back less often than the others (adjusted p {p}).", name=name, p=p)
    least = min(rate.adjusted for rate in split)
    return say("They cannot be told apart (least adjusted p {p}).", p=current().value(shown_p(least)))


def _split_row(rate: Rate, by: By) -> Row:
    low = percent(rate.low).removesuffix(f"{GLUE}%")
    interval = say("{low} to {high}", low=low, high=percent(rate.high))
    return Row(
        rate.label,
        (
            Words(part_name(rate.label, by)),
            Words(say("{x} of {n}", x=rate.counted.came_back, n=rate.counted.could)),
            Words(percent(rate.share or 0.0), interval),
        ),
    )
