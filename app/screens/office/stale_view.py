"""Somebody else saved the same thing in between: both values side by side, and what to do."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Column, Row
from app.screens.kit.buttons import Button
from app.screens.kit.cells import Column as TableColumn
from app.screens.kit.cells import Row as TableRow
from app.screens.kit.cells import Words
from app.screens.kit.label import Label
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.strokes import hline
from app.screens.kit.table import SmallTable
from app.screens.language import say


@dataclass(frozen=True)
class Differing:
    """One field in which the two differ, both values worded."""

    what: str
    mine: str
    theirs: str


class StaleView(QWidget):
    """`kept` wants what was typed here saved over theirs, `taken` wants theirs in the form."""

    kept = Signal()
    taken = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rows: tuple[Differing, ...] = ()
        self._title = Label(
            say("Somebody else saved this in between. Nothing was overwritten; compare both."),
            "strong",
            wrap=True,
        )
        self._table = SmallTable(
            say("Both values"),
            (
                TableColumn("what", say("What"), 190),
                TableColumn("mine", say("Typed here"), 0, least=120),
                TableColumn("theirs", say("Saved by somebody else"), 0, least=120),
            ),
        )
        self.keep = Button(say("Save what is typed here"), self.kept.emit)
        self.take = Button(say("Take what was saved"), self.taken.emit)
        buttons = Row(gap=9)
        buttons.add(self.keep, self.take)
        buttons.addStretch(1)
        inside = Column(gap=7, margins=(9, 0, 9, 0))
        inside.add(self._title)
        below = Column(margins=(9, 0, 9, 0))
        below.addLayout(buttons)
        column = Column(self, gap=7, margins=(5, 11, 0, 11))
        column.addLayout(inside)
        column.add(self._table)
        column.addLayout(below)
        self.setAccessibleName(say("Saved by somebody else in between"))
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        self.hide()

    def compare(self, rows: Sequence[Differing]) -> None:
        """Show both values of every field that differs."""
        self.rows = tuple(rows)
        self._table.set_rows(
            [
                TableRow(at, (Words(r.what, soft=True), _words(r.mine), _words(r.theirs)))
                for at, r in enumerate(rows)
            ]
        )
        self.show()
        self.keep.setFocus(Qt.FocusReason.OtherFocusReason)

    def clear(self) -> None:
        """It is settled."""
        self.rows = ()
        self.hide()

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        p.fillRect(self.rect(), ink("alternate"))
        p.fillRect(QRectF(0, 0, px(2), self.height()), ink("caution"))
        p.fillRect(QRectF(px(4), 0, px(1), self.height()), ink("caution"))
        hline(p, 0, self.width(), 0, "line")
        hline(p, 0, self.width(), self.height() - 1, "line")


def _words(text: str) -> Words:
    return Words(text, tip=text) if text else Words(say("empty"), soft=True)
