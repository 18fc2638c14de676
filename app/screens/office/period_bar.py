"""Which days a bookkeeper asks for, and the decimal mark of the file."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.desk import Desk
from app.screens.kit.boxes import Flow, Row, set_shown
from app.screens.kit.combo import Combo
from app.screens.kit.day_field import DayField
from app.screens.kit.label import Label
from app.screens.language import current, say
from app.trade.calendar.period import Period, month_of, period_of, quarter_of, year_of
from app.trade.refusal import FieldRefusal
from app.trade.sentence import Sentence
from app.trade.upkeep.csv_text import Mark, mark_like

MONTH, THIS_MONTH, QUARTER, THIS_QUARTER, YEAR, THIS_YEAR, CHOSEN = range(7)
SPANS: tuple[tuple[int, Sentence, Callable[[date], Period]], ...] = (
    (MONTH, Sentence("the month before"), lambda day: month_of(day, 1)),
    (THIS_MONTH, Sentence("this month"), month_of),
    (QUARTER, Sentence("the quarter before"), lambda day: quarter_of(day, 1)),
    (THIS_QUARTER, Sentence("this quarter"), quarter_of),
    (YEAR, Sentence("the year before"), lambda day: year_of(day, 1)),
    (THIS_YEAR, Sentence("this year"), year_of),
)


class PeriodBar(QWidget):
    """`asked` tells that another period is wanted; ``period`` is the present one."""

    asked = Signal()

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        spans = [(key, say(words)) for key, words, _ in SPANS]
        self.span = Combo(say("Period"), [*spans, (CHOSEN, say("from day to day"))], MONTH)
        first = month_of(desk.today(), 1)
        self.since = DayField(say("First day"), desk.today, day=first.first, width=130)
        self.until = DayField(say("Last day"), desk.today, day=first.last, width=130)
        marks = [
            (Mark.POINT, say("1234.50, commas between cells")),
            (Mark.COMMA, say("1234,50, semicolons between")),
        ]
        self.mark = Combo(say("Numbers as"), marks, mark_like(current().decimal_mark))
        self._days = QWidget()
        days = Row(self._days, gap=9)
        days.add(self.since, Label(say("to"), "soft"), self.until)
        flow = Flow(self, gap=16, line_gap=7)
        flow.add(_pair(say("Period"), self.span), self._days, _pair(say("Numbers as"), self.mark))
        set_shown(self._days, False)
        self.span.changed.connect(self._changed)
        for end in (self.since, self.until):
            end.day_changed.connect(self._changed)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def period(self) -> Period:
        """What is asked now. Raises FieldRefusal for days that are none, or not in order."""
        chosen = self.span.value()
        if chosen != CHOSEN:
            return next(of(self._desk.today()) for key, _, of in SPANS if key == chosen)
        return period_of(self.since.day(), self.until.day())

    def refuse(self, refusal: FieldRefusal | None) -> None:
        """Show what is wrong under its field; None takes it away."""
        fields = {} if refusal is None else refusal.fields
        self.since.set_error(say(fields["first"]) if "first" in fields else "")
        self.until.set_error(say(fields["last"]) if "last" in fields else "")

    def _changed(self, _: Any) -> None:
        set_shown(self._days, self.span.value() == CHOSEN)
        self.asked.emit()


def _pair(words: str, field: QWidget) -> QWidget:
    pair = QWidget()
    row = Row(pair, gap=7)
    row.add(Label(words, "soft"), field)
    return pair
