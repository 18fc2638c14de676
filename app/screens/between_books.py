"""A small window while no book is open: what is being done, or why the book was refused and what to do."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QFileDialog, QWidget

from app.screens.desk import Errand
from app.screens.kit import measure
from app.screens.kit.boxes import Column, Row, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.kit.scrolling import Scroller
from app.screens.language import say
from app.trade.refusal import BookRefused


class BetweenBooks(QWidget):
    """``wait`` says what is being done; ``refuse`` says why there is no book, and offers to try again, to choose
    another book, or to end."""

    def __init__(
        self,
        again: Callable[[Errand], object],
        instead: Callable[[Path, Errand], object],
        end: Callable[[], object],
    ) -> None:
        super().__init__()
        self._again, self._instead, self._end = again, instead, end
        self._errand: Errand | None = None
        self.setWindowTitle(say("Spindlebook"))
        self.setBackgroundRole(self.palette().ColorRole.Base)
        self.setAutoFillBackground(True)
        measure.fix(self, width=620, min_height=180)
        self._what = Label("", "large", wrap=True)
        self._step = Label("", wrap=True)
        self.try_again = Button(say("Try again"), self._ask_again, kind="main")
        self.choose = Button(say("Open another book…"), self._choose)
        self.leave = Button(say("End the program"), self.close)
        self._buttons = QWidget()
        self._row = Row(self._buttons, gap=9)
        self._row.add(self.try_again, self.choose, self.leave)
        self._row.addStretch(1)
        words = Column(gap=9, margins=(27, 0, 27, 0))
        words.add(self._what, self._step)
        inside = QWidget()
        self.inside = Column(inside, gap=9, margins=(0, 27, 0, 9))
        self.inside.addLayout(words)
        self.inside.addStretch(0)
        self.scroller = Scroller(inside)
        foot = Column(margins=(27, 0, 27, 27))
        foot.add(self._buttons)
        self.column = Column(self)
        self.column.add(self.scroller, stretch=1)
        self.column.addLayout(foot)

    @property
    def words(self) -> str:
        """What it says now."""
        return f"{self._what.text()} {self._step.text()}".strip()

    def wait(self, saying: str) -> None:
        """Say what is being done; there is nothing to press meanwhile."""
        self._errand = None
        self._what.setText(saying)
        self._step.setText("")
        set_shown(self._buttons, False)
        self.show()

    def refuse(self, refused: BookRefused, errand: Errand) -> None:
        """Say why no book could be opened after an errand."""
        self._errand = errand
        self._what.setText(say(refused.sentence))
        self._step.setText(say(refused.next_step) if refused.next_step is not None else "")
        set_shown(self._buttons, True)
        self.show()
        self.try_again.setFocus()

    def closeEvent(self, event: QCloseEvent) -> None:
        if self._errand is not None:
            self._errand = None
            self._end()
        elif self.isVisible() and not self._buttons.isVisible() and event.spontaneous():
            event.ignore()  # what is being done is not to be cut off
            return
        super().closeEvent(event)

    def _ask_again(self) -> None:
        if self._errand is not None:
            self._again(self._errand)

    def _choose(self) -> None:
        errand = self._errand
        if errand is None:
            return
        name, _ = QFileDialog.getOpenFileName(
            self, say("Open another book"), str(errand.path.parent), say("Book (*.sqlite)")
        )
        if name:
            self._instead(Path(name), errand)
