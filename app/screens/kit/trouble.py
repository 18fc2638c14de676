"""The bar at the top of a page when something went wrong: what happened, why, what to do."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QRectF
from PySide6.QtGui import QGuiApplication, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.screens.kit.boxes import Column, Flow, Row, clear_layout
from app.screens.kit.buttons import Button
from app.screens.kit.label import Label
from app.screens.kit.measure import px
from app.screens.kit.palette import ink
from app.screens.kit.shapes import flag_shape
from app.screens.language import say

Action = tuple[str, Callable[[], object]]


class TroubleBar(QWidget):
    """Hidden until `show_trouble`. The first action takes the focus; details can be copied."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        self.setAccessibleName(say("Trouble"))
        self._what = Label("", "strong", wrap=True)
        self._why = Label("", wrap=True)
        self._actions = QWidget()
        self._actions_row = Flow(self._actions, gap=12)
        self._actions.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
        self._details = ""
        self._wide = 0
        text = Column(gap=2)
        text.add(self._what, self._why)
        self._beside = Row(gap=18)
        self._beside.addLayout(text, 1)
        self._beside.addWidget(self._actions)
        self._below = Row(gap=18)
        Column(self, gap=5, margins=(60, 10, 27, 12)).add(self._beside, self._below)
        self.hide()

    def show_trouble(
        self, what: str, why: str = "", actions: Sequence[Action] = (), *, details: str = ""
    ) -> None:
        """Say ``what`` happened, ``why`` and what to do, with up to three actions; ``details`` adds
        "Copy details". Showing trouble again replaces it."""
        self._what.setText(what)
        self._why.setText(why)
        self._why.setVisible(bool(why))
        self._details = details
        self._empty()
        made = [Button(text, call) for text, call in actions]
        if details:
            made.append(Button(say("Copy details"), self._copy, kind="quiet"))
        made.append(Button(say("Hide this"), self.clear, kind="quiet"))
        for button in made:
            self._actions_row.addWidget(button)
        wide = sum(b.sizeHint().width() for b in made) + px(12) * (len(made) - 1)
        self._wide = wide
        self._place_actions()
        self.setAccessibleDescription(f"{what} {why}".strip())
        self.show()
        made[0].setFocus()

    def clear(self) -> None:
        """The trouble is over."""
        self._empty()
        self._details = ""
        self.hide()

    @property
    def words(self) -> str:
        """What it says now, empty when hidden."""
        return "" if self.isHidden() else f"{self._what.text()} {self._why.text()}".strip()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place_actions()

    def _place_actions(self) -> None:
        """Beside the words while these keep more than half the width, else below them."""
        beside = self._wide < self.width() * 0.45
        layout, other = (self._beside, self._below) if beside else (self._below, self._beside)
        if layout.indexOf(self._actions) < 0:
            other.removeWidget(self._actions)
            layout.addWidget(self._actions)
        self._actions.setMinimumWidth(self._wide if beside else 0)

    def _copy(self) -> None:
        clipboard = QGuiApplication.clipboard()
        clipboard.setText(f"{self._what.text()}\n{self._why.text()}\n\n{self._details}")

    def _empty(self) -> None:
        clear_layout(self._actions_row)

    def paintEvent(self, event: QPaintEvent) -> None:
        p = QPainter(self)
        p.fillRect(self.rect(), ink("alternate"))
        p.fillRect(QRectF(0, 0, px(8), self.height()), ink("stop"))
        p.fillRect(QRectF(0, self.height() - 2, self.width(), 2), ink("stop"))
        side = px(18)
        flag_shape(p, QRectF(px(28), px(12), side, side), "stop")
