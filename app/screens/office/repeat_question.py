"""What is asked on the page of repeat faults: the filter bar, and the days that its periods mean."""

from __future__ import annotations

from datetime import date
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import Flow, Row, set_shown
from app.screens.kit.combo import Combo
from app.screens.kit.day_field import DayField
from app.screens.kit.label import Label
from app.screens.language import day, say
from app.trade.bench.kinds import FaultGroup
from app.trade.sentence import Sentence
from app.trade.statistics.comebacks import By
from app.work.office.repeat_faults import Question

WINDOWS = (30, 90, 180, 365)
WHOLE, YEAR, THREE, CHOSEN = "whole", "year", "three", "chosen"
ANY = "all"
BY_WORDS = (
    (By.TRANSPORT_TYPE, Sentence("transport type")),
    (By.FAULT_GROUP, Sentence("fault group")),
    (By.MODIFICATION, Sentence("modification")),
)


class QuestionBar(QWidget):
    """Handed back, within, fault group, by. `asked` brings the question whenever one of them changes."""

    asked = Signal(object)

    def __init__(self, desk: Desk, window: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.period = Combo(say("Handed back"), _periods(desk.today()), WHOLE)
        self.since = DayField(say("Handed back from"), desk.today, width=120)
        self.until = DayField(say("Handed back until"), desk.today, width=120)
        self.window_days = Combo(say("Within"), [(n, say("{days} days", days=n)) for n in WINDOWS], window)
        groups: list[tuple[Any, str]] = [(ANY, say("all"))]
        groups += [(group, say(group.value)) for group in FaultGroup]
        self.group = Combo(say("Fault group"), groups, ANY)
        self.by = Combo(say("Parted by"), [(by, say(word)) for by, word in BY_WORDS], By.TRANSPORT_TYPE)
        self._days = QWidget()
        days = Row(self._days, gap=9)
        days.add(self.since, Label(say("to"), "soft"), self.until)
        flow = Flow(self, gap=16, line_gap=7)
        flow.add(
            _pair(say("Handed back"), self.period),
            self._days,
            _pair(say("Within"), self.window_days),
            _pair(say("Fault group"), self.group),
            _pair(say("Parted by"), self.by),
        )
        set_shown(self._days, False)
        for field in (self.period, self.window_days, self.group, self.by):
            field.changed.connect(self._changed)
        for end in (self.since, self.until):
            end.day_changed.connect(self._changed)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def question(self) -> Question:
        """What is asked now."""
        group = self.group.value()
        since, until = self._span()
        return Question(
            by=self.by.value(),
            window=self.window_days.value(),
            since=since,
            until=until,
            group=group if isinstance(group, FaultGroup) else None,
        )

    def told(self) -> tuple[str, ...]:
        """What is asked now, in words."""
        period = self.period.currentText()
        if self.period.value() == CHOSEN:
            days = [day(one) if one is not None else "…" for one in self._span()]
            period = say("from {first} to {last}", first=days[0], last=days[1])
        told = [
            say("handed back {period}", period=period),
            say("came back within {days}", days=self.window_days.currentText()),
        ]
        if self.group.value() != ANY:
            told.append(say("fault group {group}", group=self.group.currentText()))
        return tuple(told)

    def set_window(self, days: int) -> None:
        """The shop's own window, while nobody has chosen another."""
        self.window_days.blockSignals(True)
        self.window_days.set_value(days)
        self.window_days.blockSignals(False)

    def _span(self) -> tuple[date | None, date | None]:
        today, period = self._desk.today(), self.period.value()
        if period == CHOSEN:
            return self.since.day(), self.until.day()
        if period == YEAR:
            return years_back(today, 1), None
        if period == THREE:
            return years_back(today, 3), None
        if isinstance(period, int):
            return date(period, 1, 1), date(period, 12, 31)
        return None, None

    def _changed(self, _: Any) -> None:
        set_shown(self._days, self.period.value() == CHOSEN)
        self.asked.emit(self.question())


def years_back(day: date, years: int) -> date:
    """The same day of an earlier year; of 29 February the 28th."""
    try:
        return day.replace(year=day.year - years)
    except ValueError:
        return day.replace(year=day.year - years, day=28)


def _periods(today: date) -> list[tuple[Any, str]]:
    recent = [(WHOLE, say("at any time")), (YEAR, say("in the last year")), (THREE, say("in three years"))]
    years = [(year, say("in {year}", year=str(year))) for year in range(today.year, today.year - 5, -1)]
    return [*recent, *years, (CHOSEN, say("from day to day"))]


def _pair(word: str, field: QWidget) -> QWidget:
    pair = QWidget()
    Row(pair, gap=9).add(Label(word, "soft"), field)
    pair.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
    return pair
