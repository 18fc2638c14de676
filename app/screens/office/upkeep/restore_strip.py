"""Whether a copy shall take the book's place: what is inside, what is left behind, and the verb."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Column, Row
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.strokes import hline
from app.screens.language import moment, say
from app.work.upkeep.copies import Copy


class RestoreStrip(QWidget):
    """Opens once a copy was looked through; Esc folds it again."""

    def __init__(
        self, restore: Callable[[Copy], object], leave: Callable[[], object], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.copy: Copy | None = None
        self._do, self._leave = restore, leave
        self._what = Label("", "strong", wrap=True)
        self._inside = Label("", wrap=True)
        self._rest = Label(
            say(
                "The window closes for this and opens again. The present book is copied and kept aside with its "
                "files; what was written after this copy is in there, not in the restored book."
            ),
            wrap=True,
        )
        self.restore = Button(say("Restore this copy"), self._restore, kind="main")
        self.not_now = Button(say("Not now"), leave, kind="quiet", key="Esc")
        buttons = Row(gap=14)
        buttons.add(self.restore, self.not_now)
        buttons.addStretch(1)
        column = Column(self, gap=7, margins=(14, 11, 9, 11))
        column.add(self._what, self._inside, self._rest)
        column.addLayout(buttons)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        self.setAccessibleName(say("Restore a copy"))
        self.hide()

    def ask(self, copy: Copy) -> None:
        """Say what is inside a copy that was found sound, and wait for the verb."""
        self.copy = copy
        self._what.setText(say("Put the copy of {when} in the book's place?", when=moment(copy.made_at)))
        told = [say("It was looked through from end to end and is sound.")]
        told.append(say("It holds 1 job.") if copy.jobs == 1 else say("It holds {n} jobs.", n=copy.jobs))
        if copy.last_at is not None:
            told.append(say("The last entry in it is of {when}.", when=moment(copy.last_at)))
        self._inside.setText(" ".join(told))
        self.show()
        self.not_now.setFocus(Qt.FocusReason.OtherFocusReason)

    def fold(self) -> None:
        """Away with it."""
        self.copy = None
        self.hide()

    def _restore(self) -> None:
        if self.copy is not None:
            self._do(self.copy)

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
