"""The one step that cannot be undone: what will be frozen, and the verb that does it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Column, Row
from app.screens.kit.buttons import Button
from app.screens.kit.day_field import DayField
from app.screens.kit.form import Form
from app.screens.kit.label import Label
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.strokes import hline
from app.screens.language import say
from app.trade.sentence import Sentence
from app.work.office.invoice_view import InvoiceView


class IssueStrip(QWidget):
    """Opens under the heading when the invoice is asked for; Esc folds it again. The date is today's unless another
    is typed; one that cannot be is told at the field, before anything is issued. `dated` brings each that can be."""

    dated = Signal(object)

    def __init__(
        self,
        issue: Callable[[date], object],
        leave: Callable[[], object],
        today: Callable[[], date],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._issue, self._leave = issue, leave
        self._view: InvoiceView | None = None
        self._dated: date | None = None
        self._what = Label("", "strong", wrap=True)
        self._rest = Label(
            say(
                "The next number of the series is taken. From then on number, day, lines, sums and the names of "
                "modifications on it are frozen: a wrong invoice is put right by a credit note, never changed."
            ),
            wrap=True,
        )
        self.day = DayField(say("Date of the invoice"), today, width=150)
        self.day.day_changed.connect(lambda _: self._ask())
        self.day.left.connect(self._tell)
        dated = Form(sections=False, label_width=48)
        dated.row(say("Dated"), self.day, stretch_last=True)
        dated.save_asked.connect(self._try)
        dated.leave_asked.connect(leave)
        self.issue = Button(say("Issue it now"), self._try, kind="main")
        self.not_yet = Button(say("Not yet"), leave, kind="quiet", key="Esc")
        buttons = Row(gap=14)
        buttons.add(self.issue, self.not_yet)
        buttons.addStretch(1)
        column = Column(self, gap=7, margins=(14, 11, 9, 11))
        column.add(self._what, dated, self._rest)
        column.addLayout(buttons)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        self.setAccessibleName(say("Issue the invoice"))
        self.hide()

    @property
    def is_open(self) -> bool:
        """Whether it is in sight."""
        return not self.isHidden()

    def unfold(self, view: InvoiceView) -> None:
        """Say what will be frozen and wait for the verb."""
        self._view, self._dated = view, view.days.today  # as the draft is drawn
        self.day.set_error("")
        self.day.set_day(view.days.proposed)
        self._ask()
        self.show()
        self.issue.setFocus(Qt.FocusReason.OtherFocusReason)

    def _ask(self) -> None:
        view, day = self._view, self.day.day()
        if view is None or day is None:
            return
        if day != self._dated and view.days.check(day) is None:
            self._dated = day
            self.dated.emit(day)
        count, total = len(view.draft.draft.lines), view.draft.totals.asked
        self._what.setText(
            say("Issue this invoice: 1 line, {total}, dated {day}?", total=total, day=day)
            if count == 1
            else say("Issue this invoice: {n} lines, {total}, dated {day}?", n=count, total=total, day=day)
        )

    def _tell(self) -> None:
        """Say at once, on leaving the field, what is wrong with its day."""
        view, day = self._view, self.day.day()
        if view is not None and day is not None and (wrong := view.days.check(day)):
            self.day.set_error(say(wrong))

    def _try(self) -> None:
        view, day = self._view, self.day.day()
        if view is None or not self.issue.isEnabled():
            return
        if day is None:
            self.refuse(Sentence("Write the date that the invoice shall carry."))
        elif wrong := view.days.check(day):
            self.refuse(wrong)
        else:
            self._issue(day)

    def refuse(self, why: Sentence) -> None:
        """Say at the field why the invoice cannot carry this date."""
        self.day.set_error(say(why))
        self.day.setFocus(Qt.FocusReason.OtherFocusReason)

    def fold(self) -> None:
        """Away with it."""
        self.hide()

    def wait(self, waiting: bool) -> None:
        """While it is being issued nothing can be pressed twice."""
        self.issue.setEnabled(not waiting)
        self.not_yet.setEnabled(not waiting)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self._leave()
            return
        super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        p.fillRect(self.rect(), ink("alternate"))
        hline(p, 0, self.width(), 0, "edge")
        hline(p, 0, self.width(), self.height() - 1, "edge")
        p.fillRect(QRectF(0, 0, px(3), self.height()), ink("accent"))
