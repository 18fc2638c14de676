"""The way from the Office to its lists, settings and the care of the book."""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import Column, Flow, Row
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.kit.margin import MarginPage
from app.screens.kit.measure import fix
from app.screens.kit.tips import plain_tip
from app.screens.language import say
from app.screens.office.figures.figure_kinds import KINDS
from app.screens.office.link_line import link_line
from app.trade.sentence import Sentence
from app.work.office.overview import Overview

LINK = 172  # wide enough for the longest of them
# Kind of page, its words, and what stands soft beside it.
GROUPS: tuple[tuple[Sentence, tuple[tuple[str, Sentence, Sentence], ...]], ...] = (
    (
        Sentence("Look back"),
        (
            ("invoices", Sentence("Invoices"), Sentence("all that were issued")),
            ("open_items", Sentence("Open items"), Sentence("by age, with reminders")),
            ("takings", Sentence("Takings of a day"), Sentence("by means")),
            ("uncollected", Sentence("Not collected"), Sentence("with notices")),
            ("bookkeeper", Sentence("For the bookkeeper"), Sentence("journal, papers as PDF")),
        ),
    ),
    (
        Sentence("Lists of the shop"),
        (
            ("parts", Sentence("Parts in stock"), Sentence("receive and count")),
            ("reorder", Sentence("What to order"), Sentence("by use and supplier")),
            ("transport_types", Sentence("Transport types"), Sentence("sheet, rungs, lock")),
            ("limits", Sentence("Limits"), Sentence("with their source")),
            ("quantities", Sentence("Quantities"), Sentence("what is measured")),
            ("knowledge", Sentence("Bench knowledge"), Sentence("ladder, suspects, changes")),
            ("cards", Sentence("Know-how cards"), Sentence("taking apart, test points")),
            ("instruments", Sentence("Instruments"), Sentence("accuracy, calibration")),
        ),
    ),
    (
        Sentence("The shop"),
        (
            ("settings", Sentence("Settings"), Sentence("money, papers, days")),
            ("staff", Sentence("Staff"), Sentence("marks and PINs")),
            ("upkeep", Sentence("Care of the book"), Sentence("copies, check, export")),
        ),
    ),
)


class OfficeMargin(MarginPage):
    """The links one below the other, each with what stands behind it."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(say("Lists, settings and care of the book"), width=384, parent=parent)
        self._details: dict[str, Label] = {}
        self._usual: dict[str, str] = {}
        asked = Column(gap=4)
        asked.add(Label(say("Ask the shop's own jobs"), "strong"))
        self.questions = _questions(desk)
        asked.add(link_line(*self.questions))
        self.column.addLayout(asked)
        self.column.add(9)
        for heading, links in GROUPS:
            part = Column(gap=2)
            part.add(Label(say(heading), "strong"), 4)
            for kind, words, detail in links:
                link = Button(say(words), partial(desk.open, kind), kind="quiet")
                fix(link, min_width=LINK)
                label = Label(say(detail), "soft", elide=True)
                self._details[kind], self._usual[kind] = label, say(detail)
                line = Row(gap=11)
                line.add(link)
                line.add(label, stretch=1)
                part.addLayout(line)
            self.column.addLayout(part)
            self.column.add(9)
        self.column.addStretch(1)

    def first(self) -> QWidget:
        """The first link, where the focus goes when nothing waits."""
        return self.questions[0]

    def show_counts(self, found: Overview) -> None:
        """Tell beside a link what has to be seen to there."""
        self._tell("instruments", _overdue(found.instruments_overdue))
        self._tell("staff", _without_pin(found.without_pin))
        self._tell("reorder", _late(found.orders_late))

    def _tell(self, kind: str, trouble: str) -> None:
        label = self._details[kind]
        label.setText(trouble or self._usual[kind])
        label.set_soft(not trouble)


class OfficeLinks(QWidget):
    """The same links in a line, for a narrow page."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        flow = Flow(self, gap=18, line_gap=4)
        flow.add(*_questions(desk))
        for _, links in GROUPS:
            for kind, words, _ in links:
                flow.add(Button(say(words), partial(desk.open, kind), kind="quiet"))
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)


def _questions(desk: Desk) -> list[Button]:
    """The eight questions in a word or two, and the page that tells of each."""
    found = []
    for kind in KINDS.values():
        link = Button(say(kind.short), partial(desk.open, "figure", kind.name), kind="quiet")
        link.setToolTip(plain_tip(say(kind.about)))
        link.setAccessibleDescription(say(kind.title))
        found.append(link)
    return [*found, Button(say("What can be asked"), partial(desk.open, "figures"), kind="quiet")]


def _overdue(count: int) -> str:
    if not count:
        return ""
    return say("1 overdue") if count == 1 else say("{n} overdue", n=count)


def _late(count: int) -> str:
    if not count:
        return ""
    return say("1 order is late") if count == 1 else say("{n} orders are late", n=count)


def _without_pin(count: int) -> str:
    if not count:
        return ""
    return say("1 has no PIN yet") if count == 1 else say("{n} have no PIN yet", n=count)
