"""What is still to do before a job may pass: a row of boxes, ticked when done."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit import measure
from app.screens.kit.boxes import Flow, Row, clear_layout, set_shown
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.kit.measure import px
from app.screens.kit.shapes import open_box, ticked_box
from app.screens.kit.strokes import words
from app.screens.language import say


@dataclass(frozen=True)
class GateFacts:
    """One gate: its word, whether it is done, and then when, value or person. ``action`` is a link."""

    word: str
    done: bool = False
    detail: str = ""
    action: str = ""
    target: Any = None


class GateBox(QWidget):
    """One box with its word and soft detail."""

    def __init__(self, gate: GateFacts, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.gate = gate
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        state = say("done") if gate.done else say("still to do")
        self.setAccessibleName(f"{gate.word}: {state} {gate.detail}".strip())

    def refit(self) -> None:
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        behind = measure.width(self.gate.detail) + px(7) if self.gate.detail else 0
        return QSize(px(20) + measure.width(self.gate.word) + behind + px(2), px(22))

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        side = px(12)
        rect = QRectF(0, (self.height() - side) / 2, side, side)
        (ticked_box if self.gate.done else open_box)(p, rect)
        room = QRectF(px(20), 0, self.width() - px(20), self.height())
        taken = words(p, room, self.gate.word, font=measure.body(), elide=False)
        if self.gate.detail:
            words(p, room.adjusted(taken + px(7), 0, 0, 0), self.gate.detail, of="soft", elide=False)


class GateRow(QWidget):
    """ "Still to do", the boxes, a soft word behind, and the links to do them at the right end."""

    acted = Signal(object)

    def __init__(self, title: str = "", note: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._title = title or say("Still to do")
        self._note = note
        self._boxes = QWidget()
        self._flow = Flow(self._boxes, gap=20, line_gap=3)
        self._links = QWidget()
        self._link_row = Row(self._links, gap=18)
        row = Row(self, gap=18)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self._boxes.setSizePolicy(policy)
        row.addWidget(self._boxes, 1)
        row.addWidget(self._links, 0, Qt.AlignmentFlag.AlignTop)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        self.setAccessibleName(self._title)

    def set_gates(self, gates: Sequence[GateFacts], note: str | None = None) -> None:
        """Show these gates; none hides the row."""
        for layout in (self._flow, self._link_row):
            clear_layout(layout)
        if note is not None:
            self._note = note
        self._flow.add(Label(self._title, "strong"))
        for gate in gates:
            self._flow.add(GateBox(gate))
            if gate.action and not gate.done:
                link = Button(gate.action, kind="quiet")
                link.done.connect(lambda target=gate.target: self.acted.emit(target))
                self._link_row.addWidget(link)
        if self._note:
            self._flow.add(Label(self._note, "soft"))
        set_shown(self, bool(gates))
