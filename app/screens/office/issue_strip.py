"""The one step that cannot be undone: what will be frozen, and the verb that does it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Column, Row
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.strokes import hline
from app.screens.language import say
from app.work.office.invoices import InvoiceDraft


class IssueStrip(QWidget):
    """Opens under the heading when the invoice is asked for; Esc folds it again."""

    def __init__(
        self, issue: Callable[[], object], leave: Callable[[], object], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._leave = leave
        self._what = Label("", "strong", wrap=True)
        self._rest = Label(
            say(
                "The next number of the series is taken. From then on number, day, lines, sums and the names of "
                "modifications on it are frozen: a wrong invoice is put right by a credit note, never changed."
            ),
            wrap=True,
        )
        self.issue = Button(say("Issue it now"), issue, kind="main")
        self.not_yet = Button(say("Not yet"), leave, kind="quiet", key="Esc")
        buttons = Row(gap=14)
        buttons.add(self.issue, self.not_yet)
        buttons.addStretch(1)
        column = Column(self, gap=7, margins=(14, 11, 9, 11))
        column.add(self._what, self._rest)
        column.addLayout(buttons)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        self.setAccessibleName(say("Issue the invoice"))
        self.hide()

    @property
    def is_open(self) -> bool:
        """Whether it is in sight."""
        return not self.isHidden()

    def unfold(self, drafted: InvoiceDraft, today: date) -> None:
        """Say what will be frozen and wait for the verb."""
        count = sum(1 for _ in drafted.draft.lines)
        total = drafted.totals.gross
        self._what.setText(
            say("Issue this invoice: 1 line, {total}, dated {day}?", total=total, day=today)
            if count == 1
            else say("Issue this invoice: {n} lines, {total}, dated {day}?", n=count, total=total, day=today)
        )
        self.show()
        self.issue.setFocus(Qt.FocusReason.OtherFocusReason)

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
